"""What each device delivered last, how long the oldest of it had waited on the device, and which photos it owes."""

import json
from collections.abc import Iterable
from typing import Any, NamedTuple

from sqlalchemy import Connection, func, select

from rackside.records import clock
from rackside.records.log import ENTRIES
from rackside.records.photos import FILES, PHOTOS

MOST = 500


class Delivery(NamedTuple):
    """The entries a device brought at one moment; `waited` in seconds and `newest` are by its own clock."""

    at: str
    count: int
    waited: float
    newest: str


class Photos(NamedTuple):
    """The photos that a device announced and that are not here, and when the first of them was announced."""

    count: int
    since: str


def last(connection: Connection, devices: Iterable[str]) -> dict[str, Delivery]:
    """Return the last delivery of each device that ever sent anything."""
    found = {device: _last(connection, device) for device in devices}
    return {device: delivery for device, delivery in found.items() if delivery is not None}


def _last(connection: Connection, device: str) -> Delivery | None:
    asked = select(ENTRIES.c.received_at, ENTRIES.c.document).where(ENTRIES.c.device == device)
    rows = connection.execute(asked.order_by(ENTRIES.c.cursor.desc()).limit(MOST)).all()
    if not rows:
        return None
    at = rows[0].received_at
    together = [json.loads(row.document) for row in rows if row.received_at == at]
    newest = max((entry["made_at"] for entry in together), key=clock.read)
    return Delivery(at, len(together), max(_waited(entry, at) for entry in together), newest)


def photos_wanted(connection: Connection) -> dict[str, Photos]:
    """Return the photos each device announced that have not arrived."""
    asked = (
        select(ENTRIES.c.device, func.count(), func.min(ENTRIES.c.received_at))
        .select_from(
            PHOTOS.join(ENTRIES, ENTRIES.c.id == PHOTOS.c.id).outerjoin(FILES, FILES.c.sha256 == PHOTOS.c.sha256)
        )
        .where(FILES.c.sha256.is_(None))
    )
    return {row[0]: Photos(row[1], row[2]) for row in connection.execute(asked.group_by(ENTRIES.c.device))}


def _waited(entry: dict[str, Any], at: str) -> float:
    return max(0.0, (clock.read(at) - clock.read(entry["made_at"])).total_seconds())
