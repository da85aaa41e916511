"""Events written down in the transaction of the entry that causes them: either both are kept or neither."""

import json
from collections.abc import Iterable
from datetime import timedelta
from typing import Any
from uuid import uuid4

from sqlalchemy import Connection, select
from sqlalchemy.dialects import postgresql, sqlite

from rackside.records import clock
from rackside.records.log import CALLS, Logged
from rackside.records.outgoing import Delivery, Webhook
from rackside.records.rows import TABLES
from rackside.records.states import state_of

WEBHOOKS = Webhook.__table__  # type: ignore[attr-defined]
DELIVERIES = Delivery.__table__  # type: ignore[attr-defined]
MACHINES, SITES = TABLES["machine"], TABLES["site"]
SUBMITTED, REVIEWED, OVERRULED = "call.submitted", "call.reviewed", "gate.overruled"
WATCH_DUE, CONDEMNED = "watch.due", "machine.condemned"
# What an address is sent when somebody tries it; nobody asks for it, so it is no event.
TEST = "webhook.test"
# Each event with the kind of entry that causes it and what it tells of that entry; a watch falls due by itself.
EVENTS: dict[str, tuple[str | None, tuple[str, ...]]] = {
    SUBMITTED: ("submission", ("note",)),
    REVIEWED: ("review", ("outcome", "note")),
    OVERRULED: ("override", ("gate", "need", "reason")),
    CONDEMNED: ("decision", ("cause", "reason", "approver")),
    WATCH_DUE: (None, ()),
}
# A watch that fell due while no server ran is still told within this time.
STILL_TOLD = timedelta(days=3)
Json = dict[str, Any]


def note(connection: Connection, taken: Iterable[Logged]) -> None:
    """Write down what these entries, already in the log and its tables, mean to those who asked to be told."""
    caused = [(event, logged) for logged in taken for event in [_event_of(logged.entry)] if event]
    hooks = _live(connection) if caused else []
    if not hooks:
        return
    calls = _calls(connection, CALLS.c.id.in_({logged.entry["call"] for _, logged in caused}))
    rows = []
    for event, logged in caused:
        entry = logged.entry
        own = {name: entry["body"].get(name) for name in EVENTS[event][1]}
        data = {"entry": entry["id"], "author": entry["author"], **calls[entry["call"]], **own}
        rows += _rows(hooks, event, entry["id"], logged.received_at, data)
    _insert(connection, rows)


def _event_of(entry: Json) -> str | None:
    """Return the event an entry causes, None for most."""
    kind = entry["kind"]
    if entry["call"] is None or (kind == "decision" and entry["body"].get("decision") != "condemn"):
        return None
    if entry["base"] and kind != "decision":
        return None
    return next((event for event, (cause, _) in EVENTS.items() if cause == kind), None)


def due_watches(connection: Connection) -> list[Json]:
    """Return the calls whose watch fell due lately and of which somebody has not been told."""
    now = clock.now()
    told = DELIVERIES.c.cause == CALLS.c.id + " " + CALLS.c.watch_until
    untold = (
        select(1)
        .where(WEBHOOKS.c.ended_at.is_(None), WEBHOOKS.c.events.contains(WATCH_DUE))
        .where(WEBHOOKS.c.created_at <= CALLS.c.watch_until)
        .where(~select(1).where(DELIVERIES.c.webhook_id == WEBHOOKS.c.id, told).exists())
    )
    lately = CALLS.c.watch_until > clock.written(now - STILL_TOLD)
    due = (CALLS.c.watch_until <= clock.written(now)) & (CALLS.c.phase == "accepted") & CALLS.c.retracted.is_(False)
    return list(_calls(connection, due, lately, untold.exists()).values())


def note_watches(connection: Connection) -> None:
    """Write down every watch that fell due, once for each who asked."""
    for call in due_watches(connection):
        hooks = [hook for hook in _live(connection) if hook.created_at <= call["watch_until"]]
        cause = f"{call['call']} {call['watch_until']}"
        _insert(connection, _rows(hooks, WATCH_DUE, cause, clock.written(clock.now()), call))


def _live(connection: Connection) -> list[Any]:
    return list(connection.execute(select(WEBHOOKS).where(WEBHOOKS.c.ended_at.is_(None))))


def _calls(connection: Connection, *conditions: Any) -> dict[str, Json]:
    """Return what every event tells of its call."""
    named = (MACHINES.c.tag, MACHINES.c.rack, SITES.c.name.label("site_name"))
    asked = (
        select(CALLS, *named)
        .outerjoin(MACHINES, MACHINES.c.id == CALLS.c.machine_id)
        .outerjoin(SITES, SITES.c.id == CALLS.c.site_id)
        .where(*conditions)
    )
    return {row.id: _told(row) for row in connection.execute(asked)}


def _told(row: Any) -> Json:
    return {
        "call": row.id,
        "state": state_of(row.phase, row.watch_until, clock.now()),
        "complaint": row.complaint,
        "machine": {"id": row.machine_id, "tag": row.tag, "rack": row.rack},
        "site": {"id": row.site_id, "name": row.site_name},
        "watch_until": row.watch_until,
    }


def _rows(hooks: list[Any], event: str, cause: str, at: str, data: Json) -> list[Json]:
    wanted = [hook for hook in hooks if event in json.loads(hook.events) and _sees(hook, data["site"]["id"])]
    return [_row(hook.id, event, cause, at, data) for hook in wanted]


def _row(webhook_id: str, event: str, cause: str, at: str, data: Json) -> Json:
    payload = json.dumps({"type": event, "timestamp": at, "data": data})
    fresh = {"state": "pending", "attempts": 0, "next_at": at, "log": "[]", "created_at": at}
    about = {"event": event, "call_id": data.get("call"), "cause": cause, "payload": payload}
    return {"id": f"msg_{uuid4().hex}", "webhook_id": webhook_id, **about, **fresh}


def note_test(connection: Connection, webhook_id: str, by: str) -> str:
    """Write down a message that only tries the address; return its id."""
    now = clock.written(clock.now())
    row = _row(webhook_id, TEST, f"test {uuid4()}", now, {"webhook": webhook_id, "author": by})
    _insert(connection, [row])
    return str(row["id"])


def _sees(hook: Any, site_id: str) -> bool:
    return hook.sites is None or site_id in json.loads(hook.sites)


def _insert(connection: Connection, rows: list[Json]) -> None:
    if rows:
        dialect = postgresql if connection.dialect.name == "postgresql" else sqlite
        connection.execute(dialect.insert(DELIVERIES).on_conflict_do_nothing(), rows)
