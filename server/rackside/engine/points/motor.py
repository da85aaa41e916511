"""Readings of the motor and its cable, locked out, and of its start."""

from .point import ISOLATED, LINE_LEGS, MOTOR_GROUND, MOTOR_PAIRS, RUNNING, STARTING, STATES, STOPPED, Point

_OHMS = ("ohm", "mohm", "kohm", "Mohm")
_DEAD = (ISOLATED,)
_HALF_LEGS = ("1-L1", "1-L2", "1-L3", "2-L1", "2-L2", "2-L3")
_HALF_PAIRS = ("T1-T2", "T2-T3", "T3-T1", "T7-T8", "T8-T9", "T9-T7")

POINTS = (
    Point("insulation_resistance", "value", (), ("Mohm", "kohm", "ohm"), _DEAD, 0.0, 2.0e13, 1.0, "isolated"),
    Point("cable_insulation_resistance", "value", (), ("Mohm", "kohm", "ohm"), _DEAD, 0.0, 2.0e13, 1.0, "isolated"),
    Point("winding_resistance", "legs", MOTOR_PAIRS, _OHMS, _DEAD, 0.0, 1000.0, 0.001, "isolated"),
    Point("winding_ground_resistance", "legs", MOTOR_GROUND, _OHMS, _DEAD, 0.0, 1.0e12, 1.0, "isolated"),
    Point("half_winding_resistance", "legs", _HALF_PAIRS, _OHMS, _DEAD, 0.0, 1000.0, 0.001, "isolated"),
    Point("between_halves_resistance", "legs", ("T1-T7", "T2-T8", "T3-T9"), _OHMS, _DEAD, 0.0, 1.0e12, 1.0, "isolated"),
    Point("protector_resistance", "value", (), _OHMS, (ISOLATED, STOPPED), 0.0, 1.0e8, 1.0, "isolated"),
    Point("head_sensor_resistance", "value", (), _OHMS, _DEAD, 0.0, 1.0e8, 1.0, "isolated"),
    Point("start_current", "legs", LINE_LEGS, ("A", "mA"), (STARTING,), 0.0, 5000.0, 1.0, "start", "start"),
    Point("second_half_delay", "value", (), ("s",), (STARTING,), 0.0, 60.0, 0.1, "start", "start"),
    Point(
        "half_current",
        "legs",
        _HALF_LEGS,
        ("A", "mA"),
        (RUNNING, STARTING),
        0.0,
        5000.0,
        0.1,
        "running",
        "running_amps",
    ),
    Point("starts_last_hour", "value", (), (), STATES, 0.0, 200.0, 1.0, "look"),
)
