"""Photos by their content: announced by an entry, then the bytes, each once."""

import os
import re
import tempfile
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from sqlalchemy import Connection, select
from sqlalchemy.dialects import postgresql, sqlite

from rackside.records import clock
from rackside.records.database import Database
from rackside.records.judged import PhotoFile
from rackside.records.projected import Photo
from rackside.records.refused import Refused

FILES = PhotoFile.__table__  # type: ignore[attr-defined]
PHOTOS = Photo.__table__  # type: ignore[attr-defined]
SHA256 = re.compile(r"[0-9a-f]{64}")
SIGNS = (("image/jpeg", 0, b"\xff\xd8\xff"), ("image/png", 0, b"\x89PNG\r\n\x1a\n"), ("image/webp", 8, b"WEBP"))


class Stored(NamedTuple):
    path: Path
    media_type: str


def wanted(connection: Connection, hashes: Iterable[str | None]) -> list[str]:
    """Return which of these photos have not arrived, in the order given."""
    asked = list(dict.fromkeys(one for one in hashes if one))
    if not asked:
        return []
    held = set(connection.execute(select(FILES.c.sha256).where(FILES.c.sha256.in_(asked))).scalars())
    return [one for one in asked if one not in held]


def type_of(content: bytes) -> str | None:
    """Return the media type a photo's first bytes show."""
    return next((name for name, start, sign in SIGNS if content[start : start + len(sign)] == sign), None)


def path_of(folder: Path, name: str) -> Path:
    return folder / name[:2] / name


def keep(database: Database, folder: Path, name: str, content: bytes) -> bool:
    """Keep a photo whole; return False when it was there already."""
    media_type = type_of(content)
    if media_type is None:
        raise Refused("photo_type", "The bytes are no JPEG, PNG or WebP picture.")
    found = sha256(content).hexdigest()
    if found != name:
        told = f"The bytes have the SHA-256 {found}."
        raise Refused("photo_mismatch", told, errors=[{"pointer": "", "detail": told}])
    path = path_of(folder, name)
    if not _is_whole(path, name):
        write_whole(path, content)
    row = {"sha256": name, "media_type": media_type, "size": len(content), "received_at": clock.written(clock.now())}
    with database.writing() as connection:
        return bool(connection.execute(_insert_once(connection, row)).rowcount)


def _is_whole(path: Path, name: str) -> bool:
    """Return whether a photo is there undamaged: once it is said to be, the phone frees its own."""
    return path.is_file() and sha256(path.read_bytes()).hexdigest() == name


def names_in(folder: Path) -> list[str]:
    """Return the names of all files in the folder that are named like photos."""
    return sorted(path.name for path in folder.glob("??/*") if SHA256.fullmatch(path.name))


def _insert_once(connection: Connection, row: dict[str, object]) -> Any:
    dialect = postgresql if connection.dialect.name == "postgresql" else sqlite
    return dialect.insert(FILES).values(**row).on_conflict_do_nothing()


def write_whole(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=path.parent, delete=False) as part:
        try:
            part.write(content)
            part.flush()
            os.fsync(part.fileno())
            os.replace(part.name, path)
        except OSError:
            os.unlink(part.name)
            raise
    _settle_folder(path.parent)


def _settle_folder(folder: Path) -> None:
    """Have the folder's own list on the disk, so that the new name survives a power cut too."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def announced(connection: Connection, name: str) -> list[str | None]:
    """Return the sites of the entries that announce a photo."""
    if not SHA256.fullmatch(name):
        return []
    return list(connection.execute(select(PHOTOS.c.site_id).where(PHOTOS.c.sha256 == name)).scalars())


def stored(connection: Connection, folder: Path, name: str) -> Stored | None:
    """Return where a photo's bytes are, None when they have not arrived."""
    media_type = connection.scalar(select(FILES.c.media_type).where(FILES.c.sha256 == name))
    return Stored(path_of(folder, name), media_type) if media_type else None
