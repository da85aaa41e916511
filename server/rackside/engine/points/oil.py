"""Lubrication readings."""

from .point import RUNNING, STATES, STOPPED, Point

_PRESSURE = ("psig", "psia", "kPa", "bar", "inHg_vac", "psi")
_TEMPERATURE = ("F", "C", "K")
_PUMPED = (RUNNING, STOPPED)
_OIL_COLOURS = ("clear", "straw", "amber", "dark", "black", "milky", "glitter", "red-brown")

POINTS = (
    Point("oil_level", "value", (), ("fraction",), STATES, 0.0, 1.0, 0.125, "look"),
    Point("oil_colour", "word", (), (), STATES, 0.0, 0.0, 1.0, "look", "", _OIL_COLOURS),
    Point("sump_temperature", "value", (), _TEMPERATURE, STATES, -60.0, 400.0, 1.0, "look"),
    Point("trip_delay", "value", (), ("s",), STATES, 0.0, 3600.0, 1.0, "look"),
    Point("heater_voltage", "value", (), ("V", "mV"), (STOPPED,), 0.0, 700.0, 1.0, "look", "fan_heater"),
    Point("heater_current", "value", (), ("A", "mA"), (STOPPED,), 0.0, 50.0, 0.01, "look", "fan_heater"),
    Point("pump_pressure", "value", (), _PRESSURE, _PUMPED, -14.7, 2500.0, 1.0, "oil", "oil_port"),
    Point("crankcase_pressure", "value", (), _PRESSURE, _PUMPED, -14.7, 2500.0, 1.0, "oil", "oil_port"),
    Point("reservoir_level", "value", (), ("fraction",), STATES, 0.0, 1.0, 0.125, "oil"),
    Point("reservoir_pressure", "value", (), _PRESSURE, STATES, -14.7, 2500.0, 1.0, "oil", "oil_port"),
    Point("regulator_inlet_temperature", "legs", ("before", "after"), _TEMPERATURE, STATES, -60.0, 400.0, 1.0, "oil"),
    Point("oil_acid", "word", (), (), STATES, 0.0, 0.0, 1.0, "oil", "", ("negative", "positive")),
    Point("oil_added", "value", (), ("floz",), STATES, 0.0, 2000.0, 1.0, "repair"),
)
