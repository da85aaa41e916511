"""Everything one call's outputs need, read from the record once."""

import json
from collections.abc import Collection
from pathlib import Path
from typing import Any, NamedTuple

from sqlalchemy import Connection

from rackside import host
from rackside.engine.settle import Thing, things_of
from rackside.records import Database, calls, comparing, judging, log, machines
from rackside.reports import job_marks, money, text
from rackside.reports.pictures import pictures_of

Json = dict[str, Any]
MEASURED = ("round", "reading")


class Shop(NamedTuple):
    """What the settings decide about outputs: the folder of photos, and the currency of a line that names none."""

    photos: Path
    currency: str


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


def full_sheet(database: Database, call_id: str, shop: Shop, sites: Collection[str] | None = None) -> Json:
    """Return the sheet of a call with its case, judgement, lines, signatures and photos."""
    with database.reading() as connection:
        call = sheet_of(connection, call_id, sites)
        things = things_of(call["entries"])
        kinds = _by_kind(things)
        pictures = pictures_of(connection, shop.photos, kinds["photo"])
    judged = judging.judged(database, call_id)
    signing = {signature["photo"] for signature in kinds["signature"] if signature.get("photo")}
    return {
        "call": call,
        "case": judging.case_of(database, call_id),
        "result": json.loads(judged.result),
        "judged_at": judged.judged_at,
        "upto": judged.upto,
        "phone": comparing.phone_of(database, call_id),
        "where": text.zone(call["site"]),
        "zone_words": text.zone_words(call["site"]),
        "named": f"Machine {call['machine'].get('tag') or 'without a tag'}",
        "complaint": _complaint(call.get("complaint")),
        "marks": job_marks.marks_of(_extra(things, call_id)),
        "money": money.priced(kinds["line"], shop.currency),
        "photos": [picture for picture in pictures if picture["id"] not in signing],
        "signatures": [_signed(signature, pictures) for signature in kinds["signature"]],
    }


def _by_kind(things: list[Thing]) -> dict[str, list[Json]]:
    """Return the lines, photos and signatures that stand, corrections applied."""
    kinds: dict[str, list[Json]] = {"line": [], "photo": [], "signature": []}
    for thing in things:
        if thing.kind in kinds:
            kinds[thing.kind].append({**thing.body, "id": thing.id, "by": thing.author, "at": thing.made_at})
    return kinds


def _extra(things: list[Thing], call_id: str) -> Any:
    return next((thing.body.get("extra") for thing in things if thing.id == call_id), None)


def _signed(signature: Json, pictures: list[Json]) -> Json:
    found = [picture for picture in pictures if picture["id"] == signature.get("photo")]
    return {**signature, "picture": found[0] if found else None}


def _complaint(wanted: str | None) -> str:
    listed = host.describe().get("complaints", [])
    found = [item["text"] for item in listed if item.get("complaint") == wanted]
    return found[0] if found else (wanted or "").replace("_", " ")


def _last(entries: list[Json], kind: str) -> Json | None:
    """Return who sent the last entry of a kind, when, and what it says."""
    found = [entry for entry in entries if entry["kind"] == kind]
    return (
        {**found[-1]["body"], "id": found[-1]["id"], "by": found[-1]["author"], "at": found[-1]["made_at"]}
        if found
        else None
    )
