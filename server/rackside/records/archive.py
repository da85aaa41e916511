"""Everything out: an archive of JSON Lines and photos, and a verified copy of the database."""

import json
import sqlite3
import subprocess
import uuid
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, select

from rackside.records import clock, log, photos
from rackside.records.database import Database
from rackside.records.judged import Judgement, PhotoFile
from rackside.records.log import ENTRIES
from rackside.records.migrations import newest
from rackside.records.projected import PROJECTED

TABLES: tuple[Table, ...] = tuple(model.__table__ for model in (*PROJECTED, Judgement))  # type: ignore[attr-defined]
FILES = PhotoFile.__table__  # type: ignore[attr-defined]


class BackupFailed(RuntimeError):
    """The copy could not be made, or is not what it should be."""


def export(database: Database, folder: Path, target: Path) -> dict[str, int]:
    """Write the log, the typed tables, judgements and photos into one zip file; return how many of each."""
    with database.reading() as connection, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        state = log.state(connection)
        counts = {"entries": _write(archive, "entries", _documents(connection))}
        for table in TABLES:
            counts[table.name] = _write(archive, table.name, _rows(connection, table))
        counts["photos_held"] = _write_photos(archive, connection, folder)
        about = {"made_at": clock.written(clock.now()), "schema": newest(), "epoch": state.epoch, "counts": counts}
        archive.writestr("about.json", json.dumps(about, indent=1))
    return counts


def _write(archive: zipfile.ZipFile, name: str, lines: Iterator[str]) -> int:
    count = 0
    with archive.open(f"{name}.jsonl", "w", force_zip64=True) as file:
        for line in lines:
            file.write(line.encode() + b"\n")
            count += 1
    return count


def _documents(connection: Connection) -> Iterator[str]:
    yield from connection.execute(select(ENTRIES.c.document).order_by(ENTRIES.c.cursor)).scalars()


def _rows(connection: Connection, table: Table) -> Iterator[str]:
    for row in connection.execute(select(table).order_by(*table.primary_key.columns)).mappings():
        yield json.dumps({name: _told(name, value) for name, value in row.items()})


def _told(name: str, value: Any) -> Any:
    return json.loads(value) if name in ("body", "result") else value


def _write_photos(archive: zipfile.ZipFile, connection: Connection, folder: Path) -> int:
    names = list(connection.execute(select(FILES.c.sha256).order_by(FILES.c.sha256)).scalars())
    for name in names:
        archive.write(photos.path_of(folder, name), f"photos/{name}", zipfile.ZIP_STORED)
    return len(names)


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
