"""A machine's findings over time, one row for each check, newest first. Pure."""

from typing import Any

from rackside.reports.findings import telling
from rackside.reports.text import name, number

Json = dict[str, Any]
COLUMNS = 5


def trend_rows(points: list[Json]) -> list[Json]:
    """Return each check's last findings, one for each call: its as-left one where there is one."""
    by_check: dict[str, dict[str, Json]] = {}
    for point in points:
        kept = by_check.setdefault(point["check"], {})
        earlier = kept.get(point["call"])
        if earlier is None or earlier["label"] != "as_left" or point["label"] == "as_left":
            kept[point["call"]] = point
    in_order = sorted(by_check, key=lambda check: (telling(check), name("check", check)))
    return [_row(check, list(by_check[check].values())) for check in in_order]


def _row(check: str, points: list[Json]) -> Json:
    newest = sorted(points, key=lambda point: point["at"] or "", reverse=True)[:COLUMNS]
    cells = [
        {
            "at": point["at"],
            "said": number(point["value"], point["unit"]),
            "verdict": point["verdict"],
            "call": point["call"],
        }
        for point in newest
    ]
    return {"title": name("check", check), "cells": cells}
