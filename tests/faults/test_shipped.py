"""What shipped versions left behind is taken for ever: databases of every revision, entries of every schema."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import MetaData

from rackside.records import Database, log, projection
from rackside.records.migrations import newest, upgrade
from rackside.sync import prepare
from tests.faults import old_database
from tests.server.conftest import quick_passwords as quick_passwords
from tests.server.house import House, running, story

Json = dict[str, Any]
SHIPPED = sorted(old_database.SHIPPED.glob("revision_*.json"))


def insert(database: Database, tables: dict[str, list[Json]]) -> None:
    """Put rows in as they were, whatever tables there are by now."""
    known = MetaData()
    known.reflect(database.engine)
    with database.writing() as connection:
        for table in known.sorted_tables:
            if tables.get(table.name):
                connection.execute(table.delete())
                connection.execute(table.insert(), tables[table.name])


def test_what_this_version_leaves_is_kept_for_the_next() -> None:
    """A new revision comes with a file of its tables: python -m tests.faults.old_database."""
    assert old_database.file_of(newest()) in SHIPPED


@pytest.mark.parametrize("file", SHIPPED, ids=lambda file: file.stem)
def test_a_database_of_then_is_whole_today(file: Path, database_url: str) -> None:
    shipped = json.loads(file.read_text())
    database = Database(database_url)
    with database.writing() as connection:
        upgrade(connection, shipped["revision"])
    insert(database, shipped["tables"])
    database.migrate()
    with database.writing() as connection:
        documents = [json.dumps(entry) for entry in log.documents(connection)]
        rows = sorted(shipped["tables"]["entries"], key=lambda row: row["cursor"])
        assert documents == [json.dumps(json.loads(row["document"])) for row in rows]
        before = projection.fingerprint(connection)
        assert projection.rebuild(connection) == len(documents)
        assert projection.fingerprint(connection) == before, "the tables that came along say what the log says"
        assert log.state(connection).cursor == len(documents)
    database.close()


@pytest.mark.parametrize("file", SHIPPED, ids=lambda file: file.stem)
def test_an_old_phone_sends_what_it_holds(file: Path, database_url: str, tmp_path: Path) -> None:
    shipped = [json.loads(row["document"]) for row in json.loads(file.read_text())["tables"]["entries"]]
    with running(database_url, tmp_path) as house:
        phones = {author: house.phone(author, "office") for author in {entry["author"] for entry in shipped}}
        for entry in shipped:
            phone = phones[entry["author"]]
            made = {name: value for name, value in entry.items() if name not in ("cursor", "received_at", "seal")}
            phone.keep(made | {"device": phone.device})


@contextmanager
def speaking(schema: int) -> Iterator[None]:
    taken, prepare.SCHEMAS = prepare.SCHEMAS, tuple(range(max(1, schema - 2), schema + 1))
    yield
    prepare.SCHEMAS = taken


@pytest.mark.parametrize(("today", "taken"), [(1, {1}), (2, {1, 2}), (3, {1, 2, 3}), (4, {2, 3, 4})])
def test_a_server_takes_its_schema_and_the_two_before(house: House, today: int, taken: set[int]) -> None:
    """With the fields as they are: what matters is which schemas it listens to, entry by entry."""
    phone = house.phone("T. Okafor")
    sent = [phone.make("site", {"name": "Cold"}, schema=schema) for schema in range(6)]
    with speaking(today):
        results = phone.push(*sent)["results"]
    assert {place for place, one in enumerate(results) if one["status"] == "accepted"} == taken
    assert {one["code"] for one in results if one["status"] == "refused"} == {"unknown_schema"}


@pytest.fixture
def house(sqlite_url: str, tmp_path: Path) -> Iterator[House]:
    with running(sqlite_url, tmp_path) as served:
        yield served


def test_a_sound_entry_beside_every_kind_of_bad_one(house: House) -> None:
    phone, other = house.phone("T. Okafor"), house.phone("R. Lindqvist", sites=[])
    told = story(phone)
    phone.keep(*told.entries)
    own = other.make("site", {"name": "Mine"})
    bad = {
        "invalid_body": "no entry",
        "entry_too_large": other.make("site", {"name": "x" * 300_000}),
        "unknown_kind": other.make("rumour", {}),
        "unknown_schema": other.make("site", {"name": "x"}, schema=99),
        "missing_reference": other.make("machine", {"site": "11111111-0000-4000-8000-000000000009", "tag": "B1"}),
        "foreign_site": other.make("sign", {"sign": "knock", "present": True}, told.call),
        "forged_author": other.make("site", {"name": "x"}, author="T. Okafor"),
        "id_reused": own | {"body": {"name": "Altered"}},
    }
    results = other.push(own, *bad.values())["results"]
    assert [one["status"] for one in results] == ["accepted"] + ["refused"] * len(bad)
    assert [one["code"] for one in results[1:]] == list(bad)
    assert all(one["detail"] and one["remedy"] for one in results[1:])
