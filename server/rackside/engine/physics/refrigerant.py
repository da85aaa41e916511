"""Saturation of the refrigerants: bubble and dew, pressure and temperature.

Pressures are absolute [psi], temperatures [F]. Outside -50 to +65 C or above the critical point the answer is None.
Source: tables/saturation.py (CoolProp); between its temperatures a cubic through the four nearest of ln p against 1/T,
at most 0.01 K and 0.02 % of pressure off CoolProp (tests/engine/test_saturation.py).
"""

import math

from ..tables.saturation import COLDEST, TABLES

BUBBLE = "bubble"
DEW = "dew"
# What the conversion of units may add to an end of the table.
ROUNDING = 1e-9


class Line:
    """One saturation line: ln p (psi absolute) and 1/T (K) at the table's temperatures, coldest first."""

    def __init__(self, warmest: float, entries: "tuple[int, ...]") -> None:
        step = (warmest - COLDEST) / (len(entries) - 1)
        self.logs = [entry / 100000.0 for entry in entries]
        self.inverses = [1.0 / (COLDEST + step * index) for index in range(len(entries))]

    def pressure(self, fahrenheit: float) -> "float | None":
        inverse = 1.8 / (fahrenheit + 459.67) if fahrenheit > -459.0 else 1.0
        if not self.inverses[-1] * (1.0 - ROUNDING) <= inverse <= self.inverses[0] * (1.0 + ROUNDING):
            return None
        return math.exp(_cubic(self.inverses, self.logs, inverse)[0])

    def temperature(self, psia: float) -> "tuple[float, float] | None":
        """Return the temperature [F] and its slope against pressure [F per psi]."""
        if psia <= 0.0:
            return None
        log = math.log(psia)
        if not self.logs[0] - ROUNDING <= log <= self.logs[-1] + ROUNDING:
            return None
        inverse, slope = _cubic(self.logs, self.inverses, log)
        kelvin = 1.0 / inverse
        return kelvin * 1.8 - 459.67, -1.8 * kelvin * kelvin * slope / psia


_lines: "dict[tuple[str, str], Line]" = {}


def _line(refrigerant: str, phase: str) -> "Line | None":
    """Return a line, made when first asked for, None for a refrigerant without a table."""
    key = (refrigerant, phase)
    if key not in _lines:
        for name, _, warmest, bubble, dew in TABLES:
            if name == refrigerant:
                _lines[key] = Line(warmest, dew if phase == DEW else bubble)
    return _lines.get(key)


def _cubic(xs: "list[float]", ys: "list[float]", x: float) -> "tuple[float, float]":
    """Return value and slope at x of the cubic through the four points of (xs, ys) nearest to it; xs is monotone."""
    rising = xs[-1] > xs[0]
    start = 0
    while start < len(xs) - 4 and (x > xs[start + 2]) == rising and x != xs[start + 2]:
        start += 1
    value, slope = 0.0, 0.0
    for one in range(start, start + 4):
        weight, weight_slope = 1.0, 0.0
        for other in range(start, start + 4):
            if other != one:
                width = xs[one] - xs[other]
                weight_slope = (weight_slope * (x - xs[other]) + weight) / width
                weight = weight * (x - xs[other]) / width
        value += ys[one] * weight
        slope += ys[one] * weight_slope
    return value, slope


def dew_temperature(refrigerant: str, psia: float) -> "float | None":
    """Return the dew temperature [F] at a pressure [psi absolute]."""
    found = _at_pressure(refrigerant, DEW, psia)
    return None if found is None else found[0]


def bubble_temperature(refrigerant: str, psia: float) -> "float | None":
    """Return the bubble temperature [F] at a pressure [psi absolute]."""
    found = _at_pressure(refrigerant, BUBBLE, psia)
    return None if found is None else found[0]


def dew_slope(refrigerant: str, psia: float) -> "float | None":
    """Return how the dew temperature moves with pressure [F per psi]."""
    found = _at_pressure(refrigerant, DEW, psia)
    return None if found is None else found[1]


def bubble_slope(refrigerant: str, psia: float) -> "float | None":
    """Return how the bubble temperature moves with pressure [F per psi]."""
    found = _at_pressure(refrigerant, BUBBLE, psia)
    return None if found is None else found[1]


def dew_pressure(refrigerant: str, fahrenheit: float) -> "float | None":
    """Return the dew pressure [psi absolute] at a temperature [F]."""
    line = _line(refrigerant, DEW)
    return None if line is None else line.pressure(fahrenheit)


def bubble_pressure(refrigerant: str, fahrenheit: float) -> "float | None":
    """Return the bubble pressure [psi absolute] at a temperature [F]."""
    line = _line(refrigerant, BUBBLE)
    return None if line is None else line.pressure(fahrenheit)


def _at_pressure(refrigerant: str, phase: str, psia: float) -> "tuple[float, float] | None":
    line = _line(refrigerant, phase)
    return None if line is None else line.temperature(psia)
