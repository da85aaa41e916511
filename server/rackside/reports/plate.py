"""A machine's plate and settings as lines to read. Pure."""

from typing import Any

from rackside.reports.text import name, number

LINES: tuple[tuple[str, str, str], ...] = (
    ("model", "Model", ""),
    ("serial", "Serial", ""),
    ("type", "Type", ""),
    ("application", "Application", ""),
    ("stage", "Stage", ""),
    ("refrigerant", "Refrigerant", ""),
    ("oil", "Oil", ""),
    ("supply", "Supply", ""),
    ("rated_voltage", "Rated volts", "V"),
    ("rated_frequency", "Rated frequency", "Hz"),
    ("rated_load_current", "Rated load amps", "A"),
    ("max_continuous_current", "Maximum continuous amps", "A"),
    ("locked_rotor_current", "Locked rotor amps", "A"),
    ("locked_rotor_current_half", "Locked rotor amps of one half", "A"),
    ("winding_resistance_25c", "Winding at 25 °C", "ohm"),
    ("start", "Start", ""),
    ("overload_setting", "Overload dial by the drawing", "A"),
    ("coil_voltage", "Contactor coil", "V"),
    ("control_voltage", "Control volts", "V"),
    ("insulation_minimum", "Maker's insulation minimum", "Mohm"),
    ("oil_control", "Oil control", ""),
    ("oil_pump", "Oil pump", ""),
    ("fan", "Head fan", ""),
    ("injection", "Liquid injection", ""),
    ("drive", "Drive", ""),
    ("heater", "Crankcase heater", ""),
    ("protector", "Motor protector", ""),
)

# Machine values without a unit are in these, by the contract.
INSIDE = {
    "rated_current": "A",
    "rated_speed": "rpm",
    "capacitance": "uF",
    "power": "W",
    "voltage": "V",
    "nominal_voltage": "V",
    "minimum_frequency": "Hz",
    "maximum_frequency": "Hz",
    "trip": "ohm",
    "reset": "ohm",
    "cut_out": "psi",
    "cut_in": "psi",
    "delay": "s",
}


def plate_lines(plate: dict[str, Any]) -> list[tuple[str, str]]:
    """Return (label, value) of what is known about a machine."""
    return [(label, _spoken(plate[key], unit)) for key, label, unit in LINES if plate.get(key) is not None]


def _spoken(value: Any, unit: str) -> str:
    if isinstance(value, dict):
        own = {"psi": value.get("unit") or "psi"}
        units = {key: own.get(INSIDE.get(key, ""), INSIDE.get(key, "")) for key in value}
        parts = [f"{key.replace('_', ' ')} {_spoken(item, units[key])}" for key, item in value.items() if key != "unit"]
        return ", ".join(parts)
    if isinstance(value, list):
        return " / ".join(_spoken(item, "") for item in value) + (f" {name('unit', unit)}" if unit else "")
    if isinstance(value, str):
        return f"{value} {name('unit', unit)}" if unit else value.replace("_", " ")
    return number(value, unit or None)
