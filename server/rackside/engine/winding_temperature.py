"""The winding's temperature that goes with a reading."""

from . import units
from .number import read_number
from .reading import Reading


def winding_celsius(reading: Reading) -> "float | None":
    """Return the winding's temperature [C] given with a reading, None without one or without its unit."""
    number = reading.number("winding_temperature")
    unit = reading.option("winding_temperature_unit") or ""
    if number is None or units.dimension(unit) != "temperature":
        return None
    return units.celsius(units.to_base(number, unit))


def step_kelvin(reading: Reading) -> float:
    """Return the step of the thermometer [K], 0 without a reading."""
    number = read_number(reading.raw.get("winding_temperature"))
    if number is None:
        return 0.0
    return number.step if reading.option("winding_temperature_unit") in ("C", "K") else number.step / 1.8
