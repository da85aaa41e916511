"""What a call's page shows of its log beside the judgement: marks of the phone, lines, signatures, photos. Pure."""

from collections.abc import Collection
from typing import Any

from rackside.engine.settle import Thing, things_of
from rackside.reports import job_marks, money
from rackside.reports.pictures import SUBJECTS

Json = dict[str, Any]


def things_shown(call: Json, missing: Collection[str], currency: str) -> Json:
    """Return what stands of the log; `missing` are the photos whose bytes are still on the phone."""
    standing = things_of(call["entries"])
    own = next((thing.body for thing in standing if thing.id == call["id"]), {})
    places = {entry["id"]: place for place, entry in enumerate(call["entries"], 1)}
    photos = {photo["id"]: _photo(photo, missing, places) for photo in call["photos"]}
    signatures = [_signature(thing, photos) for thing in standing if thing.kind == "signature"]
    signing = {signature["photo"] for signature in signatures}
    lines = [thing.body | _who(thing) for thing in standing if thing.kind == "line"]
    return {
        "marks": job_marks.marks_of(own.get("extra")),
        "money": money.priced(lines, currency),
        "signatures": signatures,
        "photos": [photo for photo in photos.values() if photo["id"] not in signing],
    }


def _photo(photo: Json, missing: Collection[str], places: dict[str, int]) -> Json:
    subject = SUBJECTS.get(photo["shows"], photo["shows"]).capitalize()
    said = f"{subject}: {photo['caption']}" if photo.get("caption") else subject
    return photo | {"said": said, "here": photo["sha256"] not in missing, "beside": places.get(photo.get("of") or "")}


def _signature(thing: Thing, photos: dict[str, Json]) -> Json:
    photo = thing.body.get("photo")
    return thing.body | _who(thing) | {"photo": photo, "picture": photos.get(photo or "")}


def _who(thing: Thing) -> Json:
    return {"id": thing.id, "by": thing.author, "at": thing.made_at}
