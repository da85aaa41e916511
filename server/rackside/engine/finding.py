"""What the judge answers for one reading: a verdict with its numbers, limits and sentences."""

import math

from . import units
from .kinds import Any, Json
from .limits import CANNOT_TELL, Limit
from .reading import Reading


class Finding:
    """One verdict on one reading.

    said: (sentence key, values) in the order they are spoken. fits: whether the reading was taken in the condition the
    check wants, so that it may carry the check's verdict.
    """

    def __init__(self, check: str, verdict: str, readings: "list[str]") -> None:
        self.check = check
        self.verdict = verdict
        self.readings = readings
        self.value: "float | None" = None
        self.unit = ""
        self.uncertainty: "float | None" = None
        self.legs: "list[Json]" = []
        self.limits: "list[Json]" = []
        self.detail: Json = {}
        self.said: "list[tuple[str, Json]]" = []
        self.missing: "list[str]" = []
        self.fits = True
        self.carries = False
        self.at: "float | None" = None
        self.point = ""

    def say(self, key: str, values: "Json | None" = None) -> "Finding":
        self.said.append((key, values or {}))
        return self

    def unread(self) -> bool:
        """Return whether its reading was not taken, not complete or not believable."""
        return bool(self.said) and self.said[0][0].startswith("reading.")

    def finite(self) -> bool:
        """Return whether every number in it can be written down: no result holds infinity or NaN."""
        waiting: "list[Any]" = [self.value, self.uncertainty, self.legs, self.limits, self.detail]
        waiting.extend([values for _, values in self.said])
        while waiting:
            one = waiting.pop()
            if isinstance(one, float) and not math.isfinite(one):
                return False
            if isinstance(one, dict):
                waiting.extend([one[key] for key in one])
            elif isinstance(one, (list, tuple)):
                waiting.extend(one)
        return True


def unread(check: str, reading: Reading) -> "Finding | None":
    """Return the finding of a reading that can't be judged at all, None when it can."""
    if reading.sound():
        return None
    finding = Finding(check, CANNOT_TELL, [reading.id] if reading.id else [])
    finding.fits = False
    if reading.not_taken:
        finding.missing = [reading.point.name]
        return finding.say("reading.not_taken", {"point": reading.point.name, "reason": reading.not_taken})
    for key, values in reading.problems:
        finding.say(key, values)
    if reading.missing_legs:
        finding.missing = [reading.point.name + " " + leg for leg in reading.missing_legs]
        finding.say("reading.missing_legs", {"point": reading.point.name, "legs": reading.missing_legs})
    return finding


def cannot_tell(
    check: str, readings: "list[Reading]", key: str, values: "Json | None" = None, missing: "tuple[str, ...]" = ()
) -> Finding:
    """Return a finding that says why nothing can be told, and what is missing."""
    finding = Finding(check, CANNOT_TELL, [reading.id for reading in readings if reading.id])
    finding.missing = list(missing)
    return finding.say(key, values)


class Scale:
    """Turns numbers of a check's own unit into the unit the reading was given in.

    unit: the check's. shown: the answer's. difference: True for a span (superheat, net pressure).
    """

    def __init__(
        self, unit: str, shown: str, difference: bool = False, atmosphere: float = units.ATMOSPHERE_PSI
    ) -> None:
        self.unit = unit
        self.shown = shown
        self.difference = difference
        self.atmosphere = atmosphere

    def value(self, value: float) -> float:
        if self.unit == self.shown:
            return value
        if self.difference:
            return self.span(value)
        return units.from_base(units.to_base(value, self.unit, self.atmosphere), self.shown, self.atmosphere)

    def span(self, value: float) -> float:
        if self.unit == self.shown:
            return value
        return units.span_from_base(units.span_to_base(value, self.unit), self.shown)

    def limit(self, limit: Limit) -> Json:
        above = None if limit.above is None else self.value(limit.above)
        below = None if limit.below is None else self.value(limit.below)
        if units.opposed(self.unit, self.shown):
            above, below = below, above
        return Limit(limit.verdict, above, below, self.shown, limit.source, limit.when).as_json()

    def edge(self, limit: "Limit | None") -> Any:
        """Return the bound of a limit in the answer's unit, None without one."""
        if limit is None:
            return None
        edge = limit.above if limit.above is not None else limit.below
        return None if edge is None else self.value(edge)
