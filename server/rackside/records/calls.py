"""Questions about calls."""

import json
from collections.abc import Collection
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, func, literal, not_, or_, select

from rackside.records import clock, keyset, log
from rackside.records.judging import VERDICTS
from rackside.records.log import CALLS, ENTRIES
from rackside.records.refused import Refused
from rackside.records.rows import TABLES
from rackside.records.states import state_of

MACHINES, SITES, ROUNDS, READINGS, PHOTOS = (TABLES[kind] for kind in ("machine", "site", "round", "reading", "photo"))
Json = dict[str, Any]
COUNTED = 500
SHOWN = ("id", "complaint", "opened_at", "assigned_to", "follows", "author", "decision", "cause", "watch_until")


def _asked() -> Select[Any]:
    named = (MACHINES.c.tag, MACHINES.c.rack, SITES.c.name.label("site_name"), SITES.c.time_zone, VERDICTS.c.verdict)
    return (
        select(CALLS, *named)
        .outerjoin(MACHINES, MACHINES.c.id == CALLS.c.machine_id)
        .outerjoin(SITES, SITES.c.id == CALLS.c.site_id)
        .outerjoin(VERDICTS, VERDICTS.c.call_id == CALLS.c.id)
    )


def in_states(states: Collection[str], now: datetime) -> ColumnElement[bool]:
    """Return the condition that a call is in one of these states as of now.

    Accepted calls are told apart by their watch; those under watch are few and are looked up by its end.
    """
    filled = CALLS.c.watch_until.is_not(None)
    running = select(CALLS.c.id).where(CALLS.c.phase == "accepted", filled, CALLS.c.watch_until > clock.written(now))
    watching = CALLS.c.id.in_(running)
    if set(states) == {"watching"}:
        return watching
    watches = {"watching": watching, "closed": filled & not_(watching), "accepted": CALLS.c.watch_until.is_(None)}
    asked = [CALLS.c.phase == state for state in states if state not in watches]
    accepted = [watches[state] for state in states if state in watches]
    if accepted:
        asked.append((CALLS.c.phase == "accepted") & or_(*accepted))
    return or_(*asked)


def page(
    connection: Connection,
    sites: Collection[str] | None = None,
    states: Collection[str] = (),
    site: str | None = None,
    machine: str | None = None,
    assigned_to: str | None = None,
    limit: int = 50,
    after: str | None = None,
    since: str | None = None,
    complaint: str | None = None,
    cause: str | None = None,
) -> tuple[list[Json], str | None]:
    """Return one page of calls, last changed first; `sites` bounds what the asker may see, None is all."""
    now = clock.now()
    wanted = {"site_id": site, "machine_id": machine, "assigned_to": assigned_to, "complaint": complaint}
    asked = _asked().where(*_conditions(sites, states, now, wanted | {"cause": cause}))
    listed = keyset.listed(connection, asked, CALLS, limit, after, since)
    return [shown(row, now) for row in listed.rows], listed.next


def _conditions(
    sites: Collection[str] | None, states: Collection[str], now: datetime, wanted: dict[str, str | None]
) -> list[ColumnElement[bool]]:
    found = [CALLS.c.retracted.is_(False)]
    if sites is not None:
        found.append(CALLS.c.site_id.in_(list(sites)))
    if states:
        found.append(in_states(states, now))
    return found + [CALLS.c[column] == value for column, value in wanted.items() if value is not None]


def count(connection: Connection, sites: Collection[str] | None, states: Collection[str], **wanted: str | None) -> int:
    """Return how many calls a list holds, counted no further than COUNTED + 1."""
    few = select(literal(1)).select_from(CALLS).where(*_conditions(sites, states, clock.now(), wanted))
    return connection.scalar(select(func.count()).select_from(few.limit(COUNTED + 1).subquery())) or 0


def shown(row: Any, now: datetime) -> Json:
    """Return a call as lists answer it."""
    call = {name: getattr(row, name) for name in SHOWN}
    call["state"] = state_of(row.phase, row.watch_until, now)
    call["machine"] = {"id": row.machine_id, "tag": row.tag, "rack": row.rack}
    call["site"] = {"id": row.site_id, "name": row.site_name, "time_zone": row.time_zone}
    return call | {"verdict": row.verdict, "changed": row.changed, "changed_at": row.changed_at}


def listed_one(connection: Connection, call_id: str, now: datetime) -> Json:
    """Return one call as lists answer it."""
    return shown(connection.execute(_asked().where(CALLS.c.id == call_id)).one(), now)


def one(connection: Connection, call_id: str, sites: Collection[str] | None = None) -> Json:
    """Return a call with its rounds, photos, reviews and followers; refuse not_found when it may not be seen."""
    row = connection.execute(_asked().where(CALLS.c.id == call_id)).first()
    if row is None or (sites is not None and row.site_id not in sites):
        raise Refused("not_found", f"There is no call {call_id} here.")
    call = shown(row, clock.now()) | {"retracted": row.retracted, "reported": json.loads(row.body).get("reported")}
    counted = select(ROUNDS, func.count(READINGS.c.id).label("readings"))
    rounds = counted.outerjoin(READINGS, READINGS.c.round_id == ROUNDS.c.id).where(ROUNDS.c.call_id == call_id)
    call["rounds"] = [
        {"id": found.id, "label": found.label, "at": json.loads(found.body)["at"], "readings": found.readings}
        for found in connection.execute(rounds.group_by(ROUNDS.c.id).order_by(ROUNDS.c.at, ROUNDS.c.id))
    ]
    photos = select(PHOTOS).where(PHOTOS.c.call_id == call_id).order_by(PHOTOS.c.taken_at, PHOTOS.c.id)
    hidden = ("call_id", "site_id")
    found = connection.execute(photos).mappings()
    call["photos"] = [{name: value for name, value in photo.items() if name not in hidden} for photo in found]
    reviews = log.documents(connection, ENTRIES.c.call_id == call_id, ENTRIES.c.kind == "review")
    call["reviews"] = [
        {"id": entry["id"], "author": entry["author"], "received_at": entry["received_at"], **entry["body"]}
        for entry in reviews
    ]
    followers = select(CALLS.c.id).where(CALLS.c.follows == call_id).order_by(CALLS.c.opened_at)
    return call | {"followed_by": list(connection.execute(followers).scalars())}


def count_by_state(connection: Connection, sites: Collection[str] | None = None) -> dict[str, int]:
    """Return how many calls are in each state that waits for somebody, counted no further than COUNTED + 1."""
    return {state: count(connection, sites, [state]) for state in ("open", "submitted", "returned", "watching")}
