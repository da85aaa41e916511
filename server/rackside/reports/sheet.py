"""Everything one call's outputs need, read from the record once."""

import json
from collections.abc import Collection
from typing import Any

from sqlalchemy import Connection

from rackside import host
from rackside.records import Database, calls, judging, log, machines
from rackside.reports.customer import customer_report

Json = dict[str, Any]
MEASURED = ("round", "reading")


def sheet_of(connection: Connection, call_id: str, sites: Collection[str] | None = None) -> Json:
    """Return a call with its site, machine, people and how it stands; refuses not_found when it may not be seen."""
    call = calls.one(connection, call_id, sites)
    machine = machines.one(connection, call["machine"]["id"], sites, rounds=0)
    entries = log.of_call(connection, call_id)
    return call | {
        "site": machines.site(connection, call["site"]["id"], sites),
        "machine": {**machine["plate"], **{name: value for name, value in machine.items() if name != "plate"}},
        "technicians": list(dict.fromkeys(entry["author"] for entry in entries if entry["kind"] in MEASURED)),
        "decided": _last(entries, "decision"),
        "submitted": _last(entries, "submission"),
        "reviewed": _last(entries, "review"),
        "entries": entries,
    }


def customer_html(database: Database, call_id: str, sites: Collection[str] | None = None) -> str:
    """Return the customer's report of a call as HTML."""
    with database.reading() as connection:
        sheet = sheet_of(connection, call_id, sites)
    result = json.loads(judging.judged(database, call_id).result)
    return customer_report(sheet, judging.case_of(database, call_id), result, host.describe())


def _last(entries: list[Json], kind: str) -> Json | None:
    """Return who sent the last entry of a kind, when, and what it says."""
    found = [entry for entry in entries if entry["kind"] == kind]
    return (
        {**found[-1]["body"], "id": found[-1]["id"], "by": found[-1]["author"], "at": found[-1]["made_at"]}
        if found
        else None
    )
