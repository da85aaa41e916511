"""Who is told of events, and the messages on their way there: claimed for a while, settled, given back."""

import json
import secrets
from base64 import b64encode
from collections.abc import Collection, Iterable
from datetime import timedelta
from typing import Any, NamedTuple
from uuid import uuid4

from sqlalchemy import Connection, delete, func, insert, select, update

from rackside.records import clock
from rackside.records.database import Database
from rackside.records.outbox import DELIVERIES, TEST, WEBHOOKS, note_test
from rackside.records.refused import Refused

# Longer than any batch takes: what a killed server had claimed is sent again after it.
LEASE = timedelta(minutes=10)
STATES = ("pending", "delivered", "dead")
BOTH_SIGN = timedelta(days=1)
PLAIN = ("id", "url", "note", "created_at", "created_by", "ended_at", "paused_at")
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
    event: str


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
    row = {"id": str(uuid4()), "url": url, "events": json.dumps(events), "secret": _new_secret(), "note": note}
    row |= {"created_at": clock.written(clock.now()), "created_by": by, "ended_at": None}
    row["sites"] = None if sites is None else json.dumps(sorted(sites))
    connection.execute(insert(WEBHOOKS), row)
    return one(connection, str(row["id"])) | {"secret": row["secret"]}


def _new_secret() -> str:
    return "whsec_" + b64encode(secrets.token_bytes(32)).decode()


def renew_secret(connection: Connection, webhook_id: str, seen: Collection[str] | None = None) -> Json:
    """Give a new secret, shown this once; for a day messages are signed with the old one too."""
    old, fresh = _row(connection, webhook_id, seen).secret, _new_secret()
    until = clock.written(clock.now() + BOTH_SIGN)
    _set(connection, webhook_id, secret=fresh, old_secret=old, old_until=until)
    return one(connection, webhook_id) | {"secret": fresh}


def secrets_of(webhook: Any) -> tuple[str, ...]:
    """Return what a message is signed with now: the secret, and the one before it for a while."""
    replaced = webhook.old_until is not None and webhook.old_until > clock.written(clock.now())
    return (webhook.secret, webhook.old_secret) if replaced else (webhook.secret,)


def pause(connection: Connection, webhook_id: str, seen: Collection[str] | None = None) -> Json:
    """Hold messages back; they wait until it is resumed."""
    _row(connection, webhook_id, seen)
    _set(connection, webhook_id, paused_at=clock.written(clock.now()))
    return one(connection, webhook_id)


def resume(connection: Connection, webhook_id: str, seen: Collection[str] | None = None) -> Json:
    """Send what waits, and go on telling: also an address that once answered that it is gone."""
    _row(connection, webhook_id, seen)
    _set(connection, webhook_id, paused_at=None, ended_at=None)
    return one(connection, webhook_id)


def _set(connection: Connection, webhook_id: str, **values: str | None) -> None:
    connection.execute(update(WEBHOOKS).where(WEBHOOKS.c.id == webhook_id).values(**values))


def send_test(connection: Connection, webhook_id: str, by: str, seen: Collection[str] | None = None) -> Json:
    """Put a message on its way that only tries the address, paused or not."""
    _row(connection, webhook_id, seen)
    delivery_id = note_test(connection, webhook_id, by)
    return _told(connection.execute(select(DELIVERIES).where(DELIVERIES.c.id == delivery_id)).one())


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
    plain = {name: getattr(row, name) for name in PLAIN}
    sites = None if row.sites is None else json.loads(row.sites)
    both = row.old_until if len(secrets_of(row)) > 1 else None
    return plain | {"events": json.loads(row.events), "sites": sites, "old_secret_until": both}


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


def counted(connection: Connection) -> dict[str, dict[str, int]]:
    """Return how many messages of each webhook are in which state."""
    asked = select(DELIVERIES.c.webhook_id, DELIVERIES.c.state, func.count())
    found: dict[str, dict[str, int]] = {}
    for webhook_id, state, count in connection.execute(asked.group_by(DELIVERIES.c.webhook_id, DELIVERIES.c.state)):
        found.setdefault(webhook_id, {})[state] = count
    return found


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
    """Return the condition of what may be sent now; of a paused webhook that is only a test."""
    paused = select(WEBHOOKS.c.id).where(WEBHOOKS.c.paused_at.is_not(None))
    held = DELIVERIES.c.webhook_id.in_(paused) & (DELIVERIES.c.event != TEST)
    return (DELIVERIES.c.state == "pending") & (DELIVERIES.c.next_at <= clock.written(clock.now())) & ~held


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
