"""The tables: migrations, rebuilding from the log, backup and export, on both databases."""

import hashlib
import json
import sqlite3
import uuid
import zipfile
from pathlib import Path

import psycopg
import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlmodel import SQLModel

from rackside.records import Database, archive, photos, portable, projection
from tests.server.house import House, Phone, line_voltage, running, story
from tests.server.test_pull import in_days, settle

PNG = b"\x89PNG\r\n\x1a\n" + b"\x00" * 32


def busy_year(house: House, phone: Phone) -> None:
    """A log with everything in it that moves rows about."""
    office = house.phone("M. Castellanos", "office")
    one, other = story(phone), story(phone, "C1")
    phone.keep(*one.entries, *other.entries)
    first = phone.write("machine", {"tag": "B4"}, base=[one.machine])
    second = phone.write("machine", {"tag": "B5"}, base=[one.machine])
    phone.write("machine", {"tag": "B5"}, base=[first["id"], second["id"]])
    phone.write("machine", {"site": one.site}, base=[other.machine])
    office.write("review", {"outcome": "accepted", "of": one.machine})
    left = phone.write("round", {"label": "as_left"}, one.call)
    reading = phone.write("reading", line_voltage(left["id"]), one.call)
    phone.write("reading", {"legs": {"L1-L2": "470", "L2-L3": "470", "L3-L1": "471"}}, one.call, base=[reading["id"]])
    taken_back = phone.write("reading", line_voltage(left["id"]), one.call)
    phone.write("retraction", {"of": taken_back["id"], "why": "twice"}, one.call)
    clamp = phone.write("meter", {"name": "clamp", "kind": "clamp"})
    phone.write("meter", {"serial": "17"}, base=[clamp["id"]])
    sha = hashlib.sha256(PNG).hexdigest()
    phone.write("photo", {"sha256": sha, "media_type": "image/png", "shows": "oil"}, one.call)
    assert phone.http.put(f"/api/v1/photos/{sha}", content=PNG).status_code == 201
    settle(phone, office, one, in_days(3))
    phone.write("submission", {}, other.call)
    returned = office.write("review", {"outcome": "returned", "note": "more"}, other.call)
    office.write("retraction", {"of": returned["id"], "why": "wrong call"}, other.call)
    stray = phone.write("site", {"name": "Typed twice"})
    phone.write("retraction", {"of": stray["id"], "why": "twice", "same_as": one.site})
    phone.get(f"/calls/{one.call}/results")


def test_the_tables_rebuilt_from_the_log_are_the_same(house: House, okafor: Phone) -> None:
    busy_year(house, okafor)
    asked = [f"/calls/{call['id']}" for call in okafor.get("/calls")["items"]] + ["/calls", "/machines", "/sites"]
    before, size = [okafor.get(path) for path in asked], len(okafor.pull())
    with house.database.writing() as connection:
        told = projection.fingerprint(connection)
        assert projection.rebuild(connection) == size
        assert projection.fingerprint(connection) == told
    assert [okafor.get(path) for path in asked] == before


def test_migrations_make_exactly_the_tables_of_this_version(database_url: str) -> None:
    database = Database(database_url)
    database.migrate()
    database.migrate()
    with database.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, SQLModel.metadata) == []
    database.close()


def test_a_transaction_that_fails_leaves_nothing(database_url: str) -> None:
    database = Database(database_url)
    database.migrate()

    def failing() -> None:
        with database.writing() as connection:
            connection.exec_driver_sql("UPDATE log_state SET cursor = 99")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        failing()
    with database.reading() as connection:
        assert connection.exec_driver_sql("SELECT cursor FROM log_state").scalar() == 0
    database.close()


def test_sqlite_waits_for_the_disk_at_every_commit(sqlite_url: str) -> None:
    database = Database(sqlite_url)
    with database.reading() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
    database.close()


def test_a_backup_is_whole_and_is_told_from_the_server_it_came_from(
    small_house: House, tmp_path: Path, sqlite_url: str
) -> None:
    phone = small_house.phone("T. Okafor")
    busy_year(small_house, phone)
    copy = tmp_path / "copy.db"
    told = archive.backup(small_house.database, copy)
    later = phone.write("meter", {"name": "megohmmeter"})
    assert told == f"{len(phone.pull()) - 1} entries, whole"
    epoch = phone.get("/health")["epoch"]
    with running(f"sqlite:///{copy}", tmp_path) as restored:
        old = restored.sign_in("T. Okafor")
        old.epoch = epoch
        body = {"device": old.device, "epoch": epoch, "entries": [later]}
        assert old.http.post("/api/v1/entries", json=body).json()["code"] == "epoch_changed"
        old.epoch = None
        answer = old.push(*phone.pull())
        statuses = [result["status"] for result in answer["results"]]
        assert statuses == ["repeated"] * (len(statuses) - 1) + ["accepted"]
        assert {item["id"] for item in old.pull()} == {item["id"] for item in phone.pull()}
    with pytest.raises(archive.BackupFailed, match="exists already"):
        archive.backup(small_house.database, copy)


def test_a_postgresql_backup_can_be_loaded_and_has_its_own_epoch(
    postgres_cluster: object, postgres_url: str, tmp_path: Path
) -> None:
    with running(postgres_url, tmp_path) as house:
        phone = house.phone("T. Okafor")
        phone.keep(*story(phone).entries)
        epoch = phone.get("/health")["epoch"]
        assert archive.backup(house.database, tmp_path / "dump.sql") == "5 entries, whole"
    name = f"restored_{uuid.uuid4().hex}"
    postgres_cluster.run(f"create database {name}")  # type: ignore[attr-defined]
    url = postgres_url.rsplit("/", 1)[0] + f"/{name}"
    load_dump(url.replace("+psycopg", ""), tmp_path / "dump.sql")
    with running(url, tmp_path) as restored:
        phone = restored.sign_in("T. Okafor")
        assert len(phone.pull()) == 5
        assert phone.get("/health")["epoch"] != epoch


def load_dump(url: str, dump: Path) -> None:
    """Load a plain dump the way psql would, statement by statement, COPY included."""
    lines = iter(dump.read_text().splitlines(keepends=True))
    statement = ""
    with psycopg.connect(url, autocommit=True) as connection:
        for line in lines:
            if line.startswith(("--", "\\")) or not line.strip():
                continue
            statement += line
            if not line.rstrip().endswith(";"):
                continue
            if statement.startswith("COPY "):
                with connection.cursor().copy(statement) as copy:
                    for row in iter(lambda: next(lines), "\\.\n"):
                        copy.write(row)
            else:
                connection.execute(statement)
            statement = ""


def test_an_export_holds_everything(small_house: House, tmp_path: Path) -> None:
    phone = small_house.phone("T. Okafor")
    busy_year(small_house, phone)
    counts = portable.export(small_house.database, small_house.settings.photos, tmp_path / "all.zip")
    with zipfile.ZipFile(tmp_path / "all.zip") as file:
        entries = [json.loads(line) for line in file.read("entries.jsonl").splitlines()]
        assert entries == phone.pull()
        about = json.loads(file.read("about.json"))
        assert about["counts"] == counts
        assert about["counts"]["judgements"] >= 1
        machines = [json.loads(line) for line in file.read("machines.jsonl").splitlines()]
        assert {machine["tag"] for machine in machines} == {"B5", "C1"}
        assert file.read(f"photos/{hashlib.sha256(PNG).hexdigest()}") == PNG


def test_a_photo_is_on_disk_before_it_is_acknowledged(small_house: House, tmp_path: Path) -> None:
    name = hashlib.sha256(PNG).hexdigest()
    assert photos.keep(small_house.database, tmp_path / "kept", name, PNG) is True
    assert photos.path_of(tmp_path / "kept", name).read_bytes() == PNG
    assert [path.name for path in (tmp_path / "kept").rglob("*") if path.is_file()] == [name]


def test_the_database_is_one_file_a_person_can_open(small_house: House, sqlite_url: str) -> None:
    phone = small_house.phone("T. Okafor")
    phone.keep(*story(phone).entries)
    with sqlite3.connect(sqlite_url.removeprefix("sqlite:///")) as file:
        assert file.execute("SELECT count(*) FROM entries").fetchone() == (5,)
