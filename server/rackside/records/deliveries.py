"""What each device delivered last, and how long the oldest of it had waited on the device."""

import json
from collections.abc import Iterable
from typing import Any, NamedTuple

from sqlalchemy import Connection, select

from rackside.records import clock
from rackside.records.log import ENTRIES

MOST = 500


class Delivery(NamedTuple):
    """The entries a device brought at one moment; `waited` in seconds, by the device's own clock."""

    at: str
    count: int
    waited: float


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
    return Delivery(at, len(together), max(_waited(entry, at) for entry in together))


def _waited(entry: dict[str, Any], at: str) -> float:
    return max(0.0, (clock.read(at) - clock.read(entry["made_at"])).total_seconds())
