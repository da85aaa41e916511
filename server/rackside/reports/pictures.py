"""Photos of a call as pages show them: where they are, how large, shrunk for print, and plainly told when missing."""

import io
from functools import lru_cache
from pathlib import Path
from typing import Any

from PIL import Image, ImageOps
from sqlalchemy import Connection

from rackside.records import photos

Json = dict[str, Any]
ADDRESS = "/api/v1/photos/"
# Two photos stand side by side on a sheet: 85 mm at 220 points to the inch.
LONGEST = 740
QUALITY = 72
# The camera's note on how it was held, and from where on width and height change places.
ORIENTATION, SIDEWAYS = 0x0112, 5
SUBJECTS = {"alarm": "alarm", "plate": "plate", "panel": "panel", "oil": "oil", "part": "part", "other": "photo"}
UNREADABLE = (OSError, ValueError, SyntaxError, Image.DecompressionBombError)


def pictures_of(connection: Connection, folder: Path, announced: list[Json]) -> list[Json]:
    """Return announced photos with where their bytes are; `missing` says in words why one can't be shown."""
    return [{**photo, **_held(connection, folder, photo), "subject": SUBJECTS[photo["shows"]]} for photo in announced]


def _held(connection: Connection, folder: Path, photo: Json) -> Json:
    stored = photos.stored(connection, folder, photo["sha256"])
    none = {"href": None, "path": None, "width": None, "height": None}
    if stored is None:
        return none | {"missing": f"not here yet: still on the phone of {photo['by']}"}
    if not stored.path.exists():
        return none | {"missing": "it arrived, but its file is no longer in the photo store"}
    try:
        with Image.open(stored.path) as image:
            width, height = reversed(image.size) if image.getexif().get(ORIENTATION, 1) >= SIDEWAYS else image.size
    except UNREADABLE:
        return none | {"missing": "it arrived, but can't be opened as a picture"}
    shown = {"href": ADDRESS + photo["sha256"], "path": str(stored.path), "width": width, "height": height}
    return shown | {"missing": None}


@lru_cache(maxsize=48)
def shrunk(path: str) -> bytes:
    """Return a photo small enough for print, upright, without what the camera wrote beside it."""
    with Image.open(path) as image:
        image.draft("RGB", (LONGEST, LONGEST))
        upright = ImageOps.exif_transpose(image)
        upright.thumbnail((LONGEST, LONGEST))
        flat = Image.new("RGB", upright.size, "white")
        flat.paste(upright, mask=upright.getchannel("A") if "A" in upright.getbands() else None)
    made = io.BytesIO()
    flat.save(made, "JPEG", quality=QUALITY, optimize=True)
    return made.getvalue()
