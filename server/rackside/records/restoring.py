"""Put a backup in place of what the database holds, whole or not at all, while the server works."""

import shutil
import sqlite3
import subprocess
import tempfile
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from uuid import uuid4

from sqlalchemy import Connection, delete, func, insert, select

from rackside.records import clock, log, photos
from rackside.records.archive import BackupFailed
from rackside.records.database import Database
from rackside.records.log import ENTRIES

FILES = photos.FILES
VERSIONS = "alembic_version"


def held(database: Database) -> int:
    """Return how many entries a restore would replace."""
    with database.reading() as connection:
        return int(connection.scalar(select(func.count()).select_from(ENTRIES)) or 0)


def restore(database: Database, file: Path, folder: Path) -> str:
    """Replace everything by a backup, under an epoch of its own: phones then send what the backup lacks."""
    if not file.is_file():
        raise BackupFailed(f"{file}: there is no such file.")
    if database.sqlite:
        _restore_sqlite(database, file)
    else:
        _restore_postgresql(database, file)
    with database.writing() as connection:
        count = _checked(connection)
        there, missing = _recount_photos(connection, folder)
    return f"{count} entries, whole; {there} photos there, {missing} to come from the phones"


def _restore_sqlite(database: Database, file: Path) -> None:
    with tempfile.TemporaryDirectory() as place:
        copy = Path(place) / "copy.db"
        shutil.copy(file, copy)
        _check_sqlite(copy, file)
        older = Database(f"sqlite:///{copy}")
        older.migrate()
        older.close()
        with closing(sqlite3.connect(database.url.database or "", isolation_level=None, timeout=30)) as live:
            live.execute("ATTACH ? AS backup", (str(copy),))
            _replace_tables(live)


def _check_sqlite(copy: Path, told: Path) -> None:
    try:
        with closing(sqlite3.connect(copy)) as opened:
            found = opened.execute("PRAGMA integrity_check").fetchone()[0]
            opened.execute("SELECT cursor, epoch FROM log_state").fetchone()
    except sqlite3.DatabaseError as error:
        raise BackupFailed(f"{told} is no backup of this program: {error}") from error
    if found != "ok":
        raise BackupFailed(f"{told} is damaged: {found}")


def _replace_tables(live: sqlite3.Connection) -> None:
    """Copy every table's rows in one transaction: whoever reads meanwhile sees all of the old or all of the new."""
    asked = "SELECT name FROM main.sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
    names = [row[0] for row in live.execute(asked) if row[0] != VERSIONS]
    live.execute("PRAGMA synchronous=FULL")
    live.execute("BEGIN IMMEDIATE")
    try:
        for name in names:
            columns = ", ".join(f'"{row[1]}"' for row in live.execute(f'PRAGMA main.table_info("{name}")'))
            live.execute(f'DELETE FROM main."{name}"')
            live.execute(f'INSERT INTO main."{name}" ({columns}) SELECT {columns} FROM backup."{name}"')
        live.execute("UPDATE main.log_state SET epoch = ?", (str(uuid4()),))
        live.execute("COMMIT")
    except BaseException:
        live.execute("ROLLBACK")
        raise


def _restore_postgresql(database: Database, file: Path) -> None:
    address = database.url.set(drivername="postgresql").render_as_string(hide_password=False)
    first, last = "DROP SCHEMA public CASCADE; CREATE SCHEMA public", "UPDATE public.log_state SET epoch = '{}'"
    command = [
        "psql",
        "--no-psqlrc",
        "--quiet",
        "--single-transaction",
        "--set",
        "ON_ERROR_STOP=1",
        "--dbname",
        address,
    ]
    parts = ["--command", first, "--file", str(file), "--command", last.format(uuid4())]
    done = subprocess.run([*command, *parts], capture_output=True, text=True)
    if done.returncode != 0:
        raise BackupFailed(f"{file} was not restored, and nothing was changed: {done.stderr.strip()}")
    database.engine.dispose()
    database.migrate()


def _checked(connection: Connection) -> int:
    counter = log.state(connection, lock=True).cursor
    count, last = connection.execute(select(func.count(), func.coalesce(func.max(ENTRIES.c.cursor), 0))).one()
    if not count == last == counter:
        raise BackupFailed(f"The backup holds {count} entries, but its counter stands at {counter}.")
    return int(count)


def _recount_photos(connection: Connection, folder: Path) -> tuple[int, int]:
    """Ask the folder which photos are there; the phones are asked for the others, where they still hold them.

    A photo that no entry announces yet is counted in: its phone has freed it and will send only its entry again.
    """
    connection.execute(delete(FILES))
    rows = [row for row in (_row_of(folder, name) for name in photos.names_in(folder)) if row]
    if rows:
        connection.execute(insert(FILES), rows)
    announced = set(connection.execute(select(photos.PHOTOS.c.sha256)).scalars())
    there = announced & {str(row["sha256"]) for row in rows}
    return len(there), len(announced) - len(there)


def _row_of(folder: Path, name: str) -> dict[str, object] | None:
    content = photos.path_of(folder, name).read_bytes()
    if sha256(content).hexdigest() != name:
        return None
    arrived = clock.written(clock.now())
    return {"sha256": name, "media_type": photos.type_of(content), "size": len(content), "received_at": arrived}
