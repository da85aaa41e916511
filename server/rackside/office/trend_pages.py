"""A machine's trends as plots: drawn here, and handed to the script that lets one look closer."""

import json
from typing import Any

from fastapi import Request, Response

from rackside.office import chart
from rackside.office.pages import SignedIn, Store, page, routes
from rackside.office.trend_series import CHECKS, Line, Trend, trends
from rackside.records import clock, machines, trending
from rackside.reports import text

router = routes()
Json = dict[str, Any]


@router.get("/machines/{machine_id}/trends")
def machine_trends(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    with database.reading() as connection:
        machine = machines.one(connection, machine_id, caller.sites, rounds=0)
        site = machines.site(connection, machine["site"]["id"], caller.sites)
        found = trending.of_machine(connection, machine_id, CHECKS)
        oil = trending.additions(connection, "oil_added", machine=machine_id)
    where = text.zone(site)
    values = {
        "machine": machine,
        "zone_words": text.zone_words(site),
        "where": where,
        "plots": [plot(trend, where) for trend in trends(found, oil)],
    }
    return page(request, "trends.html", caller=caller, **values)


def plot(trend: Trend, where: Any) -> Json:
    """Return a trend ready for its template: the drawing, the marks in words, and the numbers for the script."""
    lines = [line for line in trend.lines if line.spots]
    drawn = chart.drawing(
        [[(_seconds(spot.at), spot.value) for spot in line.spots] for line in lines],
        [level for level, _ in trend.levels],
    )
    named = [
        {
            "name": line.name,
            "path": " ".join(f"{x},{y}" for x, y in places),
            "spots": [
                {"x": x, "y": y, "call": spot.call, "said": _said(spot, trend.unit, where)}
                for (x, y), spot in zip(places, line.spots, strict=True)
            ],
        }
        for line, places in zip(lines, drawn["lines"], strict=True)
    ]
    days = sorted({spot.at for line in lines for spot in line.spots})
    ends = [text.moment(day, where, "%d %b %Y") for day in (days[0], days[-1])] if days else []
    return {
        "key": trend.key,
        "title": trend.title,
        "unit": trend.unit,
        "lines": named,
        "ticks": drawn["ticks"],
        "levels": [{"y": y, "said": said} for y, (_, said) in zip(drawn["levels"], trend.levels, strict=True)],
        "ends": ends,
        "marks": _marks(trend, drawn, where),
        "numbers": json.dumps(_numbers(trend, lines)),
        "count": len(days),
    }


def _marks(trend: Trend, drawn: Json, where: Any) -> list[Json]:
    return [
        {
            "x": drawn["across"].place(_seconds(mark.at)),
            "call": mark.call,
            "words": mark.words,
            "day": text.moment(mark.at, where, "%d %b %Y"),
        }
        for mark in sorted(trend.marks, key=lambda mark: mark.at, reverse=True)
    ]


def _said(spot: Any, unit: str, where: Any) -> str:
    return f"{text.moment(spot.at, where, '%d %b %Y')}: {spot.value:.3g} {unit}"


def _numbers(trend: Trend, lines: list[Line]) -> Json:
    """Return what the script plots: times, and a column for each line."""
    shown = [*lines, trend.beside] if trend.beside and trend.beside.spots else lines
    times = sorted({spot.at for line in shown for spot in line.spots})
    by_time = [{spot.at: spot for spot in line.spots} for line in shown]
    calls = {spot.at: spot.call for line in shown for spot in line.spots}
    return {
        "times": [_seconds(at) for at in times],
        "calls": [calls[at] for at in times],
        "columns": [[spots[at].value if at in spots else None for at in times] for spots in by_time],
        "names": [line.name for line in shown],
        "units": [line.unit or trend.unit for line in shown],
        "beside": len(lines) if len(shown) > len(lines) else None,
        "levels": [level for level, _ in trend.levels],
        "marks": [_seconds(mark.at) for mark in trend.marks],
    }


def _seconds(at: str) -> float:
    return clock.read(at).timestamp()
