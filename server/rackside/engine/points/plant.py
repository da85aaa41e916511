"""Refrigeration-side readings."""

from .point import RUNNING, STATES, STOPPED, Point

_PRESSURE = ("psig", "psia", "kPa", "bar", "inHg_vac", "psi")
_TEMPERATURE = ("F", "C", "K")
_PUMPED = (RUNNING, STOPPED)

POINTS = (
    Point("ambient_temperature", "value", (), _TEMPERATURE, STATES, -60.0, 200.0, 1.0, "look"),
    Point("outdoor_temperature", "value", (), _TEMPERATURE, STATES, -80.0, 150.0, 1.0, "look"),
    Point("suction_pressure", "value", (), _PRESSURE, _PUMPED, -14.7, 2500.0, 1.0, "heat", "oil_port"),
    Point("discharge_pressure", "value", (), _PRESSURE, _PUMPED, -14.7, 2500.0, 1.0, "heat", "oil_port"),
    Point("liquid_pressure", "value", (), _PRESSURE, _PUMPED, -14.7, 2500.0, 1.0, "heat", "oil_port"),
    Point("suction_temperature", "value", (), _TEMPERATURE, STATES, -100.0, 250.0, 1.0, "heat"),
    Point("discharge_temperature", "value", (), _TEMPERATURE, STATES, -60.0, 500.0, 1.0, "heat"),
    Point("liquid_temperature", "value", (), _TEMPERATURE, STATES, -100.0, 250.0, 1.0, "heat"),
    Point(
        "pump_down_vacuum",
        "value",
        (),
        ("inHg_vac", "psig", "psia", "kPa", "bar", "psi"),
        _PUMPED,
        -14.7,
        100.0,
        1.0,
        "heat",
        "pump_down",
    ),
    Point("pump_down_rise", "value", (), ("psi/min",), _PUMPED, 0.0, 500.0, 0.5, "heat", "pump_down"),
    Point("injection_coil_voltage", "value", (), ("V", "mV"), (RUNNING,), 0.0, 700.0, 1.0, "heat", "control"),
    Point("injection_line", "word", (), (), (RUNNING,), 0.0, 0.0, 1.0, "heat", "", ("cold", "warm")),
    Point("gas_cooler_pressure", "value", (), _PRESSURE, (RUNNING,), -14.7, 2500.0, 1.0, "heat", "r744"),
    Point("gas_cooler_temperature", "value", (), _TEMPERATURE, (RUNNING,), -60.0, 400.0, 1.0, "heat", "r744"),
    Point("flash_tank_pressure", "value", (), _PRESSURE, (RUNNING,), -14.7, 2500.0, 1.0, "heat", "r744"),
    Point("refrigerant_added", "value", (), ("lb",), STATES, 0.0, 10000.0, 0.1, "repair"),
)
