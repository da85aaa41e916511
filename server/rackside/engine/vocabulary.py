"""The fixed words of the contract: names other programs depend on, never renamed or dropped."""

from .points.point import STATES as STATES

TYPES = (
    "semi-hermetic-reciprocating",
    "semi-hermetic-screw",
    "open-reciprocating",
    "open-screw",
    "welded-scroll",
    "welded-reciprocating",
)
STARTS = ("across-the-line", "part-winding", "wye-delta", "soft", "drive")
GROUNDINGS = (
    "grounded-wye",
    "corner-grounded-delta",
    "high-leg-delta",
    "ungrounded",
    "impedance-grounded",
    "unknown",
)
PROTECTORS = ("ptc", "ntc", "line-break", "pilot")
APPLICATIONS = ("low", "medium", "high")
STAGES = ("single", "booster-low", "booster-high", "two-stage")
OIL_PUMPS = ("reversible", "one-way", "none", "screw")
OVERLOAD_PLACES = ("line", "half", "delta")
RATING_ORDERS = ("ahri-540", "bicubic")
# Locked-rotor kVA per horsepower, on the plate of a motor without its locked-rotor current. Source: NEC Table 430.7(B).
CODE_LETTERS = tuple("ABCDEFGHJKLMNPRSTUV")
REFRIGERANTS = (
    "R-22",
    "R-134a",
    "R-404A",
    "R-407A",
    "R-407C",
    "R-410A",
    "R-448A",
    "R-449A",
    "R-507A",
    "R-290",
    "R-744",
)
LABELS = ("as_found", "interim", "as_left")
MOMENTS = ("pull_in", "sealed")
METHODS = ("to_return", "across")
CAPTURES = ("inrush", "min_max", "peak")
PROBES = ("clamp", "insulated_clamp", "well", "infrared")
PLACES = ("source", "disconnect", "contactor", "compressor")
LEADS = ("on", "off")
PHOTO_SUBJECTS = ("alarm", "plate", "panel", "oil", "part", "other")
SIGNS = (
    "breaker_tripped line_side_dead contactor_not_pulled_in motor_turned head_cold head_uneven "
    "zero_current_before_alarm trips_instantly trips_in_seconds trips_after_minutes trips_after_defrost "
    "trips_when_hot on_generator hums_no_rotation pressures_moved knock growl burnt_smell contacts_pitted "
    "contacts_burnt_one_pole contacts_burnt_all_poles contactor_chatter auxiliary_contact_open oil_glass_full "
    "oil_foam oil_low_here_only oil_low_everywhere regulator_strainer_cold frost_on_crankcase "
    "oil_gauge_disagrees_with_control net_oil_falls_as_oil_warms fan_not_turning condenser_dirty unloader_stuck "
    "joint_discoloured terminal_box_wet leads_cleared_ground module_locked_out jumper_on second_contactor_late "
    "sequence_alarm loud_and_equal_pressures lights_dipped storm_or_outage fuse_open overload_tripped "
    "high_pressure_tripped oil_line_not_seen oil_was_added reset_before_arrival defrost_running all_machines_hot "
    "twins_same_pattern bulb_loose injection_line_warm heater_cold terminal_leak fan_backwards flash_gas_seen "
    "motor_still_hot commanded_unloaded valves_stated terminal_cover_on crankcase_above_atmosphere "
    "transducer_disagrees_with_gauge rack_swings_around_set_point contactor_plate_too_small "
    "reading_does_not_repeat standing_pressure_high breaker_hot suction_above_set_point suction_below_set_point"
).split(" ")
COMPLAINTS = (
    "oil_trip overload_trip breaker_trip short_cycling high_current low_current unbalanced_current no_start "
    "high_discharge_temperature repeated_contactor_failure burnout protector_trip high_pressure_trip noise "
    "phase_alarm routine"
).split(" ")
CAUSES = (
    "never_ran floodback oil_away oil_control_fault short_cycling oil_pump_fault worn_bearings low_suction "
    "contactor_pole high_load overload_setting low_voltage voltage_unbalance grounded_winding shorted_turns "
    "open_winding cable_fault seized liquid_slug valve_failure unloader_stuck head_fan high_condensing "
    "hot_return_gas low_charge control_circuit_open protector_open reverse_rotation staging contactor_chatter "
    "contactor_underrated joint_fault supply_leg_lost part_winding_fault drive_fault start_against_pressure "
    "migration oil_regulator injection_fault discharge_check_leak non_condensables breaker_weak transducer_error "
    "contaminated_system low_load wrong_expectation slide_valve meter_error nothing_found unknown"
).split(" ")
DEVICES = (
    "oil_control breaker fuse overload module high_pressure low_pressure head_temperature controller phase_monitor"
).split(" ")
HAPPENINGS = ("trip", "alarm", "reset", "start", "stop")
ACTIONS = (
    "valve_moved jumper_on jumper_off lead_lifted lead_restored leads_rolled setting_changed part_fitted cleaned "
    "oil_added charge_added reset"
).split(" ")
# An opened thing, and the kind of action that closes it; a moved valve or rolled leads close by their own kind.
OPENERS = (
    ("jumper_on", "jumper_off"),
    ("lead_lifted", "lead_restored"),
    ("leads_rolled", "leads_rolled"),
    ("valve_moved", "valve_moved"),
)
GATES = ("reset", "restart", "return_to_service", "condemn")
DECISIONS = ("restart", "repair", "run_under_watch", "condemn", "no_fault_found")
CLOCKS = ("next_start_allowed", "cooling", "oil_timing", "insulation_minute", "watch_until")
ENTRY_KINDS = (
    "site machine meter call round reading sign event action photo override decision line signature judgement "
    "submission review retraction"
).split(" ")
CONTACT_POSITIONS = ("closed", "open")
HEATER_KINDS = ("fixed", "ptc")
INSULATION_FORMS = ("halving", "thermosetting")
