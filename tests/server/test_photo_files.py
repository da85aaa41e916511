"""Photos on the disk: what the server says it keeps, it keeps whole."""

import os
from hashlib import sha256
from pathlib import Path

import pytest

from rackside.records import archive, photos, restoring
from tests.server.house import House, Phone, story

PNG = b"\x89PNG\r\n\x1a\n" + b"\x01" * 40
NAME = sha256(PNG).hexdigest()
PHOTO = {"sha256": NAME, "media_type": "image/png", "shows": "oil"}


def test_a_damaged_file_is_written_anew_before_the_phone_may_free_its_own(house: House, okafor: Phone) -> None:
    told = story(okafor)
    okafor.keep(*told.entries, okafor.make("photo", PHOTO, told.call))
    path = photos.path_of(house.settings.photos, NAME)
    path.parent.mkdir(parents=True)
    path.write_bytes(PNG[:10])
    answer = okafor.http.put(f"/api/v1/photos/{NAME}", content=PNG)
    assert (answer.status_code, answer.headers["etag"], answer.content) == (201, f'"{NAME}"', b"")
    assert path.read_bytes() == PNG
    assert okafor.http.get(f"/api/v1/photos/{NAME}").content == PNG


def test_a_photo_sent_after_the_backup_is_there_once_its_entry_is_back(
    house: House, okafor: Phone, tmp_path: Path
) -> None:
    told = story(okafor)
    okafor.keep(*told.entries)
    archive.backup(house.database, tmp_path / "copy")
    photo = okafor.make("photo", PHOTO, told.call)
    okafor.keep(photo)
    assert okafor.http.put(f"/api/v1/photos/{NAME}", content=PNG).status_code == 201
    restoring.restore(house.database, tmp_path / "copy", house.settings.photos)
    assert okafor.http.get(f"/api/v1/photos/{NAME}").status_code == 404, "no entry names it yet"
    assert okafor.keep(photo)["photos_wanted"] == []
    assert okafor.http.get(f"/api/v1/photos/{NAME}").content == PNG


def test_a_full_disk_leaves_no_half_file_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        photos.write_whole(photos.path_of(tmp_path, NAME), PNG)
    assert [path for path in tmp_path.rglob("*") if path.is_file()] == []
