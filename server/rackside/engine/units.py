"""Units accepted at the edge, and the one unit each dimension is judged in.

Base units: V, A, ohm, psi (gauge), F, uF, rpm, s, fraction, psi/min, Hz, floz, ft, lb, W, %.
kPa, bar and psi are taken as gauge readings; only psia is absolute.
"""

ATMOSPHERE_PSI = 14.696
# 1 psi in Pa: exact product of the avoirdupois pound, standard gravity and the inch.
# Source: NIST SP 811, 2008, appendix B.8 (6.894 757 E+03).
_PSI_PA = 6894.757293168
# Conventional inch of mercury at 0 C. Source: NIST SP 811, 2008, appendix B.8 (3.386 389 E+03).
_INHG_PA = 3386.389

# name, dimension, factor, offset: base = value * factor + offset
UNITS = (
    ("V", "voltage", 1.0, 0.0),
    ("mV", "voltage", 0.001, 0.0),
    ("A", "current", 1.0, 0.0),
    ("mA", "current", 0.001, 0.0),
    ("ohm", "resistance", 1.0, 0.0),
    ("mohm", "resistance", 0.001, 0.0),
    ("kohm", "resistance", 1000.0, 0.0),
    ("Mohm", "resistance", 1000000.0, 0.0),
    ("psig", "pressure", 1.0, 0.0),
    ("psi", "pressure", 1.0, 0.0),
    ("psia", "pressure", 1.0, -ATMOSPHERE_PSI),
    ("kPa", "pressure", 1000.0 / _PSI_PA, 0.0),
    ("bar", "pressure", 100000.0 / _PSI_PA, 0.0),
    ("inHg_vac", "pressure", -_INHG_PA / _PSI_PA, 0.0),
    ("F", "temperature", 1.0, 0.0),
    ("C", "temperature", 1.8, 32.0),
    ("K", "temperature", 1.8, -459.67),
    ("uF", "capacitance", 1.0, 0.0),
    ("rpm", "speed", 1.0, 0.0),
    ("s", "time", 1.0, 0.0),
    ("fraction", "fraction", 1.0, 0.0),
    ("psi/min", "pressure_rate", 1.0, 0.0),
    ("Hz", "frequency", 1.0, 0.0),
    ("floz", "volume", 1.0, 0.0),
    ("lb", "mass", 1.0, 0.0),
    ("ft", "length", 1.0, 0.0),
    ("m", "length", 1.0 / 0.3048, 0.0),
    ("W", "power", 1.0, 0.0),
    ("%", "percent", 1.0, 0.0),
    ("ratio", "ratio", 1.0, 0.0),
    ("count", "count", 1.0, 0.0),
)
_BY_NAME = {row[0]: row for row in UNITS}


def known(unit: str) -> bool:
    """Return whether the unit is one the contract accepts."""
    return unit in _BY_NAME


def dimension(unit: str) -> str:
    """Return what kind of quantity a unit measures, "" for an unknown unit."""
    row = _BY_NAME.get(unit)
    return row[1] if row else ""


def to_base(value: float, unit: str, atmosphere: float = ATMOSPHERE_PSI) -> float:
    """Return a value in the base unit of its dimension; psia needs the site's air pressure [psi]."""
    _, _, factor, offset = _BY_NAME[unit]
    if unit == "psia":
        offset = -atmosphere
    return value * factor + offset


def from_base(value: float, unit: str, atmosphere: float = ATMOSPHERE_PSI) -> float:
    """Return a base-unit value in the unit asked for."""
    _, _, factor, offset = _BY_NAME[unit]
    if unit == "psia":
        offset = -atmosphere
    return (value - offset) / factor


def span_to_base(value: float, unit: str) -> float:
    """Return a difference (or an uncertainty) in base units: the factor without the offset."""
    return value * abs(_BY_NAME[unit][2])


def span_from_base(value: float, unit: str) -> float:
    """Return a base-unit difference (or uncertainty) in the unit asked for."""
    return value / abs(_BY_NAME[unit][2])


def opposed(one: str, other: str) -> bool:
    """Return whether one of two units grows where the other falls: a vacuum against a pressure."""
    return _BY_NAME[one][2] * _BY_NAME[other][2] < 0.0


def celsius(fahrenheit: float) -> float:
    """Return a temperature [C] from [F]."""
    return (fahrenheit - 32.0) / 1.8


# Where the formula holds, and people work.
LOWEST_M, HIGHEST_M = -500.0, 11000.0


def air_pressure(altitude_ft: float) -> float:
    """Return the standard air pressure [psi] at an altitude [ft].

    Source: ICAO Doc 7488 (standard atmosphere), troposphere: p = p0 (1 - 0.0065 h / 288.15)^5.25588; from memory.
    """
    metres = min(max(altitude_ft * 0.3048, LOWEST_M), HIGHEST_M)
    return ATMOSPHERE_PSI * float((1.0 - 0.0065 * metres / 288.15) ** 5.25588)
