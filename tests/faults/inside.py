"""The real push and pull of the server, called inside this process, and what can go wrong on the way there and back."""

import json
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from uuid import uuid4

from sqlalchemy import Connection, text
from sqlmodel import SQLModel

from rackside.access import devices
from rackside.records import Database, Refused, log
from rackside.sync import pull, push
from tests.faults.replica import Cut

Json = dict[str, Any]
ENTRY_LIMIT, PAGE = 4096, 7
FAULTS = ("none", "none", "cut before", "cut after", "twice", "late", "dies before the commit", "dies after the answer")
# People and their devices stay as they are when a backup of the log is put back.
STAYS = ("people", "devices", "person_sites", "sessions")
SNAPSHOT = [table for table in SQLModel.metadata.sorted_tables if table.name not in STAYS]


class DyingDatabase:
    """A database whose server process ends after the work, before the commit."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self.reading = database.reading

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        with self._database.writing() as connection:
            yield connection
            raise Cut("the server died")


class SlowDatabase:
    """A database whose writer stands still where another writer could overtake: before SQLite's one lock, or with
    PostgreSQL before the commit."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self.reading = database.reading
        self.reached, self.go_on = threading.Event(), threading.Event()

    def _wait(self) -> None:
        self.reached.set()
        self.go_on.wait(10)

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        if self._database.sqlite:
            self._wait()
        with self._database.writing() as connection:
            yield connection
            if not self._database.sqlite:
                self._wait()


class Office:
    """The server: its database, whoever signed in, and requests that are still under way somewhere."""

    def __init__(self, database: Database, at_restart: tuple[Callable[[], None], ...] = ()) -> None:
        self.database, self.at_restart = database, at_restart
        self.late: list[Callable[[], Any]] = []
        self.carried: dict[str, int] = dict.fromkeys(FAULTS, 0)

    def line(self, token: str, fault: str = "none", after: int = 0) -> "InsideLine":
        return InsideLine(self, token, fault, after)

    def end(self) -> None:
        """The server's process ends. A sound one has nothing to forget."""
        for forget in self.at_restart:
            forget()

    def snapshot(self) -> dict[str, list[Json]]:
        """A backup: every row there is."""
        with self.database.reading() as connection:
            return {
                table.name: [dict(row) for row in connection.execute(table.select()).mappings()] for table in SNAPSHOT
            }

    def restore(self, rows: dict[str, list[Json]], epoch: str) -> None:
        """Put a backup in place of what is there, under an epoch of its own; people and devices stay."""
        with self.database.writing() as connection:
            for table in reversed(SNAPSHOT):
                connection.execute(table.delete())
            for table in SNAPSHOT:
                if rows[table.name]:
                    connection.execute(table.insert(), rows[table.name])
            log.set_epoch(connection, epoch)

    def whole_log(self) -> list[Json]:
        with self.database.reading() as connection:
            return log.documents(connection)


class InsideLine:
    """One exchange's line. The fault strikes one request, `after` others went well."""

    def __init__(self, office: Office, token: str, fault: str, after: int) -> None:
        self.office, self.token, self.fault, self.after = office, token, fault, after

    def push(self, device: str, epoch: str | None, entries: list[Json]) -> Json:
        sent = json.dumps(entries)
        return self._carry(lambda database: self.push_to(database, epoch, json.loads(sent)))

    def pull(self, after: int, scope: str | None, epoch: str | None) -> Json:
        return self._carry(lambda database: self._pull(database, after, scope, epoch))

    def call(self, call: str) -> list[Json]:
        """All of one call, page by page; nothing where the person may not see it."""
        items: list[Json] = []
        after, more = 0, True
        while more:
            with self.office.database.reading() as connection:
                caller = devices.caller_of(connection, self.token)
            try:
                page = pull.pull_call(self.office.database, caller, call, after, PAGE).page
            except Refused:
                return []
            items += [json.loads(one) for one in page.documents]
            after, more = page.cursor, page.more
        return items

    def _carry(self, ask: Callable[[Any], Json]) -> Json:
        fault = self.fault if self.after == 0 else "none"
        self.after -= 1
        self.office.carried[fault] += 1
        if fault == "cut before":
            raise Cut
        if fault == "dies before the commit":
            ask(DyingDatabase(self.office.database))
            self.office.end()
            raise Cut
        answer = ask(self.office.database)
        if fault == "dies after the answer":
            self.office.end()
        if fault == "cut after":
            raise Cut
        if fault == "late":
            self.office.late.append(lambda: ask(self.office.database))
        return ask(self.office.database) if fault == "twice" else answer

    def push_to(self, database: Any, epoch: str | None, entries: list[Json]) -> Json:
        with database.reading() as connection:
            caller = devices.caller_of(connection, self.token)
        try:
            outcome = push.push(database, caller, epoch, entries, ENTRY_LIMIT)
        except Refused as refused:
            return {"code": refused.code, **refused.members}
        results = [
            {"id": one.id, "status": one.status, "cursor": one.cursor, "code": one.refused and one.refused.code}
            for one in outcome.answers
        ]
        return {"results": results, "cursor": outcome.cursor, "epoch": outcome.epoch}

    def _pull(self, database: Any, after: int, scope: str | None, epoch: str | None) -> Json:
        with database.reading() as connection:
            caller = devices.caller_of(connection, self.token)
        try:
            pulled = pull.pull(database, caller, after, PAGE, scope, epoch)
        except Refused as refused:
            return {"code": refused.code, **refused.members}
        items = [json.loads(one) for one in pulled.page.documents]
        reached = {"cursor": pulled.page.cursor, "more": pulled.page.more}
        return {"items": items, **reached, "scope": pulled.scope, "epoch": pulled.epoch}


def empty(database: Database) -> None:
    """Take everything out of a migrated database and begin its log anew."""
    with database.writing() as connection:
        for table in reversed(SQLModel.metadata.sorted_tables):
            if table.name != "log_state":
                connection.execute(table.delete())
        connection.execute(text("UPDATE log_state SET cursor = 0"))
        log.set_epoch(connection, str(uuid4()))
