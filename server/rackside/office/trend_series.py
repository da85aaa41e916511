"""A machine's trends: which numbers, normalised how, and what is worth a mark. Pure.

The marks are the alarm ideas of the trade (handbook D4): a change that asks for a look, not a verdict.
"""

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

Json = dict[str, Any]
CHECKS = (
    "insulation",
    "pole_drop",
    "net_oil_pressure",
    "sump_superheat",
    "current_against_expected",
    "running_current_unbalance",
    "start_current",
    "start_rate",
)
LIKE_KELVIN, LIKE_FAHRENHEIT = 10.0, 15.0


class Spot(NamedTuple):
    """One number of one call; `like` is the condition under which two of them may be compared."""

    at: str
    value: float
    call: str
    like: float | None = None


class Line(NamedTuple):
    name: str
    spots: list[Spot]
    unit: str = ""


class Mark(NamedTuple):
    at: str
    call: str
    words: str


class Trend(NamedTuple):
    """What one plot shows. `levels` are lines across it; `beside` is drawn on a scale of its own."""

    key: str
    title: str
    unit: str
    lines: list[Line]
    marks: list[Mark]
    levels: tuple[tuple[float, str], ...] = ()
    beside: Line | None = None


def newest_marks(found: list[Trend]) -> list[Mark]:
    """Return what the last visit of each trend is marked for, with the trend's name."""
    told = []
    for trend in found:
        last = max(spot.at for line in trend.lines for spot in line.spots)
        told += [mark._replace(words=f"{trend.title}: {mark.words}") for mark in trend.marks if mark.at == last]
    return told


def trends(findings: dict[str, list[Json]], oil: list[Json]) -> list[Trend]:
    """Return the plots that have something to show."""
    visits = {check: by_visit(points) for check, points in findings.items()}
    made = [maker(visits) for maker in _MAKERS] + [_oil_added(oil)]
    return [trend for trend in made if any(line.spots for line in trend.lines)]


def by_visit(points: Iterable[Json]) -> list[Json]:
    """Return one finding of each call, its as-left one where there is one, oldest first."""
    chosen: dict[str, Json] = {}
    for point in points:
        held = chosen.get(point["call"])
        if point["at"] and (held is None or held["label"] != "as_left" or point["label"] == "as_left"):
            chosen[point["call"]] = point
    return sorted(chosen.values(), key=lambda point: point["at"])


def _spots(points: list[Json], value: Callable[[Json], Any], like: Callable[[Json], Any] | None = None) -> list[Spot]:
    told = [(point, value(point), like(point) if like else None) for point in points]
    return [Spot(point["at"], number, point["call"], beside) for point, number, beside in told if number is not None]


def _own(point: Json) -> Any:
    return point["value"]


def _detail(member: str) -> Callable[[Json], Any]:
    return lambda point: point["detail"].get(member)


def _insulation(visits: dict[str, list[Json]]) -> Trend:
    spots = _spots(
        visits["insulation"],
        lambda point: point["detail"].get("at_40c"),
        lambda point: point["detail"].get("winding_c"),
    )
    marks = [Mark(spot.at, spot.call, "below 20 MΩ at 40 °C") for spot in spots if spot.value < 20]
    for place, spot in enumerate(spots):
        for earlier in spots[max(0, place - 2) : place]:
            if spot.value <= earlier.value / 2 and _alike(spot, earlier, LIKE_KELVIN):
                marks.append(Mark(spot.at, spot.call, "halved within two visits at like temperature"))
                break
    return Trend("insulation", "Insulation at 40 °C", "MΩ", [Line("windings to ground", spots)], marks, ((20, "20"),))


def _poles(visits: dict[str, list[Json]]) -> Trend:
    points = visits["pole_drop"]
    names = list(dict.fromkeys(leg["leg"] for point in points for leg in point["legs"]))
    lines = [Line(name, _spots(points, _leg(name, "mohm"))) for name in names]
    marks = []
    for line in lines:
        for earlier, spot in _neighbours(line.spots):
            if spot.value > 1.5 * earlier.value:
                marks.append(Mark(spot.at, spot.call, f"{line.name} more than half up on the visit before"))
    for point in points:
        ohms = [leg["mohm"] for leg in point["legs"] if leg.get("mohm")]
        if ohms and max(ohms) > 1.5 * min(ohms):
            marks.append(Mark(point["at"], point["call"], "poles more than half apart"))
    return Trend("poles", "Contactor poles", "mΩ", lines, marks)


def _leg(name: str, member: str) -> Callable[[Json], Any]:
    return lambda point: next((leg.get(member) for leg in point["legs"] if leg["leg"] == name), None)


def _net_oil(visits: dict[str, list[Json]]) -> Trend:
    sump = {point["call"]: _sump(point) for point in visits["sump_superheat"]}
    spots = _spots(visits["net_oil_pressure"], _own, lambda point: sump.get(point["call"]))
    warm = [Spot(spot.at, spot.like, spot.call) for spot in spots if spot.like is not None]
    fallen = [
        Mark(spot.at, spot.call, "more than a fifth below an earlier visit at like sump temperature")
        for place, spot in enumerate(spots)
        if any(spot.value < 0.8 * earlier.value and _alike(spot, earlier, LIKE_FAHRENHEIT) for earlier in spots[:place])
    ]
    return Trend(
        "net_oil", "Net oil pressure", "psi", [Line("net oil", spots)], fallen, beside=Line("sump", warm, "°F")
    )


def _sump(point: Json) -> float | None:
    saturated = point["detail"].get("saturated")
    return None if saturated is None or point["unit"] != "F" else float(point["value"] + saturated)


def _expected(visits: dict[str, list[Json]]) -> Trend:
    spots = _spots(visits["current_against_expected"], _own)
    marks = [
        Mark(spot.at, spot.call, "more than 10 % off what it should draw") for spot in spots if abs(spot.value) > 10
    ]
    levels = ((10.0, "+10"), (-10.0, "−10"))
    return Trend("expected", "Amps against expected", "%", [Line("mean of three legs", spots)], marks, levels)


def _unbalance(visits: dict[str, list[Json]]) -> Trend:
    points = visits["running_current_unbalance"]
    amps = Line("amps", _spots(points, _own))
    volts = Line("volts", _spots(points, _detail("voltage_unbalance_percent")))
    ratios = _spots(points, _detail("ratio_to_voltage_unbalance"))
    marks = [
        Mark(spot.at, spot.call, f"{spot.value:.0f} times the volts' unbalance: look at motor and joints")
        for spot in ratios
        if spot.value > 10
    ]
    return Trend("unbalance", "Unbalance of amps and volts", "%", [amps, volts], marks)


def _start(visits: dict[str, list[Json]]) -> Trend:
    points = visits["start_current"]
    spots = _spots(points, _own)
    seconds = _spots(points, _detail("duration"))
    marks = [
        Mark(spot.at, spot.call, "took twice as long to start as the visit before")
        for earlier, spot in _neighbours(seconds)
        if spot.value >= 2 * earlier.value
    ]
    line = Line("of locked rotor amps at these volts", spots)
    return Trend("start", "Start amps", "ratio", [line], marks, beside=Line("time to start", seconds, "s"))


def _starts(visits: dict[str, list[Json]]) -> Trend:
    spots = _spots(visits["start_rate"], _own)
    marks = [Mark(spot.at, spot.call, "more than 8 starts in an hour") for spot in spots if spot.value > 8]
    return Trend("starts", "Starts", "in an hour", [Line("starts", spots)], marks, ((8, "8"),))


def _oil_added(oil: list[Json]) -> Trend:
    told = [(one, _number(one.get("value"))) for one in oil if one.get("unit", "floz") == "floz"]
    spots = [Spot(one["at"], number, one["call"]) for one, number in told if number]
    marks = [Mark(spot.at, spot.call, "where did it go?") for spot in spots]
    return Trend("oil_added", "Oil added", "fl oz", [Line("oil added", spots)], marks)


def _number(text: Any) -> float | None:
    try:
        return float(text)
    except (TypeError, ValueError):
        return None


def _alike(one: Spot, other: Spot, within: float) -> bool:
    return one.like is not None and other.like is not None and abs(one.like - other.like) <= within


def _neighbours(spots: list[Spot]) -> Iterable[tuple[Spot, Spot]]:
    return zip(spots, spots[1:], strict=False)


_MAKERS = (_insulation, _poles, _net_oil, _expected, _unbalance, _start, _starts)
