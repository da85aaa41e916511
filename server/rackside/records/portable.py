"""Everything out of one server and into an empty one: an archive of JSON Lines and photos, described in archive.md."""

import json
import zipfile
from collections.abc import Iterator
from hashlib import sha256
from itertools import islice, zip_longest
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, func, insert, select, text, update

from rackside.records import clock, log, photos, projection
from rackside.records.bulk import insert_many
from rackside.records.canonical import canonical
from rackside.records.database import Database
from rackside.records.judged import Comparison, Finding, Judgement, PhotoFile, Verdict
from rackside.records.log import ENTRIES, STATE, Logged
from rackside.records.migrations import newest
from rackside.records.projected import PROJECTED
from rackside.records.tables import Device, Person, PersonSite

FORMAT = 1
Json = dict[str, Any]
PEOPLE, PERSON_SITES, DEVICES = (model.__table__ for model in (Person, PersonSite, Device))  # type: ignore[attr-defined]
LAID_OUT: tuple[Table, ...] = tuple(model.__table__ for model in PROJECTED)  # type: ignore[attr-defined]
JUDGED: tuple[Table, ...] = tuple(
    model.__table__  # type: ignore[attr-defined]
    for model in (Judgement, Verdict, Finding, Comparison, PhotoFile)
)
KEYS = ("cursor", "corrects", "about_id", "site_id", "content_hash")
# Columns that hold JSON as text, in the archive as what they say.
INSIDE = {"body", "result", "legs", "detail", "meters", "differences", "scopes", "sites"}
SECRET = {"password_hash", "token_hash", "scope"}
NUMBERED = (("judgements", "id"), ("findings", "key"))
AT_ONCE = 1000


class NotLoaded(RuntimeError):
    """The archive was not taken; nothing of it was kept."""


def export(database: Database, folder: Path, target: Path) -> dict[str, int]:
    """Write everything but secrets into one zip file; return how many of each."""
    with database.reading() as connection, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        documents = select(ENTRIES.c.document).order_by(ENTRIES.c.cursor)
        counts = {"entries": _write(archive, "entries", connection.execute(documents).scalars())}
        _write(
            archive, "keys", _lines(connection, select(*(ENTRIES.c[name] for name in KEYS)).order_by(ENTRIES.c.cursor))
        )
        for table in (PEOPLE, PERSON_SITES, DEVICES, *LAID_OUT, *JUDGED):
            counts[table.name] = _write(archive, table.name, _rows(connection, table))
        for name in connection.execute(select(PhotoFile.sha256).order_by(PhotoFile.sha256)).scalars():
            archive.write(photos.path_of(folder, name), f"photos/{name}", zipfile.ZIP_STORED)
        about: Json = {"format": FORMAT, "made_at": clock.written(clock.now()), "schema": newest()}
        about |= {"epoch": log.state(connection).epoch, "counts": counts}
        archive.writestr("about.json", json.dumps(about, indent=1))
    return counts


def _write(archive: zipfile.ZipFile, name: str, lines: Any) -> int:
    count = 0
    with archive.open(f"{name}.jsonl", "w", force_zip64=True) as file:
        for line in lines:
            file.write(line.encode() + b"\n")
            count += 1
    return count


def _rows(connection: Connection, table: Table) -> Iterator[str]:
    columns = [column for column in table.columns if column.name not in SECRET]
    return _lines(connection, select(*columns).order_by(*table.primary_key.columns))


def _lines(connection: Connection, asked: Any) -> Iterator[str]:
    for row in connection.execute(asked).mappings():
        told = {name: json.loads(value) if name in INSIDE and value else value for name, value in row.items()}
        yield json.dumps(told)


def load(database: Database, folder: Path, source: Path) -> dict[str, int]:
    """Fill an empty database and photo folder from an archive, and compare the tables with those that were written."""
    try:
        with zipfile.ZipFile(source) as archive, database.writing() as connection:
            about = json.loads(archive.read("about.json"))
            if about.get("format") != FORMAT:
                raise NotLoaded(f"{source} has the format {about.get('format')}; this version reads {FORMAT}.")
            _check_empty(connection)
            _load_entries(connection, archive)
            for table in (PEOPLE, PERSON_SITES, DEVICES, *JUDGED):
                _load_table(connection, archive, table)
            _number_on(connection)
            projection.rebuild(connection)
            for table in LAID_OUT:
                _compare(connection, archive, table)
            _load_photos(connection, archive, folder)
            counts: dict[str, int] = about["counts"]
            return counts
    except (zipfile.BadZipFile, KeyError, ValueError) as error:
        raise NotLoaded(f"{source} is damaged, or no archive of this program: {error}") from error


def _check_empty(connection: Connection) -> None:
    entries, people = (
        log.state(connection, lock=True).cursor,
        connection.scalar(select(func.count()).select_from(PEOPLE)),
    )
    if entries or people:
        raise NotLoaded(f"The database holds {entries} entries and {people} people: name a new one.")


def _read(archive: zipfile.ZipFile, name: str) -> Iterator[Json]:
    with archive.open(f"{name}.jsonl") as file:
        yield from map(json.loads, file)


def _load_entries(connection: Connection, archive: zipfile.ZipFile) -> None:
    state, cursor = log.state(connection), 0
    pairs = zip_longest(_read(archive, "entries"), _read(archive, "keys"))
    while part := list(islice(pairs, AT_ONCE)):
        whole = [_logged(entry, keys) for entry, keys in part]
        insert_many(connection, ENTRIES, [log.row_of(logged, state.secret) for logged in whole])
        cursor = whole[-1].cursor
    connection.execute(update(STATE).values(cursor=cursor))


def _logged(entry: Json | None, keys: Json | None) -> Logged:
    """Return an entry as the log takes it, once its content is what it was."""
    if entry is None or keys is None:
        raise NotLoaded("entries.jsonl and keys.jsonl are not of the same length.")
    cursor, received_at = entry.pop("cursor"), entry.pop("received_at")
    entry.pop("seal")
    content = canonical(entry)
    if sha256(content.encode()).hexdigest() != keys["content_hash"] or cursor != keys["cursor"]:
        raise NotLoaded(f"The entry {entry['id']} is not what it was when the archive was made.")
    thing_id = keys["corrects"] or entry["id"]
    return Logged(
        entry, content, keys["content_hash"], thing_id, keys["about_id"], keys["site_id"], cursor, received_at
    )


def _load_table(connection: Connection, archive: zipfile.ZipFile, table: Table) -> None:
    """Fill a table; who signed in signs in again, for secrets stay where they were."""
    rows = _read(archive, table.name)
    while part := list(islice(rows, AT_ONCE)):
        connection.execute(insert(table), [_row(table, row) for row in part])


def _row(table: Table, told: Json) -> Json:
    row = {name: json.dumps(value) if name in INSIDE and value is not None else value for name, value in told.items()}
    if table is PEOPLE:
        return row | {"password_hash": ""}
    if table is DEVICES:
        ended = row["revoked_at"] or clock.written(clock.now())
        return row | {"token_hash": f"none of {row['id']}", "scope": None, "revoked_at": ended}
    return row


def _number_on(connection: Connection) -> None:
    """Let PostgreSQL count on from the numbers that were loaded; SQLite does so by itself."""
    if connection.dialect.name != "postgresql":
        return
    for table, column in NUMBERED:
        last = f"SELECT coalesce(max({column}), 0) + 1 FROM {table}"
        connection.execute(text(f"SELECT setval(pg_get_serial_sequence('{table}', '{column}'), ({last}), false)"))


def _compare(connection: Connection, archive: zipfile.ZipFile, table: Table) -> None:
    """Refuse an archive whose tables the log does not make again, in whatever order either database sorts them."""
    if _sum(map(json.loads, _rows(connection, table))) != _sum(_read(archive, table.name)):
        raise NotLoaded(f"The log makes other {table.name} than the archive holds: it is not whole.")


def _sum(rows: Iterator[Json]) -> int:
    return sum(int.from_bytes(sha256(canonical(row).encode()).digest()) for row in rows)


def _load_photos(connection: Connection, archive: zipfile.ZipFile, folder: Path) -> None:
    for name in connection.execute(select(PhotoFile.sha256)).scalars():
        content = archive.read(f"photos/{name}")
        if sha256(content).hexdigest() != name:
            raise NotLoaded(f"The photo {name} is damaged.")
        photos.write_whole(photos.path_of(folder, name), content)
