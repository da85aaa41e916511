"""A machine's plate and settings as lines to read. Pure."""

from typing import Any

from rackside.reports.text import name, number

LINES: tuple[tuple[str, str, str], ...] = (
    ("model", "Model", ""),
    ("serial", "Serial", ""),
    ("type", "Type", ""),
    ("application", "Application", ""),
    ("refrigerant", "Refrigerant", ""),
    ("rated_voltage", "Rated volts", "V"),
    ("rated_frequency", "Rated frequency", "Hz"),
    ("rated_load_current", "Rated load amps", "A"),
    ("max_continuous_current", "Maximum continuous amps", "A"),
    ("locked_rotor_current", "Locked rotor amps", "A"),
    ("winding_resistance_25c", "Winding at 25 °C", "ohm"),
    ("start", "Start", ""),
    ("overload_setting", "Overload dial by the drawing", "A"),
    ("coil_voltage", "Contactor coil", "V"),
    ("insulation_minimum", "Maker's insulation minimum", "Mohm"),
    ("oil_control", "Oil control", ""),
    ("oil_pump", "Oil pump", ""),
    ("fan", "Head fan", ""),
    ("heater", "Crankcase heater", ""),
    ("protector", "Motor protector", ""),
)


def plate_lines(plate: dict[str, Any]) -> list[tuple[str, str]]:
    """Return (label, value) of what is known about a machine."""
    return [(label, _spoken(plate[key], unit)) for key, label, unit in LINES if plate.get(key) is not None]


def _spoken(value: Any, unit: str) -> str:
    if isinstance(value, dict):
        told = value.get("unit")
        parts = [f"{key.replace('_', ' ')} {_spoken(item, '')}" for key, item in value.items() if key != "unit"]
        return ", ".join(parts) + (f" ({name('unit', told)})" if told else "")
    if isinstance(value, list):
        return " / ".join(_spoken(item, "") for item in value) + (f" {name('unit', unit)}" if unit else "")
    if isinstance(value, str):
        return f"{value} {name('unit', unit)}" if unit else value.replace("_", " ")
    return number(value, unit or None)
