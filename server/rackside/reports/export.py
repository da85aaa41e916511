"""The warranty file for other software: one JSON document under stable names. Pure."""

from typing import Any

from rackside.reports.text import file_clock
from rackside.reports.warranty import changes_of

Json = dict[str, Any]
FORMAT = "rackside-warranty-1"


def document(sheet: Json) -> Json:
    """Return the whole file under stable names; numbers unrounded, times as written, units explicit."""
    call = sheet["call"]
    about = ("id", "state", "opened_at", "author", "assigned_to", "complaint", "reported", "follows", "followed_by")
    return {
        "format": FORMAT,
        "times": {"time_zone": call["site"].get("time_zone"), "words": file_clock(call["site"])},
        "call": {name: call.get(name) for name in about} | {"technicians": call["technicians"]},
        "site": {name: value for name, value in call["site"].items() if name not in ("changed", "changed_at")},
        "machine": {name: value for name, value in call["machine"].items() if name not in ("site", "history")},
        "case": sheet["case"],
        "result": sheet["result"],
        "judged": {"at": sheet["judged_at"], "upto": sheet["upto"], "phone": sheet["phone"]},
        "decision": sheet["case"].get("decision"),
        "marks": {name: sheet["marks"][name] for name in ("done", "left_out")},
        "submission": call["submitted"],
        "reviews": call["reviews"],
        "lines": [line for group in sheet["money"]["groups"] for line in group["lines"]],
        "totals": {name: sheet["money"][name] for name in ("charged", "offered", "unpriced")},
        "photos": [_photo(photo) for photo in sheet["photos"]],
        "signatures": [_signature(signature) for signature in sheet["signatures"]],
        "changes": changes_of(call["entries"]),
    }


def _photo(photo: Json) -> Json:
    kept = ("id", "sha256", "media_type", "shows", "of", "caption", "taken_at", "by", "at", "missing")
    return {name: photo.get(name) for name in kept} | {"address": photo["href"]}


def _signature(signature: Json) -> Json:
    kept = {name: signature.get(name) for name in ("id", "who", "role", "by", "at")}
    return kept | {"photo": _photo(signature["picture"]) if signature["picture"] else None}
