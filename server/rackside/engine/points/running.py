"""Readings taken while the machine runs: amps, steps, head fan."""

from .point import ISOLATED, LINE_LEGS, RUNNING, Point

_FAN = (RUNNING, ISOLATED)

POINTS = (
    Point("running_current", "legs", LINE_LEGS, ("A", "mA"), (RUNNING,), 0.0, 2000.0, 0.1, "running", "running_amps"),
    Point(
        "unloader_step",
        "legs",
        ("loaded", "unloaded"),
        ("A", "mA"),
        (RUNNING,),
        0.0,
        2000.0,
        0.1,
        "heat",
        "running_amps",
    ),
    Point(
        "head_temperature",
        "legs",
        ("bank-1", "bank-2", "bank-3"),
        ("F", "C", "K"),
        (RUNNING,),
        -60.0,
        600.0,
        1.0,
        "heat",
        "energised",
    ),
    Point("fan_current", "value", (), ("A", "mA"), _FAN, 0.0, 50.0, 0.01, "heat", "running_amps"),
    Point("fan_voltage", "value", (), ("V", "mV"), _FAN, 0.0, 700.0, 1.0, "heat", "volts"),
    Point("fan_speed", "value", (), ("rpm",), _FAN, 0.0, 10000.0, 1.0, "heat", "energised"),
    Point("fan_capacitor_current", "value", (), ("A", "mA"), (RUNNING,), 0.0, 50.0, 0.01, "heat", "running_amps"),
    Point("fan_capacitor_voltage", "value", (), ("V", "mV"), (RUNNING,), 0.0, 1000.0, 1.0, "heat", "volts"),
    Point("fan_capacitance", "value", (), ("uF",), _FAN, 0.0, 500.0, 0.1, "isolated", "fan_heater"),
)
