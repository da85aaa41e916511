"""The warranty file as one flat table for other software: a row for every fact. Pure."""

import csv
import io
from collections.abc import Iterator
from typing import Any

from rackside.reports import readings, text
from rackside.reports.warranty import places_of

Json = dict[str, Any]
COLUMNS = (
    "record",
    "round",
    "at",
    "by",
    "what",
    "leg",
    "value",
    "unit",
    "uncertainty",
    "state",
    "conditions",
    "meter",
    "verdict",
    "limit",
    "source",
    "readings",
    "quantity",
    "price",
    "currency",
    "total",
    "text",
)
# A spreadsheet would run a cell that begins so.
RISKY = ("=", "+", "-", "@", "\t", "\r")


def table(sheet: Json) -> str:
    """Return the file as CSV: `record` says what a row is, and the columns it does not need are empty."""
    written = io.StringIO()
    rows = csv.DictWriter(written, COLUMNS, restval="")
    rows.writeheader()
    for row in _rows(sheet):
        rows.writerow({name: _inert(value) for name, value in row.items() if value is not None})
    return written.getvalue()


def _rows(sheet: Json) -> Iterator[Json]:
    case, result = sheet["case"], sheet["result"]
    places = places_of(case)
    yield from _head(sheet)
    for round_ in case["rounds"]:
        for reading in round_["readings"]:
            yield from _reading(reading, round_["label"], case["meters"], places)
    for neighbour in case.get("neighbours") or []:
        for reading in neighbour["readings"]:
            yield from _reading(reading, f"neighbour {neighbour.get('tag') or ''}".strip(), case["meters"], places)
    for round_ in result["rounds"]:
        for finding in round_["findings"]:
            yield from _finding(finding, round_, places)
    yield from _said(case, result)
    yield from _marked(sheet["marks"])
    yield from _lines(sheet["money"])
    yield from _pictures(sheet)


def _head(sheet: Json) -> Iterator[Json]:
    call = sheet["call"]
    known = {
        "call": call["id"],
        "state": call["state"],
        "site": call["site"]["name"],
        "time zone": call["site"].get("time_zone"),
        "times": text.file_clock(call["site"]),
        "machine": call["machine"].get("tag"),
        "model": call["machine"].get("model"),
        "serial": call["machine"].get("serial"),
        "refrigerant": call["machine"].get("refrigerant"),
        "complaint": call.get("complaint"),
        "reported": call.get("reported"),
        "rules": sheet["result"]["engine"]["rules"],
        "engine digest": sheet["result"]["engine"]["digest"],
    }
    for what, value in known.items():
        yield {"record": "call", "at": call["opened_at"], "by": call["author"], "what": what, "text": value}


def _reading(reading: Json, label: str, meters: Json, places: dict[str, int]) -> Iterator[Json]:
    told = readings.reading_words(reading, meters)
    row = {
        "record": "reading",
        "round": label,
        "at": told["at"],
        "by": told["by"],
        "what": told["point"],
        "readings": places[str(reading.get("id"))],
    }
    if told["not_taken"]:
        yield row | {"text": f"not taken, because: {told['not_taken']}"}
        return
    row |= {"unit": reading.get("unit"), "state": reading.get("state"), "conditions": told["conditions"]}
    row |= {"meter": told["meter"], "text": "two versions: " + ", ".join(told["versions"]) if told["versions"] else ""}
    for value in told["values"]:
        yield row | {"leg": value["leg"], "value": value["value"]}


def _finding(finding: Json, round_: Json, places: dict[str, int]) -> Iterator[Json]:
    limits = finding.get("limits") or []
    row = {
        "record": "verdict" if finding.get("carries") else "other verdict",
        "round": round_["label"],
        "at": round_.get("at"),
        "what": finding["check"],
        "limit": "; ".join(text.limit_words(limit) for limit in limits),
        "source": "; ".join(dict.fromkeys(text.source_words(limit.get("source") or {}) for limit in limits)),
        "readings": " ".join(str(places[one]) for one in finding.get("readings") or [] if one in places),
    }
    known = {"value": finding.get("value"), "unit": finding.get("unit"), "uncertainty": finding.get("uncertainty")}
    yield row | known | {"verdict": finding["verdict"], "text": finding["because"]}
    for leg in finding.get("legs") or []:
        own = {"leg": leg["leg"], "value": leg.get("value"), "unit": leg.get("unit"), "verdict": leg.get("verdict")}
        yield {"record": "leg", **{name: row[name] for name in ("round", "at", "what", "readings")}, **own}


def _said(case: Json, result: Json) -> Iterator[Json]:
    """Return what was seen, told, done, decided, passed and weighed, a row each."""
    for sign in case.get("signs") or []:
        yield {"record": "sign", "what": sign["sign"], "value": _yes(sign["present"]), "text": sign.get("note")}
    for event in case.get("events") or []:
        told = {"what": event["device"], "value": event["what"], "text": event.get("text")}
        yield {"record": "event", "at": event.get("at"), "by": event.get("by")} | told
    for action in case.get("actions") or []:
        told = {"what": action["kind"], "value": action.get("what")}
        change = f"before: {action.get('before') or '–'}; after: {action.get('after') or '–'}"
        yield {"record": "action", "at": action.get("at"), "by": action.get("by"), "text": change} | told
    for override in case.get("overrides") or []:
        told = {"what": override["gate"], "value": override["need"], "text": override["reason"]}
        yield {"record": "override", "at": override.get("at"), "by": override["by"]} | told
    for gate, stands in (result.get("gates") or {}).items():
        missing = [one["text"] for one in [*(stands.get("blocks") or []), *(stands.get("unmet") or [])]]
        yield {
            "record": "gate",
            "what": gate,
            "value": "open" if stands["open"] else "not met",
            "text": " ".join(missing),
        }
        for against in stands.get("started_against") or []:
            told = {"at": against.get("at"), "by": against.get("by"), "text": against["text"]}
            yield {"record": "started against the gate", "what": gate, "value": against.get("need"), **told}
    for cause in result.get("causes") or []:
        facts = [f"for: {one['text']}" for one in cause["for"]] + [
            f"against: {one['text']}" for one in cause["against"]
        ]
        if facts or cause["word"] != "not_shown":
            weight = {"value": cause["word"], "uncertainty": cause["probability"]}
            yield {"record": "cause", "what": cause["cause"], **weight, "text": " ".join(facts)}
    decision = case.get("decision")
    if decision:
        told = {"what": decision["decision"], "value": decision.get("cause"), "text": decision.get("reason")}
        yield {"record": "decision", "at": decision.get("at"), "by": decision.get("by")} | told


def _marked(marks: Json) -> Iterator[Json]:
    for mark in marks["done"]:
        yield {"record": "marked done", "at": mark["at"], "what": mark["mark"], "text": mark["words"]}
    for step in marks["left_out"]:
        yield {"record": "left out", "at": step["at"], "what": step["step"], "text": step["reason"]}


def _lines(priced: Json) -> Iterator[Json]:
    for group in priced["groups"]:
        for line in group["lines"]:
            asked = {name: line[name] for name in ("quantity", "price", "currency", "total")}
            yield {"record": line["kind"], "at": line["at"], "by": line["by"], "what": line["what"]} | asked
    for name in ("charged", "offered"):
        for total in priced[name]:
            yield {"record": f"total {name}", "currency": total["currency"], "total": total["total"]}


def _pictures(sheet: Json) -> Iterator[Json]:
    for photo in sheet["photos"]:
        when = {"at": photo.get("taken_at") or photo["at"], "by": photo["by"]}
        told = {"what": photo["shows"], "value": photo["sha256"], "text": photo["missing"] or photo.get("caption")}
        yield {"record": "photo"} | when | told
    for signature in sheet["signatures"]:
        told = {"what": signature["who"], "text": signature.get("role")}
        yield {"record": "signature", "at": signature["at"], "by": signature["by"]} | told


def _yes(present: bool) -> str:
    return "yes" if present else "no"


def _inert(value: Any) -> Any:
    """Return a cell no spreadsheet runs: text that begins like a formula is quoted, numbers stay numbers."""
    if isinstance(value, str) and value.startswith(RISKY) and not _is_number(value):
        return "'" + value
    return value


def _is_number(value: str) -> bool:
    try:
        float(value)
    except ValueError:
        return False
    return True
