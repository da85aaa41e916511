"""A server that went back in time: restored while it works, verified, and made whole again by the phones."""

import sqlite3
from hashlib import sha256
from pathlib import Path

import pytest

from rackside.records import archive, projection, restoring
from tests.faults.replica import Replica
from tests.faults.web_line import WebLine
from tests.server.conftest import house as house
from tests.server.conftest import quick_passwords as quick_passwords
from tests.server.house import House, story

PNG = b"\x89PNG\r\n\x1a\n" + b"\x01" * 40


def test_phones_bring_back_what_an_older_backup_lacks(house: House, tmp_path: Path) -> None:
    okafor, lindqvist = house.phone("T. Okafor"), house.phone("R. Lindqvist")
    mine, others = Replica(okafor.device, "T. Okafor"), Replica(lindqvist.device, "R. Lindqvist")
    told = story(okafor)
    mine.keep(*told.entries)
    mine.exchange(WebLine(okafor.http))
    archive.backup(house.database, tmp_path / "copy")
    photo = {"sha256": sha256(PNG).hexdigest(), "media_type": "image/png", "shows": "oil"}
    since = [okafor.make("sign", {"sign": "knock", "present": True}, told.call), okafor.make("photo", photo, told.call)]
    mine.keep(*since)
    mine.exchange(WebLine(okafor.http))
    assert okafor.http.put(f"/api/v1/photos/{photo['sha256']}", content=PNG).status_code == 201
    others.exchange(WebLine(lindqvist.http))
    others.keep(lindqvist.make("sign", {"sign": "growl", "present": True}, told.call))
    others.exchange(WebLine(lindqvist.http))
    before = {entry["id"]: entry["body"] for entry in okafor.pull()}

    told_by = restoring.restore(house.database, tmp_path / "copy", house.settings.photos)

    assert told_by == "5 entries, whole; 0 photos there, 0 to come from the phones"
    assert len(okafor.pull()) == 5
    others.exchange(WebLine(lindqvist.http))
    assert {entry["id"]: entry["body"] for entry in okafor.pull()} == before, "one phone brought it all, sealed"
    mine.exchange(WebLine(okafor.http))
    assert mine.store.refused == others.store.refused == {}
    assert len(okafor.pull()) == len(before)
    assert okafor.http.get(f"/api/v1/photos/{photo['sha256']}").content == PNG, "the phone has freed its own"
    with house.database.writing() as connection:
        whole = projection.fingerprint(connection)
        projection.rebuild(connection)
        assert projection.fingerprint(connection) == whole


def test_each_restore_is_another_log(house: House, tmp_path: Path) -> None:
    """The same backup put back twice: what was written in between is noticed to be gone both times."""
    phone = house.phone("T. Okafor")
    mine = Replica(phone.device, "T. Okafor")
    archive.backup(house.database, tmp_path / "copy")
    epochs = {phone.get("/health")["epoch"]}
    for _ in range(2):
        mine.keep(phone.make("site", {"name": "Tannery Lane Cold Store"}))
        mine.exchange(WebLine(phone.http))
        restoring.restore(house.database, tmp_path / "copy", house.settings.photos)
        epochs.add(phone.get("/health")["epoch"])
        mine.exchange(WebLine(phone.http))
    assert len(epochs) == 3
    assert {item["id"] for item in phone.pull()} == set(mine.store.rows)


def test_a_photo_on_disk_is_not_asked_for_again(house: House, tmp_path: Path) -> None:
    phone = house.phone("T. Okafor")
    told, name = story(phone), sha256(PNG).hexdigest()
    photo = phone.make("photo", {"sha256": name, "media_type": "image/png", "shows": "oil"}, told.call)
    phone.keep(*told.entries, photo)
    archive.backup(house.database, tmp_path / "copy")
    phone.http.put(f"/api/v1/photos/{name}", content=PNG)
    told_by = restoring.restore(house.database, tmp_path / "copy", house.settings.photos)
    assert told_by == "6 entries, whole; 1 photos there, 0 to come from the phones"
    assert phone.push(photo)["code" if "code" in phone.push(photo) else "photos_wanted"] == []


def test_what_is_no_backup_changes_nothing(house: House, tmp_path: Path) -> None:
    phone = house.phone("T. Okafor")
    phone.keep(*story(phone).entries)
    epoch = phone.get("/health")["epoch"]
    (tmp_path / "photo.jpg").write_bytes(b"\xff\xd8\xff no backup")
    with sqlite3.connect(tmp_path / "other.db") as other:
        other.execute("CREATE TABLE entries (id)")
    for name in ("photo.jpg", "other.db", "nowhere"):
        with pytest.raises(archive.BackupFailed):
            restoring.restore(house.database, tmp_path / name, house.settings.photos)
    assert phone.get("/health")["epoch"] == epoch
    assert len(phone.pull()) == 5
