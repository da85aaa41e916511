"""Supply, switchgear and control readings."""

from .point import (
    ISOLATED,
    LINE_GROUND,
    LINE_LEGS,
    LINE_PAIRS,
    MOTOR_PAIRS,
    POLES,
    RUNNING,
    STARTING,
    STATES,
    STOPPED,
    Point,
)

_LIVE = (STOPPED, RUNNING)
_VOLTS = ("V", "mV")

POINTS = (
    Point("line_voltage", "legs", LINE_PAIRS, _VOLTS, _LIVE, 0.0, 1000.0, 1.0, "supply", "volts"),
    Point("load_voltage", "legs", MOTOR_PAIRS, _VOLTS, _LIVE, 0.0, 1000.0, 1.0, "supply", "volts"),
    Point("line_ground_voltage", "legs", LINE_GROUND, _VOLTS, _LIVE, 0.0, 1000.0, 1.0, "supply", "volts"),
    Point("line_frequency", "value", (), ("Hz",), STATES, 5.0, 120.0, 0.1, "supply", "volts"),
    Point(
        "phase_sequence",
        "word",
        (),
        (),
        (STOPPED,),
        0.0,
        0.0,
        1.0,
        "supply",
        "volts",
        ("forward", "reverse", "no_reading"),
    ),
    Point("control_voltage", "value", (), _VOLTS, _LIVE, 0.0, 700.0, 1.0, "control", "control"),
    Point("coil_voltage", "value", (), _VOLTS, _LIVE, 0.0, 700.0, 1.0, "control", "control"),
    Point("control_chain", "chain", (), _VOLTS, _LIVE, 0.0, 700.0, 1.0, "control", "control"),
    Point("overload_dial", "value", (), ("A", "mA"), STATES, 0.1, 2000.0, 0.5, "control"),
    Point(
        "absence_test",
        "absence",
        LINE_PAIRS + LINE_GROUND,
        _VOLTS,
        (ISOLATED,),
        0.0,
        1000.0,
        0.1,
        "make_safe",
        "volts",
    ),
    Point("start_voltage", "legs", MOTOR_PAIRS, _VOLTS, (STARTING,), 0.0, 1000.0, 1.0, "start", "start"),
    Point("start_line_voltage", "legs", LINE_PAIRS, _VOLTS, (STARTING,), 0.0, 1000.0, 1.0, "start", "start"),
    Point("pole_drop", "legs", POLES, ("mV", "V"), (RUNNING,), 0.0, 1000.0, 1.0, "running", "drops"),
    Point("fuse_drop", "legs", LINE_LEGS, ("mV", "V"), (RUNNING,), 0.0, 1000.0, 1.0, "running", "drops"),
    Point("joint_drop", "legs", LINE_LEGS, ("mV", "V"), (RUNNING,), 0.0, 1000.0, 1.0, "running", "drops"),
    Point(
        "joint_temperature", "legs", LINE_LEGS, ("F", "C", "K"), (RUNNING,), -60.0, 900.0, 1.0, "running", "energised"
    ),
)
