"""Results of a call as JSON, and as a table: one line for each round, check and leg."""

import csv
import io
import json
from collections.abc import Iterable, Sequence
from typing import Any

from rackside.records import Database, comparing, judging

COLUMNS = ("round", "at", "check", "leg", "value", "unit", "uncertainty", "limit", "verdict", "source")


WHOSE = ("call", "opened_at", "state", "site", "rack", "tag", "machine")


def text_of(database: Database, call: dict[str, Any]) -> str:
    """Return the judgement of a call as JSON; the result itself is the engine's own text."""
    judged = judging.judged(database, call["id"])
    head = {"call": call["id"], "machine": call["machine"]["id"], "state": call["state"], "judged_at": judged.judged_at}
    tail = {"phone": comparing.phone_of(database, call["id"]), "entries": judged.upto}
    return json.dumps(head)[:-1] + ',"result":' + judged.result + "," + json.dumps(tail)[1:]


def csv_of(result: dict[str, Any]) -> str:
    """Return a result as CSV."""
    return _written(COLUMNS, _lines_of(result))


def csv_of_many(database: Database, calls: Iterable[dict[str, Any]]) -> str:
    """Return the results of many calls as one table, each line beginning with whose it is."""
    lines: list[list[Any]] = []
    for call in calls:
        whose = [call["id"], call["opened_at"], call["state"], call["site"]["name"]]
        whose += [call["machine"][name] or "" for name in ("rack", "tag", "id")]
        result = json.loads(judging.judged(database, call["id"]).result)
        lines += [whose + line for line in _lines_of(result)]
    return _written(WHOSE + COLUMNS, lines)


def _written(columns: Sequence[str], lines: Iterable[list[Any]]) -> str:
    text = io.StringIO()
    table = csv.writer(text)
    table.writerow(columns)
    table.writerows([_unspoilt(cell) for cell in line] for line in lines)
    return text.getvalue()


def _unspoilt(cell: Any) -> Any:
    """Keep a text from being run as a formula by a spreadsheet."""
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell


def _lines_of(result: dict[str, Any]) -> list[list[Any]]:
    return [line for round_ in result["rounds"] for finding in round_["findings"] for line in _lines(round_, finding)]


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
