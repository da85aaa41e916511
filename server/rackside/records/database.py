"""The database: one engine, reading and writing transactions, migrations. The only place that commits."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import OperationalError

from rackside.records.migrations import upgrade
from rackside.records.refused import Refused

WRITING = "rackside_writing"
# The write-ahead log goes back into the file every 64 MB, not in the middle of every larger batch.
CHECKPOINT_PAGES = 16000
CACHE_KIB = 16 * 1024


class Database:
    """SQLite by default, PostgreSQL by its URL."""

    def __init__(self, url: str, busy_seconds: float = 10.0) -> None:
        self.url = make_url(url.replace("postgresql://", "postgresql+psycopg://", 1))
        self.sqlite = self.url.get_backend_name() == "sqlite"
        self._busy_seconds = busy_seconds
        self._writer = threading.Lock()
        self.engine = (
            self._sqlite_engine() if self.sqlite else create_engine(self.url, pool_size=10, pool_pre_ping=True)
        )
        # SQLite shows a transaction one state by itself; PostgreSQL must be asked, or each statement sees another.
        self._reader = self.engine if self.sqlite else self.engine.execution_options(isolation_level="REPEATABLE READ")

    def _sqlite_engine(self) -> Engine:
        if self.url.database:
            Path(self.url.database).absolute().parent.mkdir(parents=True, exist_ok=True)
        engine = create_engine(self.url, pool_size=10, connect_args={"timeout": self._busy_seconds})
        event.listen(engine, "connect", _prepare_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
        return engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that sees one state of the database and writes nothing."""
        with self._reader.connect() as connection, connection.begin() as transaction:
            yield connection
            transaction.rollback()

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection whose work is committed whole at the end, or not at all."""
        if not self.sqlite:
            with self.engine.begin() as connection:
                yield connection
            return
        if not self._writer.acquire(timeout=self._busy_seconds):
            raise Refused("busy", "Another request is writing.")
        try:
            with self.engine.connect().execution_options(**{WRITING: True}) as connection, connection.begin():
                yield connection
        finally:
            self._writer.release()

    def migrate(self) -> None:
        """Bring the tables to this version; safe when several processes start at once."""
        with self.writing() as connection:
            upgrade(connection)

    def close(self) -> None:
        self.engine.dispose()


def is_busy(error: OperationalError) -> bool:
    """Return whether an error only says that the one writer is taken."""
    return "locked" in str(error.orig) or "busy" in str(error.orig)


def _prepare_sqlite(connection: Any, _record: Any) -> None:
    connection.isolation_level = None
    for attempt in range(50):
        try:
            connection.execute("PRAGMA journal_mode=WAL")
            break
        except Exception:
            if attempt == 49:
                raise
            time.sleep(0.05)
    connection.execute("PRAGMA synchronous=FULL")
    connection.execute("PRAGMA foreign_keys=ON")
    connection.execute(f"PRAGMA wal_autocheckpoint={CHECKPOINT_PAGES}")
    connection.execute(f"PRAGMA cache_size={-CACHE_KIB}")


def _begin_sqlite(connection: Connection) -> None:
    immediate = connection.get_execution_options().get(WRITING)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")
