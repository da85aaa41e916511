"""Results of a call as a table: one line for each round, check and leg."""

import csv
import io
from typing import Any

COLUMNS = ("round", "at", "check", "leg", "value", "unit", "uncertainty", "limit", "verdict", "source")


def csv_of(result: dict[str, Any]) -> str:
    """Return a result as CSV."""
    text = io.StringIO()
    lines = csv.writer(text)
    lines.writerow(COLUMNS)
    for round_ in result["rounds"]:
        for finding in round_["findings"]:
            lines.writerows(_lines(round_, finding))
    return text.getvalue()


def _lines(round_: dict[str, Any], finding: dict[str, Any]) -> list[list[Any]]:
    limits = finding.get("limits") or []
    limit, source = "; ".join(map(_limit, limits)), "; ".join(dict.fromkeys(map(_source, limits)))
    whole = {"leg": "", "value": finding.get("value"), "unit": finding.get("unit"), "verdict": finding["verdict"]}
    lines = []
    for leg in finding.get("legs") or [whole]:
        doubt = finding.get("uncertainty") if leg.get("unit") == finding.get("unit") else None
        own = [leg["leg"], _plain(leg.get("value")), leg.get("unit") or "", _plain(doubt)]
        head = [round_["label"], round_.get("at") or "", finding["check"]]
        lines.append([*head, *own, limit, leg.get("verdict") or finding["verdict"], source])
    return lines


def _plain(value: Any) -> Any:
    return "" if value is None else value


def _limit(limit: dict[str, Any]) -> str:
    bounds = [f"{side} {limit[side]:g}" for side in ("below", "above") if isinstance(limit.get(side), int | float)]
    return f"{limit['verdict']} {' or '.join(bounds)} {limit.get('unit') or ''}".strip()


def _source(limit: dict[str, Any]) -> str:
    source = limit.get("source") or {}
    return " ".join(str(source[part]) for part in ("work", "clause", "edition") if source.get(part))
