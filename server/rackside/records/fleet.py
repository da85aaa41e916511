"""How each machine stands by its last judged call, for pages that put the worst first."""

from collections.abc import Collection
from typing import Any

from sqlalchemy import Connection, func, select

from rackside.records.judging import FINDINGS, VERDICTS
from rackside.records.log import CALLS, in_parts
from rackside.records.rows import TABLES

MACHINES, SITES = TABLES["machine"], TABLES["site"]
BAD = ("fail", "watch", "cannot_tell")
MOST = 2000
Json = dict[str, Any]


def standing(connection: Connection, sites: Collection[str] | None = None, site: str | None = None) -> list[Json]:
    """Return the machines in service: each with its last call, its last judged one, and what that one left."""
    rows = _machines(connection, sites, site)
    left = _left(connection, [row.judged for row in rows if row.judged])
    calls = _calls(connection, {call for row in rows for call in (row.judged, row.last) if call})
    return [_shown(row, calls, left) for row in rows]


def _machines(connection: Connection, sites: Collection[str] | None, site: str | None) -> list[Any]:
    own = select(CALLS.c.id).where(CALLS.c.machine_id == MACHINES.c.id, CALLS.c.retracted.is_(False))
    newest = own.order_by(CALLS.c.opened_at.desc()).limit(1).correlate(MACHINES)
    judged = newest.where(select(1).where(VERDICTS.c.call_id == CALLS.c.id).exists())
    asked = (
        select(MACHINES.c.id, MACHINES.c.tag, MACHINES.c.rack, MACHINES.c.site_id, SITES.c.name, SITES.c.time_zone)
        .add_columns(newest.scalar_subquery().label("last"), judged.scalar_subquery().label("judged"))
        .outerjoin(SITES, SITES.c.id == MACHINES.c.site_id)
        .where(MACHINES.c.retired.is_(False), MACHINES.c.retracted.is_(False))
    )
    if sites is not None:
        asked = asked.where(MACHINES.c.site_id.in_(list(sites)))
    if site is not None:
        asked = asked.where(MACHINES.c.site_id == site)
    return list(connection.execute(asked.order_by(SITES.c.name, MACHINES.c.rack, MACHINES.c.tag).limit(MOST)))


def _calls(connection: Connection, ids: Collection[str]) -> dict[str, Json]:
    named = ("id", "complaint", "opened_at", "phase", "watch_until", "decision")
    found: dict[str, Json] = {}
    for part in in_parts(ids):
        for row in connection.execute(select(*(CALLS.c[name] for name in named)).where(CALLS.c.id.in_(part))):
            found[row.id] = dict(row._mapping)
    return found


def _left(connection: Connection, calls: Collection[str]) -> dict[str, dict[str, str]]:
    """Return each call's checks that did not pass in the last round that judged them."""
    last: dict[tuple[str, str], tuple[str, str]] = {}
    columns = [FINDINGS.c[name] for name in ("call_id", "check", "at", "verdict")]
    for part in in_parts(_troubled(connection, calls)):
        for row in connection.execute(select(*columns).where(FINDINGS.c.call_id.in_(part)).order_by(FINDINGS.c.key)):
            held = last.get((row.call_id, row.check))
            if held is None or (row.at or "") >= held[0]:
                last[row.call_id, row.check] = (row.at or "", row.verdict)
    found: dict[str, dict[str, str]] = {}
    for (call, check), (_, verdict) in last.items():
        if verdict in BAD:
            found.setdefault(call, {})[check] = verdict
    return found


def _troubled(connection: Connection, calls: Collection[str]) -> list[str]:
    """Return the calls in which anything did not pass: of the others nothing is left, and there are many of them."""
    found: list[str] = []
    for part in in_parts(calls):
        bad = select(FINDINGS.c.call_id).where(FINDINGS.c.call_id.in_(part), FINDINGS.c.verdict.in_(BAD)).distinct()
        found += connection.execute(bad).scalars()
    return found


def _shown(row: Any, calls: dict[str, Json], left: dict[str, dict[str, str]]) -> Json:
    machine = {"id": row.id, "tag": row.tag, "rack": row.rack}
    machine["site"] = {"id": row.site_id, "name": row.name, "time_zone": row.time_zone}
    judged = calls.get(row.judged or "")
    return machine | {"last": calls.get(row.last or ""), "judged": judged, "left": left.get(row.judged or "", {})}


def trips(connection: Connection, since: str, sites: Collection[str] | None = None) -> dict[str, int]:
    """Return how many calls other than routine visits each machine had since a moment."""
    asked = select(CALLS.c.machine_id, func.count()).where(
        CALLS.c.opened_at > since, CALLS.c.complaint != "routine", CALLS.c.retracted.is_(False)
    )
    if sites is not None:
        asked = asked.where(CALLS.c.site_id.in_(list(sites)))
    return {row[0]: row[1] for row in connection.execute(asked.group_by(CALLS.c.machine_id))}
