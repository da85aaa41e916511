"""Entries the office writes: the same log, the same rules, the same door as a phone's."""

from collections.abc import Iterable
from typing import Any
from uuid import uuid4

from fastapi import Request

from rackside.access.caller import Caller
from rackside.records import Database, Refused, clock, log
from rackside.sync.fields import SCHEMA
from rackside.sync.prepare import prepare
from rackside.sync.push import push

Json = dict[str, Any]


def made(caller: Caller, kind: str, body: Json, call: str | None = None, base: Iterable[str] = ()) -> Json:
    """Return an entry as this person writes it now."""
    entry_id = str(uuid4())
    head = {"id": entry_id, "schema": SCHEMA, "kind": kind, "call": call, "base": list(base)}
    return head | {
        "made_at": clock.written(clock.now()),
        "device": caller.device_id,
        "author": caller.author,
        "body": body,
    }


def keep(request: Request, caller: Caller, *entries: Json) -> None:
    """Put entries into the log, all or none; the first that is refused is raised."""
    database: Database = request.app.state.database
    limit = request.app.state.settings.entry_limit
    for entry in entries:
        if refused := prepare(entry, limit).refused:
            raise refused
    answers = push(database, caller, None, list(entries), limit).answers
    for answer in answers:
        if answer.refused:
            raise answer.refused


def correct(request: Request, caller: Caller, thing_id: str, changes: Json) -> None:
    """Write a correction over every version of a thing that stands: only the members that change."""
    database: Database = request.app.state.database
    with database.reading() as connection:
        entries = log.of_thing(connection, thing_id)
    if not entries:
        raise Refused("not_found", f"There is no {thing_id} here.")
    first = entries[0]
    keep(request, caller, made(caller, first["kind"], changes, first["call"], heads(entries)))


def heads(entries: Iterable[Json]) -> list[str]:
    """Return the entries of a thing that no other one replaces."""
    listed = list(entries)
    replaced = {base for entry in listed for base in entry["base"]}
    return [entry["id"] for entry in listed if entry["id"] not in replaced]
