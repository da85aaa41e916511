"""Nobody is locked in: everything out of one server and into an empty one, with the same answers."""

import hashlib
import json
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from rackside.access import people
from rackside.records import Database, portable
from tests.server.house import PASSWORD, House, Phone, running
from tests.server.test_records import PNG, busy_year

Json = dict[str, Any]


def told_by(phone: Phone) -> Json:
    """Everything other software can read."""
    phone.get("/results")
    calls = phone.get("/calls")["items"]
    asked = ["/calls", "/machines", "/sites", "/meters", "/results"]
    asked += [f"/calls/{call['id']}{part}" for call in calls for part in ("", "/case", "/results", "/judgements")]
    return {path: phone.get(path) for path in asked} | {"log": [unsealed(entry) for entry in phone.pull()]}


def unsealed(entry: Json) -> Json:
    """Leave the server's own mark aside: each server has its own."""
    return {name: value for name, value in entry.items() if name != "seal"}


@pytest.fixture
def archived(house: House, okafor: Phone, tmp_path: Path) -> tuple[Path, Json]:
    busy_year(house, okafor)
    before = told_by(okafor)
    portable.export(house.database, house.settings.photos, tmp_path / "all.zip")
    return tmp_path / "all.zip", before


def test_an_empty_server_filled_from_the_archive_answers_the_same(
    archived: tuple[Path, Json], house: House, okafor: Phone, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    file, before = archived
    other_kind = [request.getfixturevalue("postgres_url")] if house.database.sqlite else []
    for url in [f"sqlite:///{tmp_path / 'other.db'}", *other_kind]:
        folder = tmp_path / url.split(":")[0]
        with running(url, folder) as other:
            portable.load(other.database, other.settings.photos, file)
            with other.database.writing() as connection:
                people.set_password(connection, people.id_of(connection, "T. Okafor"), PASSWORD)
            phone = other.sign_in("T. Okafor", okafor.device)
            assert phone.device == okafor.device
            assert told_by(phone) == before
            assert phone.http.get(f"/api/v1/photos/{hashlib.sha256(PNG).hexdigest()}").content == PNG
            statuses = {result["status"] for result in phone.push(*before["log"])["results"]}
            assert statuses == {"repeated"}
            phone.write("meter", {"name": "megohmmeter"})
            phone.http.post(f"/api/v1/calls/{before['/calls']['items'][0]['id']}/judgements")


def test_the_archive_holds_no_secret(archived: tuple[Path, Json], house: House, tmp_path: Path) -> None:
    with house.database.reading() as connection:
        secrets = list(connection.execute(text("SELECT password_hash FROM people")).scalars())
        secrets += list(connection.execute(text("SELECT token_hash FROM devices")).scalars())
        secrets += list(connection.execute(text("SELECT secret FROM log_state")).scalars())
    with zipfile.ZipFile(archived[0]) as file:
        everything = b"".join(file.read(name) for name in file.namelist() if name.endswith((".jsonl", ".json")))
    assert len(secrets) >= 5
    assert [secret for secret in secrets if secret.encode() in everything] == []


def test_nobody_signs_in_by_the_archive(archived: tuple[Path, Json], tmp_path: Path) -> None:
    with running(f"sqlite:///{tmp_path / 'other.db'}", tmp_path / "other") as other:
        portable.load(other.database, other.settings.photos, archived[0])
        for password in (PASSWORD, "", "nobody signs in with this"):
            asked = {"name": "T. Okafor", "password": password, "device": "x"}
            assert other.client().post("/api/v1/devices", json=asked).status_code == 401


def test_only_an_empty_database_is_filled(archived: tuple[Path, Json], house: House) -> None:
    with pytest.raises(portable.NotLoaded, match="name a new one"):
        portable.load(house.database, house.settings.photos, archived[0])


def changed(name: str, change: Callable[[bytes], bytes], file: Path, target: Path) -> Path:
    with zipfile.ZipFile(file) as whole, zipfile.ZipFile(target, "w") as damaged:
        for member in whole.namelist():
            content = whole.read(member)
            damaged.writestr(member, change(content) if member == name else content)
    return target


@pytest.mark.parametrize(
    ("member", "change", "told"),
    [
        ("entries.jsonl", lambda lines: lines.replace(b'"478"', b'"479"', 1), "is not what it was"),
        ("entries.jsonl", lambda lines: lines[: lines.rindex(b"\n", 0, -1) + 1], "not of the same length"),
        ("calls.jsonl", lambda lines: lines.replace(b'"oil_trip"', b'"noise"'), "other calls"),
        ("machines.jsonl", lambda _lines: b"", "other machines"),
        ("about.json", lambda _text: b'{"format": 99}', "format 99"),
        ("about.json", lambda _text: b"{", "damaged"),
        ("judgements.jsonl", lambda lines: lines.replace(b"}\n", b"\n", 1), "damaged"),
    ],
)
def test_a_damaged_archive_is_refused_whole(
    small_house: House, tmp_path: Path, member: str, change: Callable[[bytes], bytes], told: str
) -> None:
    busy_year(small_house, small_house.phone("T. Okafor"))
    portable.export(small_house.database, small_house.settings.photos, tmp_path / "all.zip")
    damaged = changed(member, change, tmp_path / "all.zip", tmp_path / "damaged.zip")
    other = Database(f"sqlite:///{tmp_path / 'other.db'}")
    other.migrate()
    with pytest.raises(portable.NotLoaded, match=told):
        portable.load(other, tmp_path / "photos", damaged)
    with other.reading() as connection:
        for table in ("entries", "people", "calls", "judgements"):
            assert connection.execute(text(f"SELECT count(*) FROM {table}")).scalar() == 0
    portable.load(other, tmp_path / "photos", tmp_path / "all.zip")
    other.close()


def test_the_archive_s_description_names_every_file(archived: tuple[Path, Json]) -> None:
    described = (Path(__file__).parents[2] / "server" / "docs" / "archive.md").read_text()
    with zipfile.ZipFile(archived[0]) as file:
        for name in file.namelist():
            assert f"`{'photos/' if name.startswith('photos/') else name}" in described, name
        assert json.loads(file.read("about.json"))["format"] == portable.FORMAT
