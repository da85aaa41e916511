"""Machines under watch: until when, whether anybody has measured since, and what tripped meanwhile."""

from collections.abc import Collection
from datetime import timedelta
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, func, select

from rackside.records import clock
from rackside.records.log import CALLS
from rackside.records.rows import TABLES

MACHINES, SITES, ROUNDS = TABLES["machine"], TABLES["site"], TABLES["round"]
SOON = timedelta(days=3)
# A watch that nobody closed with a reading is told for a quarter, then it is history.
TOLD_FOR = timedelta(days=90)
REPEATED_WITHIN = timedelta(days=30)
ROUTINE = "routine"
MOST = 500
Json = dict[str, Any]


def due(connection: Connection, sites: Collection[str] | None = None, limit: int = 50) -> list[Json]:
    """Return watches that end soon or ended with nothing measured since the decision, the earliest first."""
    now = clock.now()
    measured = (
        select(func.max(ROUNDS.c.at))
        .where(ROUNDS.c.machine_id == CALLS.c.machine_id, ROUNDS.c.call_id != CALLS.c.id)
        .scalar_subquery()
    )
    asked = _asked(measured.label("measured_at")).where(
        CALLS.c.phase == "accepted",
        CALLS.c.watch_until.is_not(None),
        CALLS.c.watch_until > clock.written(now - TOLD_FOR),
        CALLS.c.watch_until < clock.written(now + SOON),
        measured.is_(None) | (measured < CALLS.c.opened_at),
        *_seen(sites),
    )
    rows = connection.execute(asked.order_by(CALLS.c.watch_until, CALLS.c.id).limit(limit))
    return [_shown(row) | {"overdue": row.watch_until <= clock.written(now)} for row in rows]


def inside(connection: Connection, call: Json) -> list[Json]:
    """Return the watched calls of this call's machine in whose window it was opened, the latest first."""
    asked = _asked().where(
        CALLS.c.machine_id == call["machine"]["id"],
        CALLS.c.id != call["id"],
        CALLS.c.opened_at < call["opened_at"],
        CALLS.c.watch_until.is_not(None),
        CALLS.c.watch_until >= call["opened_at"],
        CALLS.c.retracted.is_(False),
    )
    return [_shown(row) for row in connection.execute(asked.order_by(CALLS.c.opened_at.desc()))]


def repeats(connection: Connection, sites: Collection[str] | None = None, limit: int = 200) -> list[Json]:
    """Return trips of the last 30 days that came inside a watch, or follow another call, the latest first."""
    since = clock.written(clock.now() - REPEATED_WITHIN)
    plain = (CALLS.c.id, CALLS.c.machine_id, CALLS.c.opened_at, CALLS.c.follows)
    trips = select(*plain).where(CALLS.c.opened_at > since, CALLS.c.complaint != ROUTINE)
    windows = _windows(connection, since)
    found = [row.id for row in connection.execute(trips) if row.follows or _in_window(row, windows)]
    asked = _asked().where(CALLS.c.id.in_(found[:MOST]), *_seen(sites))
    return [_shown(row) for row in connection.execute(asked.order_by(CALLS.c.opened_at.desc()).limit(limit))]


def _windows(connection: Connection, since: str) -> dict[str, list[Any]]:
    """Return the watches that ran after a moment, by machine."""
    asked = select(CALLS.c.id, CALLS.c.machine_id, CALLS.c.opened_at, CALLS.c.watch_until).where(
        CALLS.c.phase == "accepted",
        CALLS.c.watch_until.is_not(None),
        CALLS.c.watch_until > since,
        CALLS.c.retracted.is_(False),
    )
    found: dict[str, list[Any]] = {}
    for row in connection.execute(asked):
        found.setdefault(row.machine_id, []).append(row)
    return found


def _in_window(trip: Any, windows: dict[str, list[Any]]) -> bool:
    own = windows.get(trip.machine_id, ())
    return any(one.id != trip.id and one.opened_at < trip.opened_at <= one.watch_until for one in own)


def _asked(*more: Any) -> Select[Any]:
    named = (MACHINES.c.tag, MACHINES.c.rack, SITES.c.name.label("site_name"), SITES.c.time_zone)
    return (
        select(CALLS, *named, *more)
        .outerjoin(MACHINES, MACHINES.c.id == CALLS.c.machine_id)
        .outerjoin(SITES, SITES.c.id == CALLS.c.site_id)
    )


def _seen(sites: Collection[str] | None) -> list[ColumnElement[bool]]:
    found = [CALLS.c.retracted.is_(False), MACHINES.c.retired.is_(False), MACHINES.c.retracted.is_(False)]
    return found if sites is None else [*found, CALLS.c.site_id.in_(list(sites))]


def _shown(row: Any) -> Json:
    plain = ("id", "complaint", "opened_at", "follows", "decision", "cause", "watch_until")
    call = {name: getattr(row, name) for name in plain}
    call["machine"] = {"id": row.machine_id, "tag": row.tag, "rack": row.rack}
    return call | {"site": {"id": row.site_id, "name": row.site_name, "time_zone": row.time_zone}}
