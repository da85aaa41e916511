"""The entry log: append in one order, read it back. Nothing is changed, nothing is deleted."""

import hmac
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Connection, Select, not_, or_, select, text, union_all, update

from rackside.records import clock
from rackside.records.bulk import insert_many
from rackside.records.keys import key_of
from rackside.records.projected import Call
from rackside.records.states import KEPT_AFTER_CLOSING
from rackside.records.tables import Entry, LogState

ENTRIES = Entry.__table__  # type: ignore[attr-defined]
STATE = LogState.__table__  # type: ignore[attr-defined]
CALLS = Call.__table__  # type: ignore[attr-defined]
# As many values as one query takes on every database.
MANY = 1000
# Up to so many calls are asked for one by one; beyond, the log is walked by its cursor.
FEW = 500


class Known(NamedTuple):
    """What the log holds about an id."""

    id: str
    kind: str
    call_id: str | None
    thing_id: str
    site_id: str | None
    content_hash: str
    cursor: int


# The many ids that a batch names are asked for as one value: as many values they cost four times as much.
_KNOWN = {
    dialect: text(
        "SELECT id, kind, call_id, coalesce(corrects, id), site_id, content_hash, cursor "
        f"FROM entries WHERE id IN (SELECT {listed})"
    )
    for dialect, listed in (
        ("sqlite", "value FROM json_each(:ids)"),
        ("postgresql", "json_array_elements_text(CAST(:ids AS json))"),
    )
}


@dataclass(slots=True)
class Logged:
    """An entry with its keys, on its way into the log or read back from it."""

    entry: dict[str, Any]
    content: str
    content_hash: str
    thing_id: str
    about_id: str | None
    site_id: str | None
    cursor: int = 0
    received_at: str = ""

    @property
    def entry_cursor(self) -> int:
        """The cursor of the entry itself, also when a later one is the cause of a change."""
        return int(self.entry.get("cursor", self.cursor))


class Page(NamedTuple):
    documents: list[str]
    cursor: int
    more: bool


def state(connection: Connection, lock: bool = False) -> LogState:
    """Return the counter, epoch and secret; `lock` takes the counter row until the transaction ends."""
    asked = select(STATE)
    row = connection.execute(asked.with_for_update() if lock else asked).one()
    return LogState(**row._mapping)


def set_epoch(connection: Connection, epoch: str) -> None:
    """Name this log anew: phones that knew it before send all they hold."""
    connection.execute(update(STATE).values(epoch=epoch))


def in_parts(ids: Iterable[str]) -> Iterable[list[str]]:
    """Cut many ids into lists a query can take."""
    listed = list(ids)
    for start in range(0, len(listed), MANY):
        yield listed[start : start + MANY]


def known(connection: Connection, ids: Iterable[str]) -> dict[str, Known]:
    """Return what the log holds of these ids."""
    rows = connection.execute(_KNOWN[connection.dialect.name], {"ids": json.dumps(list(ids))})
    return {held.id: held for held in map(Known._make, rows)}


def seal_of(secret: str, content_hash: str) -> str:
    """Return the mark by which the server knows its own entry again when a phone brings it back."""
    return hmac.digest(secret.encode(), content_hash.encode(), "sha256").hex()[:32]


def append(connection: Connection, log: LogState, new: Sequence[Logged]) -> None:
    """Give each entry its cursor from the locked counter and write them; the caller holds the counter."""
    received_at = clock.written(clock.now())
    rows = []
    for number, logged in enumerate(new, log.cursor + 1):
        logged.cursor, logged.received_at = number, received_at
        rows.append(row_of(logged, log.secret))
    if rows:
        insert_many(connection, ENTRIES, rows)
        log.cursor += len(rows)
        connection.execute(update(STATE).values(cursor=log.cursor))


def row_of(logged: Logged, secret: str) -> dict[str, Any]:
    """Return the row of an entry that has its place in the log."""
    entry = logged.entry
    seal = seal_of(secret, logged.content_hash)
    added = f',"cursor":{logged.cursor},"received_at":"{logged.received_at}","seal":"{seal}"}}'
    return {
        "cursor": logged.cursor,
        "id": entry["id"],
        "kind": entry["kind"],
        "call_id": entry["call"],
        "corrects": None if logged.thing_id == entry["id"] else logged.thing_id,
        "about_id": logged.about_id,
        "site_id": logged.site_id,
        "author": entry["author"],
        "device": key_of(entry["device"]),
        "received_at": logged.received_at,
        "content_hash": logged.content_hash,
        "document": logged.content[:-1] + added,
    }


def page(connection: Connection, sites: Iterable[str] | None, after: int, limit: int) -> Page:
    """Return what a person's phone should hold after a cursor, oldest first; `sites` None means all."""
    head = state(connection).cursor
    asked = select(ENTRIES.c.cursor, ENTRIES.c.document).where(ENTRIES.c.cursor > after)
    if sites is None:
        return _page(connection, asked.where(_of_live_calls()), after, limit, head)
    listed = list(sites)
    calls = _live_calls(connection, listed, after)
    if len(calls) > FEW:
        mine = or_(ENTRIES.c.site_id.is_(None), ENTRIES.c.site_id.in_(listed))
        return _page(connection, asked.where(mine, _of_live_calls()), after, limit, head)
    places = _places(listed, calls, after).order_by("cursor").limit(limit + 1)
    return _page(connection, asked.where(ENTRIES.c.cursor.in_(places)), after, limit, head)


def _of_live_calls() -> ColumnElement[bool]:
    """Return the condition that an entry's call is none that was settled long ago."""
    old = select(CALLS.c.id).where(CALLS.c.id == ENTRIES.c.call_id, not_(_live())).exists()
    return not_(old)


def _live() -> ColumnElement[bool]:
    cutoff = clock.written(clock.now() - KEPT_AFTER_CLOSING)
    return or_(CALLS.c.settled_at.is_(None), CALLS.c.settled_at >= cutoff)


def _live_calls(connection: Connection, sites: list[str], after: int) -> list[str]:
    """Return the calls of these sites that have something to give after a cursor, one more than a few at most."""
    asked = select(CALLS.c.id).where(CALLS.c.site_id.in_(sites), CALLS.c.changed > after, _live())
    return list(connection.execute(asked.limit(FEW + 1)).scalars())


def _places(sites: list[str], calls: list[str], after: int) -> Any:
    """Ask for the cursors of these calls' entries and of what belongs to the sites themselves, or to no site."""
    cursor, kept = ENTRIES.c.cursor, (ENTRIES.c.cursor > after)
    own = select(cursor).where(ENTRIES.c.call_id.is_(None), ENTRIES.c.site_id.in_(sites), kept)
    common = select(cursor).where(ENTRIES.c.call_id.is_(None), ENTRIES.c.site_id.is_(None), kept)
    return union_all(select(cursor).where(ENTRIES.c.call_id.in_(calls), kept), own, common)


def page_of_call(connection: Connection, call_id: str, after: int, limit: int) -> Page:
    """Return a call's own entries, oldest first, however long ago it closed."""
    asked = select(ENTRIES.c.cursor, ENTRIES.c.document).where(ENTRIES.c.call_id == call_id, ENTRIES.c.cursor > after)
    return _page(connection, asked, after, limit, after)


def _page(connection: Connection, asked: Select[Any], after: int, limit: int, head: int) -> Page:
    rows = connection.execute(asked.order_by(ENTRIES.c.cursor).limit(limit + 1)).all()
    more = len(rows) > limit
    rows = rows[:limit]
    last = rows[-1].cursor if rows else after
    return Page([row.document for row in rows], last if more else max(last, head), more)


def documents(connection: Connection, *conditions: Any) -> list[dict[str, Any]]:
    """Return entries, parsed, in the server's order."""
    asked = select(ENTRIES.c.document).where(*conditions).order_by(ENTRIES.c.cursor)
    return [json.loads(text) for text in connection.execute(asked).scalars()]


def of_call(connection: Connection, call_id: str) -> list[dict[str, Any]]:
    """Return every entry of a call in the server's order."""
    return documents(connection, ENTRIES.c.call_id == call_id)


def of_thing(connection: Connection, thing_id: str) -> list[dict[str, Any]]:
    """Return the entries of one thing: the first and its corrections."""
    return of_things(connection, [thing_id])


def of_things(connection: Connection, ids: Iterable[str]) -> list[dict[str, Any]]:
    """Return the entries of several things in the server's order."""
    asked = list(ids)
    return documents(connection, or_(ENTRIES.c.id.in_(asked), ENTRIES.c.corrects.in_(asked)))


def about(connection: Connection, ids: Iterable[str], kind: str) -> list[dict[str, Any]]:
    """Return the retractions or reviews that are about these entries, and those about them in turn."""
    found: list[dict[str, Any]] = []
    asked = list(ids)
    while asked:
        part = documents(connection, ENTRIES.c.about_id.in_(asked), ENTRIES.c.kind == kind)
        found += part
        asked = [entry["id"] for entry in part] if kind == "retraction" else []
    return found


def whole(connection: Connection, step: int = 1000) -> Iterable[list[Logged]]:
    """Walk the log from its beginning, in parts."""
    after = 0
    while True:
        asked = select(ENTRIES).where(ENTRIES.c.cursor > after).order_by(ENTRIES.c.cursor).limit(step)
        rows = connection.execute(asked).all()
        if not rows:
            return
        after = rows[-1].cursor
        yield [
            Logged(
                json.loads(row.document),
                "",
                row.content_hash,
                row.corrects or row.id,
                row.about_id,
                row.site_id,
                row.cursor,
                row.received_at,
            )
            for row in rows
        ]
