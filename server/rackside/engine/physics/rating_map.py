"""The ten-coefficient map that makers publish for a compressor.

X = C1 + C2 S + C3 D + C4 S2 + C5 S D + C6 D2 + C7 S3 + C8 D S2 + C9 S D2 + C10 D3, with S and D the dew temperatures of
suction and discharge, in the unit the maker fitted it in. Source: AHRI 540-2020, 5 (term order as in 540-2015, -2004).
"""

from ..kinds import Json
from ..number import read_number

AHRI_540 = "ahri-540"
BICUBIC = "bicubic"
# Where each AHRI term stands in the bicubic order 1, x, x2, y, y2, xy, x3, y3, x2y, xy2.
# Source: field names of the EnergyPlus compressor data set.
_AHRI_FROM_BICUBIC = (0, 1, 3, 2, 5, 4, 6, 8, 9, 7)
SIDES = ("suction", "discharge")


class RatingMap:
    """One quantity of a machine's map: ten terms in the AHRI order.

    envelope: lowest and highest suction, then discharge, in the map's own temperature unit; None where not published.
    """

    def __init__(self, terms: "tuple[float, ...]", envelope: "tuple[tuple[float, float] | None, ...]") -> None:
        self.terms = terms
        self.envelope = envelope

    def value(self, suction: float, discharge: float) -> float:
        """Return X at a pair of dew temperatures, in the map's unit."""
        s, d = suction, discharge
        powers = (1.0, s, d, s * s, s * d, d * d, s * s * s, d * s * s, s * d * d, d * d * d)
        return _dot(self.terms, powers)

    def slopes(self, suction: float, discharge: float) -> "tuple[float, float]":
        """Return how X changes with suction and with discharge temperature, per degree."""
        s, d = suction, discharge
        by_suction = (0.0, 1.0, 0.0, 2.0 * s, d, 0.0, 3.0 * s * s, 2.0 * d * s, d * d, 0.0)
        by_discharge = (0.0, 0.0, 1.0, 0.0, s, 2.0 * d, 0.0, s * s, 2.0 * s * d, 3.0 * d * d)
        return _dot(self.terms, by_suction), _dot(self.terms, by_discharge)

    def outside(self, suction: float, discharge: float) -> "tuple[str, ...]":
        """Return which of suction and discharge lie outside the published envelope."""
        found = []
        for side, at, bounds in zip(SIDES, (suction, discharge), self.envelope):
            if bounds is not None and not bounds[0] <= at <= bounds[1]:
                found.append(side)
        return tuple(found)


def rating_map(ratings: Json, quantity: str) -> "RatingMap | None":
    """Return the map of a quantity (current, power …) of machine.ratings, None when it is not published."""
    listed = ratings.get(quantity)
    numbers = [read_number(term) for term in listed] if isinstance(listed, list) else []
    values = tuple([number.value for number in numbers if number is not None])
    if len(values) != 10:
        return None
    if ratings.get("order") == BICUBIC:
        values = tuple([values[index] for index in _AHRI_FROM_BICUBIC])
    return RatingMap(values, envelope_of(ratings.get("envelope") or {}))


def envelope_of(given: Json) -> "tuple[tuple[float, float] | None, ...]":
    """Return the bounds of suction and discharge in an envelope {"suction": [low, high], "discharge": [low, high]}."""
    return tuple([_bounds(given.get(side)) for side in SIDES])


def _bounds(pair: object) -> "tuple[float, float] | None":
    ends = [read_number(end) for end in pair] if isinstance(pair, list) else []
    values = [end.value for end in ends if end is not None]
    return (min(values), max(values)) if len(values) == 2 else None


def _dot(terms: "tuple[float, ...]", powers: "tuple[float, ...]") -> float:
    total = 0.0
    for term, power in zip(terms, powers):
        total += term * power
    return total
