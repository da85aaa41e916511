"""The three-leg rail of a finding as numbers to draw; the rule is server/docs/rail.md."""

import math
import re
from typing import Any, NamedTuple

TOP, BOTTOM, COLUMN = 16.0, 136.0, 60.0
LENGTH = BOTTOM - TOP
MIDDLE = (TOP + BOTTOM) / 2
# A low limit this many times under the other one needs decades to show both.
DECADE_RATIO = 5.0
BOUNDED = re.compile(r"([<>]?)([+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?)")


class Bounds(NamedTuple):
    """Inner bounds hold the allowed band, outer ones the watch zone; None is an open side."""

    inner_low: float | None
    inner_high: float | None
    outer_low: float | None
    outer_high: float | None


class Scale(NamedTuple):
    """From low to high, linear or by decades."""

    low: float
    high: float
    decades: bool

    def clip(self, value: float) -> float:
        return min(max(value, self.low), self.high)

    def y(self, value: float) -> float:
        low, here, high = (self._bent(one) for one in (self.low, self.clip(value), self.high))
        return _tenth(BOTTOM - LENGTH * (here - low) / (high - low))

    def _bent(self, value: float) -> float:
        return math.log10(value) if self.decades else value


class Place(NamedTuple):
    """Where a leg stands on the scale; `at_least` when the meter only gave a lower bound."""

    value: float
    by_deviation: bool
    at_least: bool


def rail_drawing(finding: dict[str, Any]) -> dict[str, Any]:
    """Return the numbers of a finding's drawing: width, and per leg the rail, zones, whisker and mark."""
    legs = _drawn_legs(finding)
    places = [_place(leg, finding.get("unit")) for leg in legs]
    known = [place for place in places if place is not None]
    mirrored = bool(known) and all(place.by_deviation for place in known)
    drawn = [
        limit for limit in finding.get("limits") or [] if limit.get("unit", finding.get("unit")) == finding.get("unit")
    ]
    bounds = _bounds(drawn, mirrored)
    scale = _scale(bounds, [place.value for place in known])
    columns = [
        _column(index, leg, place, finding, bounds, scale)
        for index, (leg, place) in enumerate(zip(legs, places, strict=True))
    ]
    return {"width": COLUMN * len(columns), "columns": columns}


def _drawn_legs(finding: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the legs, or the finding as one leg where no leg has a place on the limits' scale."""
    legs: list[dict[str, Any]] = finding.get("legs") or []
    placed = any(_place(leg, finding.get("unit")) for leg in legs)
    if placed or (legs and finding.get("value") is None):
        return legs
    return [{"leg": "", "value": finding.get("value"), "unit": finding.get("unit"), "verdict": finding["verdict"]}]


def _place(leg: dict[str, Any], unit: str | None) -> Place | None:
    if leg.get("judged") is not None:
        return Place(float(leg["judged"]), False, leg.get("bound") == ">")
    if leg.get("deviation") is not None and leg.get("deviation_unit") == unit:
        return Place(float(leg["deviation"]), True, False)
    value = leg.get("value")
    if value is None or leg.get("unit") != unit:
        return None
    found = BOUNDED.fullmatch(str(value))
    return Place(float(found[2]), False, found[1] == ">") if found else None


def _bounds(limits: list[dict[str, Any]], mirrored: bool) -> Bounds:
    def strictest(verdict: str, side: str) -> float | None:
        found = [limit[side] for limit in limits if limit["verdict"] == verdict and limit.get(side) is not None]
        return (min(found) if side == "above" else max(found)) if found else None

    watch_high, fail_high = strictest("watch", "above"), strictest("fail", "above")
    watch_low, fail_low = strictest("watch", "below"), strictest("fail", "below")
    if mirrored and watch_low is None and fail_low is None:
        watch_low, fail_low = _negative(watch_high), _negative(fail_high)
    return Bounds(
        _first(watch_low, fail_low),
        _first(watch_high, fail_high),
        _first(fail_low, watch_low),
        _first(fail_high, watch_high),
    )


def _tenth(value: float) -> float:
    """Round to a tenth with halves upward, as the phone does."""
    return math.floor(value * 10 + 0.5) / 10


def _first(one: float | None, other: float | None) -> float | None:
    return other if one is None else one


def _negative(value: float | None) -> float | None:
    return None if value is None else -value


def _scale(bounds: Bounds, places: list[float]) -> Scale:
    low, high, decades = 0.0, 0.0, False
    if bounds.outer_low is not None and bounds.outer_high is not None:
        pad = (bounds.outer_high - bounds.outer_low) / 4
        low, high = bounds.outer_low - pad, bounds.outer_high + pad
    elif bounds.outer_high is not None:
        high = 1.5 * bounds.outer_high
    elif bounds.outer_low is not None and bounds.inner_low is not None and bounds.inner_low < 0:
        low = 1.5 * bounds.outer_low
    elif bounds.outer_low is not None and bounds.inner_low is not None:
        decades = bounds.outer_low > 0 and bounds.inner_low >= DECADE_RATIO * bounds.outer_low
        low = bounds.outer_low / 10 if decades else 0.0
        high = bounds.inner_low * 10 if decades else 2 * bounds.inner_low
    else:
        high = 1.25 * max([abs(place) for place in places], default=0.0) or 1.0
    return Scale(low, high if high > low else low + 1, decades)


def _column(
    index: int, leg: dict[str, Any], place: Place | None, finding: dict[str, Any], bounds: Bounds, scale: Scale
) -> dict[str, Any]:
    verdict = leg.get("verdict") or finding["verdict"]
    spread = _first(leg.get("uncertainty"), finding.get("uncertainty"))
    return {
        "x": COLUMN * index + COLUMN / 2,
        "name": leg["leg"],
        "verdict": verdict if place is not None else "cannot_tell",
        "placed": place is not None,
        "y": MIDDLE if place is None else scale.y(place.value),
        "off": _off(place, bounds, scale),
        "band": _zone(scale, bounds.inner_low, bounds.inner_high),
        "near": _near(scale, bounds),
        "whisker": _whisker(place, spread, scale),
    }


def _off(place: Place | None, bounds: Bounds, scale: Scale) -> str:
    if place is None:
        return ""
    edge = bounds.inner_high if bounds.inner_high is not None else bounds.inner_low
    above = place.at_least and (edge is None or place.value > edge)
    if place.value > scale.high or above:
        return "up"
    return "down" if place.value < scale.low else ""


def _zone(scale: Scale, low: float | None, high: float | None) -> dict[str, float] | None:
    if low is None and high is None:
        return None
    top = scale.y(scale.high if high is None else high)
    bottom = scale.y(scale.low if low is None else low)
    return {"y": top, "height": _tenth(bottom - top)}


def _near(scale: Scale, bounds: Bounds) -> list[dict[str, float]]:
    sides = ((bounds.inner_high, bounds.outer_high), (bounds.outer_low, bounds.inner_low))
    zones = [_zone(scale, low, high) for low, high in sides if low is not None and high is not None]
    return [zone for zone in zones if zone and zone["height"] > 0]


def _whisker(place: Place | None, spread: float | None, scale: Scale) -> dict[str, Any] | None:
    if place is None or not spread:
        return None
    high, low = place.value + spread, place.value - spread
    caps = [scale.y(end) for end, clipped in ((high, high > scale.high), (low, low < scale.low)) if not clipped]
    return {"top": scale.y(high), "bottom": scale.y(low), "caps": caps}
