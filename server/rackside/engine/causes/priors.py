"""How often each cause is behind a complaint before anything is measured, in percent.

Source: HANDBOOK.md, B1 to B10. The handbook marks every one of them as rough judgement (J): they order the work and are
not statistics. Where one row of the handbook covers several causes of the contract, the row's figure is split and the
split is judgement too. Complaints without a table there are judgement altogether.
"""

from .model import JUDGEMENT

MARK = JUDGEMENT
# Shares of the whole: the complaint's own table, what is on no list, and every other cause together. Judgement.
TABLE_SHARE = 0.90
UNKNOWN_SHARE = 0.04
NOTHING_FOUND_SHARE = 0.01
METER_ERROR_SHARE = 0.01
ELSEWHERE_SHARE = 0.04

# B2 for an overload and for a breaker: "overload set wrong or tired; breaker weak" leans to the device that tripped.
_TRIP = (
    ("contactor_pole", 15), ("joint_fault", 7), ("high_load", 12), ("high_condensing", 8), ("low_voltage", 10),
    ("voltage_unbalance", 8), ("grounded_winding", 8), ("shorted_turns", 4), ("cable_fault", 6), ("seized", 6),
    ("liquid_slug", 4),
)  # fmt: skip

PRIORS = (
    ("oil_trip", (  # B1
        ("floodback", 24), ("migration", 6), ("oil_regulator", 12), ("oil_away", 10), ("never_ran", 15),
        ("oil_control_fault", 10), ("short_cycling", 7), ("oil_pump_fault", 6), ("worn_bearings", 6),
        ("low_suction", 4),
    )),
    ("overload_trip", (("overload_setting", 9), ("breaker_weak", 3)) + _TRIP),  # B2
    ("breaker_trip", (("overload_setting", 2), ("breaker_weak", 10)) + _TRIP),  # B2
    ("short_cycling", (  # B3
        ("staging", 22), ("transducer_error", 8), ("low_load", 6), ("unloader_stuck", 6), ("drive_fault", 3),
        ("low_charge", 15), ("high_condensing", 7), ("head_fan", 3), ("discharge_check_leak", 10),
        ("protector_open", 10), ("contactor_chatter", 10),
    )),
    ("high_current", (  # B4
        ("high_condensing", 22), ("non_condensables", 6), ("high_load", 15), ("floodback", 7), ("low_voltage", 15),
        ("voltage_unbalance", 6), ("contactor_pole", 4), ("supply_leg_lost", 2), ("worn_bearings", 8),
        ("shorted_turns", 4), ("wrong_expectation", 11),
    )),
    ("low_current", (  # B5
        ("low_load", 30), ("unloader_stuck", 14), ("staging", 8), ("valve_failure", 22), ("low_charge", 12),
        ("reverse_rotation", 4), ("slide_valve", 2), ("worn_bearings", 4), ("meter_error", 4),
    )),
    ("unbalanced_current", (  # B6
        ("voltage_unbalance", 35), ("contactor_pole", 18), ("joint_fault", 16), ("shorted_turns", 9),
        ("open_winding", 3), ("cable_fault", 4), ("part_winding_fault", 8), ("meter_error", 7),
    )),
    ("no_start", (  # B7, humming 40 and silent 60 of 100
        ("contactor_pole", 8), ("supply_leg_lost", 9), ("joint_fault", 3), ("low_voltage", 8),
        ("start_against_pressure", 6), ("migration", 3), ("part_winding_fault", 2), ("seized", 5),
        ("control_circuit_open", 40), ("breaker_weak", 5), ("protector_open", 10), ("cable_fault", 1),
    )),
    ("high_discharge_temperature", (  # B8
        ("high_condensing", 22), ("low_suction", 22), ("hot_return_gas", 15), ("head_fan", 15), ("valve_failure", 10),
        ("injection_fault", 8), ("low_load", 4), ("transducer_error", 4),
    )),
    ("repeated_contactor_failure", (  # B9
        ("short_cycling", 30), ("contactor_chatter", 22), ("contactor_underrated", 15), ("joint_fault", 15),
        ("grounded_winding", 5), ("cable_fault", 3), ("start_against_pressure", 3), ("low_voltage", 2),
    )),
    ("burnout", (  # B10
        ("overload_setting", 12), ("high_load", 8), ("voltage_unbalance", 5), ("short_cycling", 5),
        ("contactor_pole", 12), ("supply_leg_lost", 8), ("worn_bearings", 15), ("shorted_turns", 10),
        ("contaminated_system", 12), ("joint_fault", 8), ("part_winding_fault", 5),
    )),
    ("protector_trip", (
        ("voltage_unbalance", 14), ("contactor_pole", 10), ("high_load", 12), ("high_condensing", 12),
        ("head_fan", 12), ("hot_return_gas", 8), ("low_voltage", 8), ("low_suction", 6), ("protector_open", 8),
        ("injection_fault", 3), ("low_charge", 4), ("valve_failure", 3),
    )),
    ("high_pressure_trip", (
        ("high_condensing", 60), ("non_condensables", 12), ("high_load", 12), ("transducer_error", 8), ("staging", 8),
    )),
    ("noise", (
        ("liquid_slug", 18), ("floodback", 15), ("migration", 8), ("worn_bearings", 20), ("valve_failure", 12),
        ("contactor_pole", 6), ("supply_leg_lost", 3), ("reverse_rotation", 5), ("part_winding_fault", 4),
        ("contactor_chatter", 9),
    )),
    ("phase_alarm", (
        ("supply_leg_lost", 32), ("voltage_unbalance", 26), ("low_voltage", 15), ("reverse_rotation", 10),
        ("contactor_pole", 7), ("joint_fault", 10),
    )),
    ("routine", (("nothing_found", 100),)),
)  # fmt: skip

# What a complaint says already is not counted again as a sign of it.
SAID_BY_COMPLAINT = (
    ("overload_trip", ("sign:overload_tripped",)),
    ("breaker_trip", ("sign:breaker_tripped", "sign:fuse_open")),
    ("protector_trip", ("sign:module_locked_out",)),
    ("high_pressure_trip", ("sign:high_pressure_tripped",)),
    ("phase_alarm", ("sign:sequence_alarm",)),
)

# Causes that only some machines can have: cause, the machine's word, the words that rule it out.
RULED_OUT = (
    ("slide_valve", "type", ("semi-hermetic-reciprocating", "open-reciprocating", "welded-scroll",
                             "welded-reciprocating")),
    ("valve_failure", "type", ("semi-hermetic-screw", "open-screw", "welded-scroll")),
    ("unloader_stuck", "type", ("semi-hermetic-screw", "open-screw")),
    ("oil_pump_fault", "type", ("welded-scroll", "welded-reciprocating")),
    ("oil_pump_fault", "oil_pump", ("none",)),
    ("oil_control_fault", "oil_pump", ("none",)),
    ("reverse_rotation", "type", ("semi-hermetic-reciprocating", "open-reciprocating", "welded-reciprocating")),
    ("part_winding_fault", "start", ("across-the-line", "wye-delta", "soft", "drive")),
    ("drive_fault", "start", ("across-the-line", "wye-delta", "soft", "part-winding")),
)  # fmt: skip
