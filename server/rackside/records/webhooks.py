"""Who is told of events, and the messages on their way there: claimed for a while, settled, given back."""

import json
import secrets
from base64 import b64encode
from collections.abc import Collection, Iterable
from datetime import timedelta
from typing import Any, NamedTuple
from uuid import uuid4

from sqlalchemy import Connection, delete, insert, select, update

from rackside.records import clock
from rackside.records.database import Database
from rackside.records.outbox import DELIVERIES, WEBHOOKS
from rackside.records.refused import Refused

# Longer than any batch takes: what a killed server had claimed is sent again after it.
LEASE = timedelta(minutes=10)
STATES = ("pending", "delivered", "dead")
SHOWN = ("id", "event", "state", "attempts", "created_at")
Json = dict[str, Any]


class Message(NamedTuple):
    """A claimed delivery with all that sending it needs."""

    number: int
    id: str
    payload: str
    attempts: int
    created_at: str
    log: str


class Settled(NamedTuple):
    """What became of a claimed delivery; `attempt` None gives it back untried."""

    message: Message
    state: str
    next_at: str
    attempt: Json | None


def add(
    connection: Connection, url: str, events: list[str], sites: list[str] | None, note: str | None, by: str
) -> Json:
    """Remember an address; the secret is shown this once."""
    secret = "whsec_" + b64encode(secrets.token_bytes(32)).decode()
    row = {"id": str(uuid4()), "url": url, "events": json.dumps(events), "secret": secret, "note": note}
    row |= {"created_at": clock.written(clock.now()), "created_by": by, "ended_at": None}
    row["sites"] = None if sites is None else json.dumps(sorted(sites))
    connection.execute(insert(WEBHOOKS), row)
    return one(connection, row["id"]) | {"secret": secret}


def every(connection: Connection, seen: Collection[str] | None = None) -> list[Json]:
    """Return the webhooks one may see, newest first, without their secrets."""
    rows = connection.execute(select(WEBHOOKS).order_by(WEBHOOKS.c.created_at.desc(), WEBHOOKS.c.id))
    return [_shown(row) for row in rows if _may_see(row, seen)]


def one(connection: Connection, webhook_id: str, seen: Collection[str] | None = None) -> Json:
    return _shown(_row(connection, webhook_id, seen))


def _row(connection: Connection, webhook_id: str, seen: Collection[str] | None) -> Any:
    row = connection.execute(select(WEBHOOKS).where(WEBHOOKS.c.id == webhook_id)).first()
    if row is None or not _may_see(row, seen):
        raise Refused("not_found", f"There is no webhook {webhook_id} here.")
    return row


def _may_see(row: Any, seen: Collection[str] | None) -> bool:
    return seen is None or (row.sites is not None and set(json.loads(row.sites)) <= set(seen))


def _shown(row: Any) -> Json:
    plain = {name: getattr(row, name) for name in ("id", "url", "note", "created_at", "created_by", "ended_at")}
    sites = None if row.sites is None else json.loads(row.sites)
    return plain | {"events": json.loads(row.events), "sites": sites}


def remove(connection: Connection, webhook_id: str, seen: Collection[str] | None = None) -> None:
    """Forget an address with all that was sent there."""
    _row(connection, webhook_id, seen)
    connection.execute(delete(DELIVERIES).where(DELIVERIES.c.webhook_id == webhook_id))
    connection.execute(delete(WEBHOOKS).where(WEBHOOKS.c.id == webhook_id))


def deliveries(
    connection: Connection, webhook_id: str, state: str | None, limit: int, after: str | None
) -> tuple[list[Json], str | None]:
    """Return one page of the delivery log, newest first."""
    asked = select(DELIVERIES).where(DELIVERIES.c.webhook_id == webhook_id)
    if state is not None:
        asked = asked.where(DELIVERIES.c.state == state)
    if after:
        asked = asked.where(DELIVERIES.c.number < _place(after))
    rows = connection.execute(asked.order_by(DELIVERIES.c.number.desc()).limit(limit + 1)).all()
    return [_told(row) for row in rows[:limit]], str(rows[limit - 1].number) if len(rows) > limit else None


def _place(after: str) -> int:
    if not after.isdecimal() or len(after) > 18:
        told = "`next` is the value of an earlier answer, unchanged."
        raise Refused("invalid_query", told, errors=[{"pointer": "/next", "detail": told}])
    return int(after)


def _told(row: Any) -> Json:
    told = {name: getattr(row, name) for name in SHOWN}
    told |= {"call": row.call_id, "next_at": row.next_at if row.state == "pending" else None}
    return told | {"log": json.loads(row.log), "payload": json.loads(row.payload)}


def send_again(connection: Connection, webhook_id: str, delivery_id: str) -> Json:
    """Put a delivery back to the beginning of its attempts."""
    mine = (DELIVERIES.c.webhook_id == webhook_id) & (DELIVERIES.c.id == delivery_id)
    fresh = {"state": "pending", "attempts": 0, "next_at": clock.written(clock.now())}
    if not connection.execute(update(DELIVERIES).where(mine).values(**fresh)).rowcount:
        raise Refused("not_found", f"There is no delivery {delivery_id} to this webhook.")
    return _told(connection.execute(select(DELIVERIES).where(mine)).one())


def waiting(connection: Connection, busy: Collection[str], most: int) -> list[str]:
    """Return webhooks that something is due to be sent to, other than the busy ones."""
    asked = select(DELIVERIES.c.webhook_id).distinct().where(_due()).where(DELIVERIES.c.webhook_id.not_in(list(busy)))
    return list(connection.execute(asked.limit(most)).scalars())


def _due() -> Any:
    return (DELIVERIES.c.state == "pending") & (DELIVERIES.c.next_at <= clock.written(clock.now()))


def claim(database: Database, webhook_id: str, most: int) -> tuple[Any, list[Message]]:
    """Return a webhook and its due messages, oldest first; nobody else takes them while the lease lasts."""
    columns = [DELIVERIES.c[name] for name in Message._fields]
    asked = select(*columns).where(DELIVERIES.c.webhook_id == webhook_id, _due())
    asked = asked.order_by(DELIVERIES.c.next_at, DELIVERIES.c.number).limit(most)
    with database.writing() as connection:
        messages = [Message(*row) for row in connection.execute(asked.with_for_update(skip_locked=True))]
        taken = DELIVERIES.c.number.in_([message.number for message in messages])
        until = clock.written(clock.now() + LEASE)
        connection.execute(update(DELIVERIES).where(taken).values(next_at=until))
        return connection.execute(select(WEBHOOKS).where(WEBHOOKS.c.id == webhook_id)).first(), messages


def settle(database: Database, webhook_id: str, settled: Iterable[Settled], gone: bool = False) -> None:
    """Keep what became of messages; an address that is gone for good is told nothing more."""
    with database.writing() as connection:
        for message, state, next_at, attempt in settled:
            values: Json = {"state": state, "next_at": next_at}
            if attempt is not None:
                values["log"] = json.dumps([*json.loads(message.log), attempt])
                values["attempts"] = message.attempts + 1
            connection.execute(update(DELIVERIES).where(DELIVERIES.c.number == message.number).values(**values))
        if gone:
            ended = {"ended_at": clock.written(clock.now())}
            connection.execute(update(WEBHOOKS).where(WEBHOOKS.c.id == webhook_id).values(**ended))
            rest = (DELIVERIES.c.webhook_id == webhook_id) & (DELIVERIES.c.state == "pending")
            connection.execute(update(DELIVERIES).where(rest).values(state="dead"))
