"""Questions about sites, machines and their trends."""

import json
from collections.abc import Collection
from typing import Any

from sqlalchemy import Connection, Select, select

from rackside.records import clock, history, keyset
from rackside.records.judging import FINDINGS
from rackside.records.log import CALLS
from rackside.records.refused import Refused
from rackside.records.rows import TABLES

MACHINES, SITES, METERS = TABLES["machine"], TABLES["site"], TABLES["meter"]
Json = dict[str, Any]
PLAIN = (
    "id",
    "rack",
    "tag",
    "type",
    "refrigerant",
    "retired",
    "retracted",
    "same_as",
    "confirmed",
    "changed",
    "changed_at",
)


def _asked() -> Select[Any]:
    named = (SITES.c.name.label("site_name"), SITES.c.time_zone)
    return select(MACHINES, *named).outerjoin(SITES, SITES.c.id == MACHINES.c.site_id)


def _shown(row: Any) -> Json:
    machine = {name: getattr(row, name) for name in PLAIN}
    machine["site"] = {"id": row.site_id, "name": row.site_name, "time_zone": row.time_zone}
    return machine | {"plate": json.loads(row.body)}


def page(
    connection: Connection,
    sites: Collection[str] | None = None,
    site: str | None = None,
    retired: bool = False,
    rounds: int | None = None,
    limit: int = 50,
    after: str | None = None,
    since: str | None = None,
) -> tuple[list[Json], str | None]:
    """Return one page of machines; `rounds` adds to each the history a case takes."""
    asked = _asked()
    if sites is not None:
        asked = asked.where(MACHINES.c.site_id.in_(list(sites)))
    if site is not None:
        asked = asked.where(MACHINES.c.site_id == site)
    if not retired:
        asked = asked.where(MACHINES.c.retired.is_(False), MACHINES.c.retracted.is_(False))
    listed = keyset.listed(connection, asked, MACHINES, limit, after, since)
    machines = [_shown(row) for row in listed.rows]
    if rounds is not None:
        for machine in machines:
            machine["history"] = history.of_machine(connection, machine["id"], rounds)
    return machines, listed.next


def one(connection: Connection, machine_id: str, sites: Collection[str] | None = None, rounds: int = 5) -> Json:
    """Return a machine with its plate and history, retired ones too."""
    row = connection.execute(_asked().where(MACHINES.c.id == machine_id)).first()
    if row is None or (sites is not None and row.site_id not in sites):
        raise Refused("not_found", f"There is no machine {machine_id} here.")
    return _shown(row) | {"history": history.of_machine(connection, machine_id, rounds)}


def trends(
    connection: Connection, machine_id: str, checks: Collection[str] = (), since: str | None = None, limit: int = 500
) -> list[Json]:
    """Return the last findings of a machine's calls as numbers over time, oldest first."""
    asked = select(FINDINGS).where(FINDINGS.c.machine_id == machine_id, FINDINGS.c.value.is_not(None))
    if checks:
        asked = asked.where(FINDINGS.c.check.in_(list(checks)))
    if since is not None:
        asked = asked.where(FINDINGS.c.at >= (clock.sortable(since) or since))
    rows = connection.execute(asked.order_by(FINDINGS.c.at.desc(), FINDINGS.c.key.desc()).limit(limit)).all()
    return [_point(row) for row in reversed(rows)]


def _point(row: Any) -> Json:
    names = ("check", "at", "label", "value", "unit", "uncertainty", "verdict")
    point = {name: getattr(row, name) for name in names}
    return (
        point
        | {"call": row.call_id, "round": row.round_id}
        | {"legs": json.loads(row.legs), "detail": json.loads(row.detail)}
    )


def sites(connection: Connection, seen: Collection[str] | None = None) -> list[Json]:
    """Return the sites one may see, by name."""
    asked = select(SITES).where(SITES.c.retracted.is_(False))
    if seen is not None:
        asked = asked.where(SITES.c.id.in_(list(seen)))
    return [_site(row) for row in connection.execute(asked.order_by(SITES.c.name, SITES.c.id))]


def _site(row: Any) -> Json:
    return json.loads(row.body) | {"id": row.id, "changed": row.changed, "changed_at": row.changed_at}


def site(connection: Connection, site_id: str, seen: Collection[str] | None = None) -> Json:
    """Return one site; refuse not_found when it may not be seen."""
    row = connection.execute(select(SITES).where(SITES.c.id == site_id)).first()
    if row is None or (seen is not None and site_id not in seen):
        raise Refused("not_found", f"There is no site {site_id} here.")
    return _site(row)


def meters(connection: Connection) -> list[Json]:
    """Return the meters, by name."""
    asked = select(METERS).where(METERS.c.retracted.is_(False)).order_by(METERS.c.name, METERS.c.id)
    return [json.loads(row.body) | {"id": row.id} for row in connection.execute(asked)]


def calls_of(connection: Connection, machine_id: str) -> list[str]:
    """Return the ids of a machine's calls, newest first."""
    asked = select(CALLS.c.id).where(CALLS.c.machine_id == machine_id, CALLS.c.retracted.is_(False))
    return list(connection.execute(asked.order_by(CALLS.c.opened_at.desc(), CALLS.c.id)).scalars())


def ids(connection: Connection, seen: Collection[str] | None = None) -> list[str]:
    """Return the ids of all machines one may see, retired ones too."""
    asked = select(MACHINES.c.id)
    if seen is not None:
        asked = asked.where(MACHINES.c.site_id.in_(list(seen)))
    return list(connection.execute(asked).scalars())
