"""What a device may see, what it was told, and whose it is."""

import json
from datetime import timedelta

from sqlalchemy import Connection, insert, select, update

from rackside.records import clock
from rackside.records.caller import Caller
from rackside.records.tables import Device, Person, PersonSite

DEVICES = Device.__table__  # type: ignore[attr-defined]
PEOPLE = Person.__table__  # type: ignore[attr-defined]
PERSON_SITES = PersonSite.__table__  # type: ignore[attr-defined]
SEEN_EVERY = timedelta(minutes=10)


def extend_scope(connection: Connection, caller: Caller, site_id: str) -> None:
    """Let the caller see a site they have just entered; the office may have named it theirs before it came."""
    if caller.sites is None or site_id in caller.sites:
        return
    if caller.person_id is not None:
        connection.execute(insert(PERSON_SITES), {"person_id": caller.person_id, "site_id": site_id})
        return
    row = connection.execute(select(DEVICES.c.sites).where(DEVICES.c.id == caller.device_id)).one()
    sites = [*json.loads(row.sites), site_id]
    connection.execute(update(DEVICES).where(DEVICES.c.id == caller.device_id).values(sites=json.dumps(sites)))


def owners(connection: Connection, ids: list[str]) -> dict[str, str]:
    """Return the author each of these devices writes as, where they are known."""
    author = select(DEVICES.c.id, DEVICES.c.name, PEOPLE.c.name.label("person")).outerjoin(
        PEOPLE, PEOPLE.c.id == DEVICES.c.person_id
    )
    rows = connection.execute(author.where(DEVICES.c.id.in_(ids))).all()
    return {row.id: row.person or row.name for row in rows}


def scope_told(connection: Connection, device_id: str) -> str | None:
    """Return the scope a device was last told when it pulled from the beginning."""
    return connection.scalar(select(DEVICES.c.scope).where(DEVICES.c.id == device_id))


def tell_scope(connection: Connection, device_id: str, scope: str) -> None:
    connection.execute(update(DEVICES).where(DEVICES.c.id == device_id).values(scope=scope))


def seen(connection: Connection, device_id: str) -> None:
    """Note that a device spoke, at most once in ten minutes."""
    moment = clock.now()
    stale = DEVICES.c.last_seen.is_(None) | (DEVICES.c.last_seen < clock.written(moment - SEEN_EVERY))
    mark = update(DEVICES).where(DEVICES.c.id == device_id, stale)
    connection.execute(mark.values(last_seen=clock.written(moment)))
