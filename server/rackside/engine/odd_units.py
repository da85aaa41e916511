"""Numbers that make sense only in another unit, with another sign or at another port."""

from . import units
from .kinds import Any

# What rounding of a gauge and of the air pressure may add [psi].
VACUUM_TOLERANCE_PSI = 0.05


def odd_pressure(value: float, unit: str, atmosphere: float) -> str:
    """Return the sentence of a pressure [psi gauge], as read in a unit, that can't be; "" when it can."""
    if units.dimension(unit) != "pressure":
        return ""
    if unit == "inHg_vac" and value > VACUUM_TOLERANCE_PSI:
        return "suspicion.vacuum_sign"
    return "suspicion.below_vacuum" if value < -atmosphere - VACUUM_TOLERANCE_PSI else ""


def hints_of_units(temperature: Any, pressure: Any, atmosphere: float) -> "list[tuple[str, float, float]]":
    """Return what a temperature and a pressure would be had the unit been another: (sentence, F, psia) each.

    temperature, pressure: Quantity as read; atmosphere: the site's air pressure [psi].
    """
    fahrenheit = temperature.value
    psia = pressure.value + atmosphere
    hints = []
    if temperature.unit == "F":
        hints.append(("suspicion.celsius", units.to_base(temperature.as_read, "C"), psia))
    if temperature.unit == "C":
        hints.append(("suspicion.fahrenheit", temperature.as_read, psia))
    if pressure.unit == "psia":
        hints.append(("suspicion.gauge", fahrenheit, pressure.as_read + atmosphere))
    elif pressure.unit in ("kPa", "bar", "psig", "psi"):
        hints.append(("suspicion.absolute", fahrenheit, pressure.value))
    if pressure.unit == "inHg_vac":
        hints.append(("suspicion.not_vacuum", fahrenheit, pressure.as_read + atmosphere))
    return hints


def crossed_gauges(discharge_psia: float, suction_psia: float) -> str:
    """Return the sentence of two pressures of a running machine that can't both be right, "" when they can."""
    if suction_psia <= 0.0 or discharge_psia <= 0.0:
        return "suspicion.no_absolute_pressure"
    if discharge_psia < 0.9 * suction_psia:
        return "suspicion.crossed_gauges"
    return ""


def milli_for_whole(amps: Any, expected: float, low: float, high: float) -> bool:
    """Return whether a current read in mA makes sense only as the same figure in A (low to high times the expected)."""
    return bool(amps.unit == "mA" and low * expected <= amps.as_read <= high * expected)
