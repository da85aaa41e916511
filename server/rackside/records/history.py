"""A machine's earlier rounds, as a case takes them."""

import json
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, or_, select

from rackside.records.log import CALLS
from rackside.records.rows import TABLES

ROUNDS = TABLES["round"]
READINGS = TABLES["reading"]
ROUNDS_KEPT = 5


def of_machine(
    connection: Connection,
    machine_id: str,
    rounds: int = ROUNDS_KEPT,
    before: str | None = None,
    follows: str | None = None,
) -> list[dict[str, Any]]:
    """Return a machine's last rounds of calls that were sent in, oldest first.

    Each has under `extra` the hash of its content: who judged with it can say with what.
    `before` leaves out calls opened at or after that time; the call that `follows` names counts though still open.
    """
    sent_in = or_(CALLS.c.phase != "open", CALLS.c.id == (follows or ""))
    asked = (
        select(ROUNDS.c.id, ROUNDS.c.call_id, ROUNDS.c.body)
        .join(CALLS, CALLS.c.id == ROUNDS.c.call_id)
        .where(ROUNDS.c.machine_id == machine_id, CALLS.c.retracted.is_(False), sent_in)
    )
    if before is not None:
        asked = asked.where(CALLS.c.opened_at < before)
    found = connection.execute(asked.order_by(ROUNDS.c.at.desc(), ROUNDS.c.id).limit(rounds)).all()
    return [_round(connection, row) for row in reversed(found)]


def _round(connection: Connection, row: Any) -> dict[str, Any]:
    body = json.loads(row.body)
    asked = select(READINGS.c.body).where(READINGS.c.round_id == row.id).order_by(READINGS.c.cursor)
    texts = list(connection.execute(asked).scalars())
    own = [reading for reading in map(json.loads, texts) if not reading.get("neighbour")]
    content = {"content_hash": sha256("\n".join([row.body, *texts]).encode()).hexdigest()}
    return {"at": body["at"], "label": body["label"], "call": row.call_id, "readings": own, "extra": content}
