"""A machine's numbers over time: each check's own last points, however long the history is."""

import json
from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, literal_column, not_, select

from rackside.records.judging import FINDINGS
from rackside.records.log import CALLS
from rackside.records.projected import ADDITIONS
from rackside.records.rows import TABLES

READINGS, ROUNDS = TABLES["reading"], TABLES["round"]
POINTS = 100
Json = dict[str, Any]
NAMED = ("check", "at", "label", "value", "unit", "verdict")


def of_machine(connection: Connection, machine_id: str, checks: Iterable[str]) -> dict[str, list[Json]]:
    """Return the last findings of each check, oldest first: those of the judgements that count."""
    return {check: _points(connection, machine_id, check) for check in checks}


def _points(connection: Connection, machine_id: str, check: str) -> list[Json]:
    taken_back = select(1).where(CALLS.c.id == FINDINGS.c.call_id, CALLS.c.retracted.is_(True)).exists()
    asked = select(FINDINGS).where(FINDINGS.c.machine_id == machine_id, FINDINGS.c.check == check, not_(taken_back))
    newest = asked.order_by(FINDINGS.c.at.desc(), FINDINGS.c.key.desc()).limit(POINTS)
    return [_point(row) for row in reversed(connection.execute(newest).all()) if row.value is not None]


def _point(row: Any) -> Json:
    inside = {"legs": json.loads(row.legs), "detail": json.loads(row.detail), "call": row.call_id}
    return {name: getattr(row, name) for name in NAMED} | inside


def additions(connection: Connection, point: str, machine: str | None = None, site: str | None = None) -> list[Json]:
    """Return what was added to a machine or at a site, oldest first: oil or refrigerant, as it was written down."""
    asked = (
        select(READINGS.c.body, READINGS.c.at, READINGS.c.call_id, CALLS.c.machine_id, CALLS.c.author)
        .join(CALLS, CALLS.c.id == READINGS.c.call_id)
        .where(literal_column(ADDITIONS), READINGS.c.point == point, CALLS.c.retracted.is_(False))
    )
    if machine is not None:
        asked = asked.where(CALLS.c.machine_id == machine)
    if site is not None:
        asked = asked.where(CALLS.c.site_id == site)
    return [
        {"call": row.call_id, "machine": row.machine_id, "author": row.author, **json.loads(row.body)}
        for row in connection.execute(asked.order_by(READINGS.c.at, READINGS.c.cursor))
    ]
