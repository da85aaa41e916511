"""Facts about the rack, its controls and the meter. All numbers are judgement (J) after HANDBOOK.md, B3 to B6."""

from .model import Fact, judged, sign

FACTS = (
    Fact(
        "gas_in_it",
        ("refrigerant_only", "other_gas"),
        judged(0.01),
        (("non_condensables", judged(0.95)),),
        (sign("standing_pressure_high", judged(0.01, 0.85)),),
    ),
    Fact(
        "suction",
        ("at_set_point", "above", "below"),
        judged(0.05, 0.05),
        (
            ("high_load", judged(0.85, 0.01)),
            ("valve_failure", judged(0.55, 0.03)),
            ("unloader_stuck", judged(0.45, 0.10)),
            ("seized", judged(0.40, 0.02)),
            ("low_suction", judged(0.01, 0.95)),
            ("low_charge", judged(0.02, 0.65)),
            ("low_load", judged(0.02, 0.70)),
            ("transducer_error", judged(0.25, 0.25)),
        ),
        (
            sign("suction_above_set_point", judged(0.03, 0.88, 0.01)),
            sign("suction_below_set_point", judged(0.03, 0.01, 0.88)),
        ),
    ),
    Fact(
        "staging",
        ("steady", "swings"),
        judged(0.03),
        (("staging", judged(0.93)), ("transducer_error", judged(0.40)), ("short_cycling", judged(0.25))),
        (sign("rack_swings_around_set_point", judged(0.03, 0.85)),),
    ),
    Fact(
        "transducer",
        ("agrees", "wrong"),
        judged(0.02),
        (("transducer_error", judged(0.97)),),
        (sign("transducer_disagrees_with_gauge", judged(0.01, 0.90)),),
    ),
    Fact(
        "repeats",
        ("repeats", "does_not"),
        judged(0.02),
        (("meter_error", judged(0.96)), ("joint_fault", judged(0.10))),
        (sign("reading_does_not_repeat", judged(0.02, 0.88)),),
    ),
    Fact(
        "command",
        ("loaded", "unloaded"),
        judged(0.05),
        (("low_load", judged(0.55)), ("staging", judged(0.40))),
        (sign("commanded_unloaded", judged(0.03, 0.88)),),
    ),
)
