"""Sheets made of a case alone, so that an output can be tried on any call without a server."""

from typing import Any

from rackside import host
from rackside.reports import job_marks, money, outputs, text
from tests.office.desk import words

Json = dict[str, Any]
SITE = {
    "id": "site",
    "name": "Tannery Lane Cold Store",
    "address": "14 Tannery Lane, Harrow Bend",
    "time_zone": "America/Chicago",
}
EMPTY: Json = {"meters": {}, "signs": [], "events": [], "neighbours": [], "actions": [], "overrides": [], "photos": []}


def sheet_of(case: Json, lines: tuple[Json, ...] = (), **more: Any) -> Json:
    """Return the sheet of a case; `more` replaces members of its call."""
    case = {**EMPTY, "decision": None, **case}
    call = {
        "id": "7966f2f1-0000-4000-8000-000000000000",
        "state": "submitted",
        "opened_at": case["rounds"][0]["at"] if case["rounds"] else "2026-10-14T21:00:00-05:00",
        "author": "M. Castellanos",
        "reported": None,
        "follows": None,
        "site": SITE,
        "machine": {**case["machine"], "confirmed": True},
        "technicians": ["T. Okafor"],
        "submitted": None,
        "reviewed": None,
        "reviews": [],
        "entries": [],
    } | more
    return {
        "call": call,
        "case": case,
        "result": host.judge(case),
        "judged_at": "2026-10-15T08:00:00Z",
        "upto": 120,
        "phone": None,
        "where": text.zone(SITE),
        "zone_words": text.zone_words(SITE),
        "named": f"Machine {case['machine'].get('tag') or 'without a tag'}",
        "complaint": "Oil failure trip",
        "marks": job_marks.marks_of(None),
        "money": money.priced(list(lines), "USD"),
        "photos": [],
        "signatures": [],
    }


def told(sheet: Json, kind: outputs.Kind) -> str:
    """Return what a reader of an output sees."""
    return words(outputs.page(sheet, kind))
