"""What machines' trends are marked for, worked out once and kept until something under it changes.

Who works it out is told by the caller; here it is kept, and forgotten when a judgement, an addition of oil, a
correction or a retraction touches the machine.
"""

import json
from collections.abc import Callable, Iterable
from typing import Any

from sqlalchemy import Connection, delete, select

from rackside.records import log
from rackside.records.bulk import insert_many
from rackside.records.database import Database
from rackside.records.judged import MachineMarks
from rackside.records.log import CALLS, Logged
from rackside.records.refused import Refused

MARKS = MachineMarks.__table__  # type: ignore[attr-defined]
# Machines worked out in one writing transaction: phones wait no longer than for a batch of theirs.
TOGETHER = 20
Work = Callable[[Connection, str], list[Any]]


def of_machines(database: Database, machine_ids: list[str], work: Work) -> dict[str, list[Any]]:
    """Return the marks of machines; those not kept yet are worked out now, and kept."""
    with database.reading() as connection:
        found = _kept(connection, machine_ids)
    missing = [machine for machine in machine_ids if machine not in found]
    for start in range(0, len(missing), TOGETHER):
        found |= _work_out(database, missing[start : start + TOGETHER], work)
    return found


def _kept(connection: Connection, machine_ids: list[str]) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = {}
    for part in log.in_parts(machine_ids):
        for row in connection.execute(select(MARKS).where(MARKS.c.machine_id.in_(part))):
            found[row.machine_id] = json.loads(row.marks)
    return found


def _work_out(database: Database, machine_ids: list[str], work: Work) -> dict[str, list[Any]]:
    """Work out and keep in one transaction that no other writer overlaps; where the writer is taken, keep nothing."""
    try:
        with database.writing() as connection:
            log.state(connection, lock=True)
            found = {machine: work(connection, machine) for machine in machine_ids}
            connection.execute(delete(MARKS).where(MARKS.c.machine_id.in_(machine_ids)))
            insert_many(
                connection, MARKS, [{"machine_id": one, "marks": json.dumps(told)} for one, told in found.items()]
            )
    except Refused:
        with database.reading() as connection:
            found = {machine: work(connection, machine) for machine in machine_ids}
    return found


def forget(connection: Connection, machine_ids: Iterable[str]) -> None:
    for part in log.in_parts(machine_ids):
        connection.execute(delete(MARKS).where(MARKS.c.machine_id.in_(part)))


def touched(new: Iterable[Logged]) -> set[str]:
    """Return the calls on which these entries add oil, correct something or take it back."""
    return {logged.entry["call"] for logged in new if logged.entry["call"] and _touches(logged.entry)}


def forget_of_calls(connection: Connection, calls: Iterable[str]) -> None:
    """Forget the machines these calls are about."""
    for part in log.in_parts(calls):
        machines = select(CALLS.c.machine_id).where(CALLS.c.id.in_(part))
        connection.execute(delete(MARKS).where(MARKS.c.machine_id.in_(machines)))


def _touches(entry: dict[str, Any]) -> bool:
    return bool(entry["base"]) or entry["kind"] == "retraction" or entry["body"].get("point") == "oil_added"
