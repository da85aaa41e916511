"""A verified copy of the database, made while it works."""

import sqlite3
import subprocess
import uuid
from contextlib import closing
from pathlib import Path

from rackside.records.database import Database


class BackupFailed(RuntimeError):
    """The copy could not be made, or is not what it should be."""


def backup(database: Database, target: Path) -> str:
    """Copy the database while it works, check the copy, and say what it holds.

    The copy gets an epoch of its own: a server that is ever started on it is told from the present one, and phones then
    send it all they hold.
    """
    if target.exists():
        raise BackupFailed(f"{target} exists already: name a new file.")
    if database.sqlite:
        return _backup_sqlite(Path(database.url.database or ""), target)
    return _backup_postgresql(database, target)


def _backup_sqlite(source: Path, target: Path) -> str:
    with closing(sqlite3.connect(f"file:{source}?mode=ro", uri=True)) as live, closing(sqlite3.connect(target)) as copy:
        live.backup(copy)
        copy.execute("UPDATE log_state SET epoch = ?", (str(uuid.uuid4()),))
        copy.commit()
        copy.execute("PRAGMA journal_mode=DELETE")
        found = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if found != "ok":
            raise BackupFailed(f"{target} is damaged: {found}")
        count, last = copy.execute("SELECT count(*), coalesce(max(cursor), 0) FROM entries").fetchone()
        (counter,) = copy.execute("SELECT cursor FROM log_state").fetchone()
    if not count == last == counter:
        raise BackupFailed(f"{target} holds {count} entries, but its counter stands at {counter}.")
    return f"{count} entries, whole"


def _backup_postgresql(database: Database, target: Path) -> str:
    address = database.url.set(drivername="postgresql").render_as_string(hide_password=False)
    done = subprocess.run(["pg_dump", "--no-owner", "--file", str(target), address], capture_output=True, text=True)
    if done.returncode != 0:
        target.unlink(missing_ok=True)
        raise BackupFailed(f"pg_dump failed: {done.stderr.strip()}")
    text = target.read_text()
    if "PostgreSQL database dump complete" not in text[-2000:]:
        raise BackupFailed(f"{target} has no end: the dump is not whole.")
    with target.open("a") as file:
        file.write("\nUPDATE public.log_state SET epoch = gen_random_uuid()::text;\n")
    start = text.index("COPY public.entries ")
    count = text[start : text.index("\n\\.\n", start)].count("\n")
    return f"{count} entries, whole"
