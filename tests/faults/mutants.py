"""Servers and phones broken on purpose, for tests only: each must make the suite fail, or the suite proves nothing."""

import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from itertools import count
from typing import Any
from unittest.mock import patch

from sqlalchemy import Connection, func, select, text

from rackside.records import Database, clock, log, projection
from rackside.records.bulk import insert_many
from rackside.records.log import ENTRIES, Logged
from rackside.sync import pull, push
from tests.faults.replica import Replica, Store

Forget = Callable[[], None]
REAL = {"decide": push.decide, "project": projection.project, "push": push.push, "pull": pull.pull, "state": log.state}


@contextmanager
def drops_operation_ids(database: Database) -> Iterator[tuple[Forget, ...]]:
    """The server forgets which entries it has: what is sent twice is there twice."""
    with database.writing() as connection:
        _allow_doubles(connection)

    def decide(prepared: Any, ledger: Any, caller: Any) -> Any:
        held = ledger.known.pop(prepared.id, None)
        try:
            return REAL["decide"](prepared, ledger, caller)
        finally:
            if held is not None:
                ledger.known.setdefault(prepared.id, held)

    with patch.object(push, "decide", decide), patch.object(projection, "project", _project_once):
        yield ()


def _allow_doubles(connection: Connection) -> None:
    if connection.dialect.name == "postgresql":
        connection.execute(text("ALTER TABLE entries DROP CONSTRAINT IF EXISTS entries_id_key"))
        return
    connection.execute(text("CREATE TABLE doubled AS SELECT * FROM entries"))
    connection.execute(text("DROP TABLE entries"))
    connection.execute(text("ALTER TABLE doubled RENAME TO entries"))


def _project_once(connection: Connection, new: list[Logged]) -> None:
    times = select(func.count()).select_from(ENTRIES)
    fresh = [one for one in new if connection.scalar(times.where(ENTRIES.c.id == one.entry["id"])) == 1]
    REAL["project"](connection, fresh)


@contextmanager
def takes_cursors_from_a_sequence(_database: Database) -> Iterator[tuple[Forget, ...]]:
    """Numbers are given outside the transaction that uses them: a later number may be committed first."""
    numbers, mine = count(1), threading.local()

    def state(connection: Connection, lock: bool = False) -> Any:
        found = REAL["state"](connection)
        found.cursor = connection.scalar(select(func.coalesce(func.max(ENTRIES.c.cursor), 0)))
        return found

    def pushing(database: Any, caller: Any, epoch: Any, entries: list[Any], limit: int) -> Any:
        mine.numbers = [next(numbers) for _ in entries]
        return REAL["push"](database, caller, epoch, entries, limit)

    def append(connection: Connection, found: Any, new: Sequence[Logged]) -> None:
        reserved = mine.__dict__.pop("numbers", None) or [next(numbers) for _ in new]
        for logged, number in zip(new, reserved, strict=False):
            logged.cursor, logged.received_at = number, clock.written(clock.now())
        insert_many(connection, ENTRIES, [log.row_of(logged, found.secret) for logged in new])

    with patch.object(log, "state", state), patch.object(log, "append", append), patch.object(push, "push", pushing):
        yield ()


class _Undone(Exception):
    """The work is taken back."""


class _UnwrittenDatabase:
    """A database that keeps nothing of what is written to it."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self.reading = database.reading

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        try:
            with self._database.writing() as connection:
                yield connection
                raise _Undone
        except _Undone:
            pass


@contextmanager
def acknowledges_before_commit(database: Database) -> Iterator[tuple[Forget, ...]]:
    """The answer goes out at once; the commit comes with the next request, unless the server ends before it."""
    owed: list[tuple[Any, ...]] = []

    def settle() -> None:
        while owed:
            REAL["push"](database, *owed.pop(0))

    def pushing(asked: Any, *request: Any) -> Any:
        settle()
        answer = REAL["push"](_UnwrittenDatabase(asked), *request)
        owed.append(request)
        return answer

    def pulling(*request: Any) -> Any:
        settle()
        return REAL["pull"](*request)

    with patch.object(push, "push", pushing), patch.object(pull, "pull", pulling):
        yield (owed.clear,)


@contextmanager
def advances_the_cursor_early(_database: Database) -> Iterator[tuple[Forget, ...]]:
    """The phone writes down how far it has read before it has written down what it read."""

    def keep_page(self: Replica, page: dict[str, Any], _asked: Store) -> bool:
        fresh = {item["id"]: item for item in page["items"]}
        self.commit(**{name: page[name] for name in ("cursor", "epoch", "scope")})
        self.commit(rows=self.store.rows | fresh, shown=self.store.shown | fresh.keys())
        return True

    with patch.object(Replica, "keep_page", keep_page):
        yield ()


MUTANTS = (
    drops_operation_ids,
    takes_cursors_from_a_sequence,
    acknowledges_before_commit,
    advances_the_cursor_early,
)
