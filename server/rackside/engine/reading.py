"""One reading as the checks see it: numbers in base units with their doubt, or what is wrong with it."""

import math

from . import moment, units
from .kinds import Any, Json
from .number import OVER_LIMIT, Number, read_number
from .odd_units import odd_pressure
from .points import known_point
from .points.point import Point
from .uncertainty import Doubt, digit_doubt, limit_doubt

# A sight glass reads to an eighth whatever the digits. Source: CHECKS.md, Uncertainty.
GLASS_STEP = 0.125
GLASSES = ("oil_level", "reservoir_level")
# Position of the conductor in the jaw, limit of error of a clamp. Source: common practice, no source.
JAW_POSITION = 0.01


class Quantity:
    """One number of a reading.

    value, step: in the base unit of the dimension. doubt: standard uncertainty, base unit.
    bound: "", ">", "<" or "OL". unit: as it was read. as_read: the number before conversion.
    """

    def __init__(self, value: float, step: float, bound: str, doubt: Doubt, unit: str, as_read: float) -> None:
        self.value = value
        self.step = step
        self.bound = bound
        self.doubt = doubt
        self.unit = unit
        self.as_read = as_read

    def over_limit(self) -> bool:
        return self.bound == OVER_LIMIT

    def interval(self, uncertainty: float, value: float) -> "tuple[float | None, float | None]":
        """Return where a result made from this quantity alone lies, given its uncertainty."""
        low = None if self.bound == "<" else value - uncertainty
        high = None if self.bound in (">", OVER_LIMIT) else value + uncertainty
        return low, high


class Reading:
    """A reading with its point, its numbers and its problems.

    problems: (sentence key, values) each; any of them makes every finding from it `cannot_tell`.
    """

    def __init__(self, raw: Json, point: Point) -> None:
        self.raw = raw
        self.point = point
        self.id = str(raw.get("id") or "")
        self.state = raw.get("state") or ""
        self.unit = raw.get("unit") or (point.units[0] if point.units else "")
        self.at = moment.seconds(raw["at"]) if isinstance(raw.get("at"), str) else None
        self.not_taken = raw.get("not_taken") or ""
        self.legs: "list[tuple[str, Quantity]]" = []
        self.missing_legs: "list[str]" = []
        self.value: "Quantity | None" = None
        self.word = ""
        self.problems: "list[tuple[str, Json]]" = []

    def sound(self) -> bool:
        """Return whether it can be judged: taken, complete and believable."""
        return not (self.not_taken or self.problems or self.missing_legs)

    def leg(self, key: str) -> "Quantity | None":
        for name, quantity in self.legs:
            if name == key:
                return quantity
        return None

    def quantities(self) -> "list[Quantity]":
        """Return the numbers of all legs in the point's order."""
        return [quantity for _, quantity in self.legs]

    def option(self, name: str) -> Any:
        """Return an optional field as given, None when absent."""
        return self.raw.get(name)

    def number(self, name: str) -> "float | None":
        """Return an optional field as a plain number, None when absent or unreadable."""
        found = read_number(self.raw.get(name))
        return None if found is None or found.bound == OVER_LIMIT else found.value


def parsed(raw: Json, meters: Json, atmosphere: float) -> Reading:
    """Return the Reading of one entry in a case that passed faults_of."""
    point = known_point(raw["point"])
    assert point is not None
    reading = Reading(raw, point)
    if reading.not_taken:
        return reading
    _check_state(reading)
    if point.kind == "word":
        _read_word(reading)
    elif _unit_fits(reading):
        reader = _Reader(reading, meters, atmosphere)
        if point.kind == "value":
            reader.read_value()
        elif point.kind != "chain":
            reader.read_legs()
    return reading


def _check_state(reading: Reading) -> None:
    if reading.state and reading.state not in reading.point.states:
        told = {"point": reading.point.name, "state": reading.state, "states": list(reading.point.states)}
        reading.problems.append(("reading.wrong_state", told))


def _read_word(reading: Reading) -> None:
    word = reading.raw.get("value")
    if isinstance(word, str) and word in reading.point.words:
        reading.word = word
        return
    told = {"point": reading.point.name, "text": str(word), "words": list(reading.point.words)}
    reading.problems.append(("reading.unknown_word", told))


def _unit_fits(reading: Reading) -> bool:
    point = reading.point
    if not point.units:
        return True
    given = reading.raw.get("unit")
    if given is None:
        reading.problems.append(("reading.no_unit", {"point": point.name, "units": list(point.units)}))
        return False
    if units.dimension(given) != units.dimension(point.units[0]):
        told = {"point": point.name, "unit": given, "units": list(point.units)}
        reading.problems.append(("reading.wrong_unit", told))
        return False
    return True


def _as_typed(raw: Any) -> Any:
    """Return a value for a sentence about it: text as it stands, a number for say.py to print, else what str makes."""
    number = read_number(raw)
    if isinstance(raw, str) or number is None:
        return str(raw)
    return number.value


class _Reader:
    """Reads the numbers of one reading; meters and air pressure are those of the case."""

    def __init__(self, reading: Reading, meters: Json, atmosphere: float) -> None:
        self.reading = reading
        self.meters = meters
        self.atmosphere = atmosphere
        self.unit = reading.unit if reading.point.units else "count"

    def read_value(self) -> None:
        raw = self.reading.raw.get("value")
        if raw is None:
            self.reading.missing_legs.append("value")
            return
        self.reading.value = self._quantity("value", raw)

    def read_legs(self) -> None:
        legs = self.reading.raw.get("legs") or {}
        for key in self.reading.point.keys:
            if legs.get(key) is None:
                if self.reading.point.kind != "absence":
                    self.reading.missing_legs.append(key)
                continue
            quantity = self._quantity(key, legs[key])
            if quantity is not None:
                self.reading.legs.append((key, quantity))

    def _quantity(self, key: str, raw: Any) -> "Quantity | None":
        number = read_number(raw)
        if number is None:
            self._problem("reading.unreadable", key, raw)
            return None
        value = units.to_base(number.value, self.unit, self.atmosphere)
        if number.bound == OVER_LIMIT:
            if units.dimension(self.unit) != "resistance":
                self._problem("reading.over_limit_here", key, raw)
                return None
        elif not self._believable(value):
            self._problem("reading.implausible", key, raw)
            return None
        odd = odd_pressure(value, self.unit, self.atmosphere)
        if odd:
            self._problem(odd, key, raw)
            return None
        step = self._step(key, number)
        doubt = self._doubt(key, number, step)
        return Quantity(value, units.span_to_base(step, self.unit), number.bound, doubt, self.unit, number.value)

    def _believable(self, value: float) -> bool:
        point = self.reading.point
        return math.isfinite(value) and point.low - 1e-9 <= value <= point.high

    def _problem(self, said: str, key: str, raw: Any) -> None:
        point = self.reading.point
        told = {"point": point.name, "leg": key, "text": _as_typed(raw), "unit": self.unit}
        told["low"] = units.from_base(point.low, self.unit, self.atmosphere)
        told["high"] = units.from_base(point.high, self.unit, self.atmosphere)
        self.reading.problems.append((said, told))

    def _meter(self, key: str) -> "tuple[str, Json, str]":
        """Return the meter's name, its data and the group its readings share an error with: one meter, one range."""
        named = self.reading.raw.get("meter")
        if isinstance(named, dict):
            name = str(named.get(key) or "")
            return name, self.meters.get(name) or {}, name + "/" + self.unit + "/" + key
        name = str(named or "")
        return name, self.meters.get(name) or {}, name + "/" + self.unit

    def _step(self, key: str, number: Number) -> float:
        if self.reading.point.name in GLASSES:
            return GLASS_STEP
        _, data, _ = self._meter(key)
        stated = (data.get("points") or {}).get(self.reading.point.name) or {}
        for given in (stated.get("resolution"), data.get("resolution")):
            resolution = read_number(given)
            if resolution is not None and resolution.value > 0:
                return resolution.value
        return number.step

    def _doubt(self, key: str, number: Number, step: float) -> Doubt:
        """Return the standard uncertainty of a number. Source: CHECKS.md, Uncertainty (JCGM 100)."""
        name, data, group = self._meter(key)
        stated = (data.get("points") or {}).get(self.reading.point.name) or {}
        counts = read_number(stated.get("counts"))
        percent = read_number(stated.get("percent"))
        parts = [digit_doubt(step)]
        if counts is not None:
            parts.append(limit_doubt(counts.value * step))
        if name and data.get("kind") == "clamp" and units.dimension(self.unit) == "current":
            parts.append(limit_doubt(JAW_POSITION * number.value))
        square = 0.0
        for part in parts:
            square += part * part
        shared = limit_doubt(percent.value / 100.0) if percent is not None else 0.0
        offset_free = units.span_to_base(math.sqrt(square), self.unit)
        return Doubt(offset_free, abs(shared), group)
