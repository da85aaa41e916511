"""Readings at a variable-frequency drive."""

from .point import ISOLATED, RUNNING, STATES, Point

_BOTH = (RUNNING, ISOLATED)

POINTS = (
    Point("drive_frequency", "value", (), ("Hz",), STATES, 0.0, 400.0, 0.1, "running", "drive"),
    Point(
        "drive_output_voltage", "legs", ("U-V", "V-W", "W-U"), ("V", "mV"), _BOTH, 0.0, 1000.0, 1.0, "running", "drive"
    ),
    Point("drive_output_current", "legs", ("U", "V", "W"), ("A", "mA"), _BOTH, 0.0, 2000.0, 0.1, "running", "drive"),
    Point("drive_bus_voltage", "value", (), ("V", "mV"), _BOTH, 0.0, 1500.0, 1.0, "make_safe", "drive"),
)
