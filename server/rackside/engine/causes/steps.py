"""The measurements there are, what each shows, and what it costs in effort and hazard.

cost: judgement; about minutes of work, raised for energised work, a start or a wait, so that of two tests that tell as
much the safer and shorter comes first (order of work: CHECKS.md). state: the machine's state it needs.
"""

from ..points.point import ISOLATED, RUNNING, STARTING, STOPPED


class Step:
    """One measurement: its point, what it shows (sources of the model), its cost and the state it needs.

    name: the point's, unless the point is read once more in a way of its own.
    """

    def __init__(self, point: str, shows: "tuple[str, ...]", cost: float, state: str, name: str = "") -> None:
        self.point = point
        self.name = name or point
        self.shows = shows
        self.cost = cost
        self.state = state


# A sign costs a look or a question.
SIGN_COST = 0.5
# A test that needs the machine running, when it isn't, costs its one witnessed start.
START_COST = 6.0
LOOK = ""
# All three motor leads moved one place, and the amps read again.
LEAD_ROLL = "lead_roll"

STEPS = (
    Step("oil_level", ("finding:oil_level",), 1.0, LOOK),
    Step("oil_colour", ("reading:oil_colour",), 1.0, LOOK),
    Step("starts_last_hour", ("finding:start_rate",), 1.0, LOOK),
    Step("trip_delay", ("finding:oil_trip_timing",), 1.5, LOOK),
    Step("overload_dial", ("finding:overload_setting",), 1.0, LOOK),
    Step("reservoir_level", ("reading:reservoir_level",), 1.0, LOOK),
    Step("sump_temperature", ("finding:sump_superheat", "reading:sump_temperature"), 1.0, LOOK),
    Step("regulator_inlet_temperature", ("reading:regulator_inlet_temperature",), 1.5, LOOK),
    Step("insulation_resistance", ("finding:insulation", "finding:insulation_change"), 2.0, ISOLATED),
    Step("winding_resistance", ("finding:winding_balance",), 2.5, ISOLATED),
    Step("cable_insulation_resistance", ("finding:cable_insulation",), 3.0, ISOLATED),
    Step("protector_resistance", ("finding:protector",), 2.0, ISOLATED),
    Step("fan_capacitance", ("finding:fan_capacitance",), 2.5, ISOLATED),
    Step("line_voltage", ("finding:supply_voltage_level", "finding:supply_voltage_unbalance"), 2.0, STOPPED),
    Step("line_frequency", ("finding:supply_frequency",), 2.0, STOPPED),
    Step("phase_sequence", ("reading:phase_sequence",), 2.0, STOPPED),
    Step("control_chain", ("finding:control_chain",), 3.0, STOPPED),
    Step("coil_voltage", ("finding:coil_voltage",), 2.0, STOPPED),
    Step("heater_current", ("finding:heater",), 2.0, STOPPED),
    Step("oil_acid", ("reading:oil_acid",), 4.0, LOOK),
    Step(
        "running_current",
        ("finding:running_current_unbalance", "finding:single_phasing", "finding:running_current_level"),
        2.0,
        RUNNING,
    ),
    Step("pole_drop", ("finding:pole_drop",), 1.5, RUNNING),
    Step("running_current", ("finding:lead_roll",), 12.0, RUNNING, LEAD_ROLL),
    Step("load_voltage", ("finding:load_side_voltage",), 2.5, RUNNING),
    Step("fuse_drop", ("finding:fuse_drop",), 2.5, RUNNING),
    Step("joint_drop", ("finding:joint_drop",), 2.5, RUNNING),
    Step("joint_temperature", ("reading:joint_temperature",), 1.5, RUNNING),
    Step("half_current", ("reading:half_current",), 3.0, RUNNING),
    Step("pump_pressure", ("finding:net_oil_pressure",), 3.0, RUNNING),
    Step("suction_temperature", ("finding:suction_superheat",), 2.0, RUNNING),
    Step("discharge_temperature", ("finding:discharge_temperature", "finding:discharge_superheat"), 1.5, RUNNING),
    Step("discharge_pressure", ("finding:compression_ratio", "reading:discharge_pressure"), 2.0, RUNNING),
    Step("liquid_temperature", ("finding:subcooling",), 2.0, RUNNING),
    Step("head_temperature", ("reading:head_temperature",), 1.5, RUNNING),
    Step("fan_current", ("finding:fan_current",), 2.0, RUNNING),
    Step("fan_speed", ("finding:fan_speed",), 1.5, RUNNING),
    Step("injection_line", ("reading:injection_line",), 1.5, RUNNING),
    Step("unloader_step", ("finding:unloader",), 3.0, RUNNING),
    Step("pump_down_vacuum", ("finding:pump_down",), 8.0, RUNNING),
    Step("drive_output_current", ("reading:drive_output_current",), 3.0, RUNNING),
    Step("start_current", ("finding:start_current",), 5.0, STARTING),
    Step("start_voltage", ("finding:start_voltage_sag",), 5.0, STARTING),
    Step("second_half_delay", ("reading:second_half_delay",), 5.0, STARTING),
)

# Points only some machines have: point, the machine's word, the words it needs (when the word is known).
ONLY_FOR = (
    ("half_current", "start", ("part-winding",)),
    ("second_half_delay", "start", ("part-winding",)),
    ("drive_output_current", "start", ("drive",)),
    ("pump_down_vacuum", "type", ("semi-hermetic-reciprocating", "open-reciprocating", "welded-reciprocating")),
    ("unloader_step", "type", ("semi-hermetic-reciprocating", "open-reciprocating")),
    ("head_temperature", "type", ("semi-hermetic-reciprocating", "open-reciprocating")),
    ("phase_sequence", "type", ("semi-hermetic-screw", "open-screw", "welded-scroll")),
    ("pump_pressure", "type", ("semi-hermetic-reciprocating", "open-reciprocating", "open-screw",
                               "semi-hermetic-screw")),
    ("pump_pressure", "oil_pump", ("reversible", "one-way", "screw")),
)  # fmt: skip
