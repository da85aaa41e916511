"""The office's word on a call, written as an entry; not over entries the office has not seen."""

from typing import Any, NamedTuple

from sqlalchemy import Connection, select

from rackside.records import Database, Refused, clock, log, outbox, projection
from rackside.records.caller import Caller
from rackside.records.log import CALLS, ENTRIES
from rackside.sync.decide import Ledger, decide
from rackside.sync.fields import SCHEMA
from rackside.sync.prepare import prepare

Json = dict[str, Any]


class Reviewed(NamedTuple):
    entry: Json
    repeated: bool


def review(database: Database, caller: Caller, call_id: str, told: Json, entry_limit: int) -> Reviewed:
    """Write a review entry. Sent again it is the same review; entries after `seen` refuse it as stale."""
    with database.writing() as connection:
        state = log.state(connection, lock=True)
        entry = _entry(call_id, told, caller)
        held = log.documents(connection, ENTRIES.c.id == entry["id"])
        if held:
            return _repeated(held[0], entry)
        _check_seen(connection, call_id, told["seen"])
        prepared = prepare(entry, entry_limit)
        known = log.known(connection, prepared.names())
        taken = decide(prepared, Ledger(known, {}, {}, state.secret), caller)
        assert isinstance(taken, log.Logged)
        log.append(connection, state, [taken])
        projection.project(connection, [taken])
        outbox.note(connection, [taken])
        return Reviewed(log.documents(connection, ENTRIES.c.id == entry["id"])[0], False)


def _entry(call_id: str, told: Json, caller: Caller) -> Json:
    body = {name: told[name] for name in ("outcome", "note", "of", "seen") if told.get(name) is not None}
    head = {"id": told["id"], "schema": SCHEMA, "kind": "review", "call": call_id, "base": []}
    made = {"made_at": clock.written(clock.now()), "device": caller.device_id, "author": caller.author}
    return head | made | {"body": body}


def _repeated(held: Json, entry: Json) -> Reviewed:
    same = all(held[name] == entry[name] for name in ("kind", "call", "author", "body"))
    if not same:
        raise Refused("id_reused", f"Another entry with the id {entry['id']} was accepted before.")
    return Reviewed(held, True)


def _check_seen(connection: Connection, call_id: str, seen: int) -> None:
    changed = connection.scalar(select(CALLS.c.changed).where(CALLS.c.id == call_id))
    if changed is None or changed <= seen:
        return
    came = log.documents(connection, ENTRIES.c.call_id == call_id, ENTRIES.c.cursor > seen)
    shown = [{name: entry[name] for name in ("id", "kind", "author", "made_at", "cursor")} for entry in came]
    raise Refused("stale", f"{len(shown)} entries came to this call after {seen}.", seen=changed, since=shown)
