"""What the forms of members mean, and how those look that are lists or objects: for people who write programs."""

from typing import Any

from rackside.engine import case_fields, units, vocabulary
from rackside.engine.points import POINTS
from rackside.sync.fields import PARTS, WORDS, Fields

Json = dict[str, Any]
FORMS = {
    "text": "text",
    "number": 'a number, or text as it was read: "0.70" tells more than 0.7',
    "positive": "a number above 0, or text as it was read",
    "bool": "true or false",
    "time": "RFC 3339 with offset, like 2026-10-14T21:40:00-05:00",
    "unit": "a unit of `units`",
    "id": "a UUID",
    "ids": "a list of UUIDs",
    "sha256": "64 hexadecimal digits, small letters",
    "currency": "three capital letters, as in ISO 4217",
    "whole": "a whole number, 0 or more",
    "zone": "the name of a time zone, like America/Chicago",
    "object": "a JSON object; `looks` says of what",
    "any": "`looks` says what",
}
TEXT_AS_READ = 'text as it was read: digits, "<0.5", ">2000", or "OL" where ohms are over the meter\'s limit'
READINGS = "how the meter read it, in the reading's unit: " + TEXT_AS_READ
LOOKS = {
    "rated_voltage": "volts, or two like [208, 230]",
    "capacity_steps": "the share of full capacity of each step, like [0.5, 1.0]",
    "limits": "by check: {unit, watch: {above, below}, fail: {above, below}, source}, from the machine's bulletin",
    "power": "the ten numbers of the map, in its order",
    "current": "the ten numbers of the map, in its order",
    "mass_flow": "the ten numbers of the map, in its order",
    "capacity": "the ten numbers of the map, in its order",
    "envelope": "where the map holds: temperatures as the bulletin gives them",
    "points": "by point: {percent, counts, resolution} of the meter's accuracy",
    "legs": "by leg, as the point's `keys` name them: " + TEXT_AS_READ,
    "value": TEXT_AS_READ + "; a word of the point's `words` where it has some",
    "contacts": "in the order of the drawing: {name, volts, expected: closed or open}",
    "known_source_before": READINGS,
    "known_source_after": READINGS,
    "meter": "the meter's id, or by leg where several were used",
    "at_30s": READINGS,
    "at_600s": READINGS,
    "lead_zero": READINGS,
    "before": "how it stood before: text or a number",
    "after": "how it stands after: text or a number",
    "readings": "a list of readings",
    "body": "the members that `entry_bodies` names; in a correction only those that change",
    "engine": "{version, rules, digest}",
    "result": "what POST /analyse answers",
}


def members(fields: Fields, with_parts: bool = False) -> list[Json]:
    """Return the members of a body with form, words, parts and looks."""
    parts = PARTS | (dict(case_fields.MACHINE_PARTS) if with_parts else {})
    return [_member(name, form, parts) for name, form in fields]


def _member(name: str, form: str, parts: dict[str, Fields]) -> Json:
    plain = form.rstrip("!")
    told: Json = {"member": name, "form": plain, "required": form.endswith("!")}
    if name in parts and plain in ("object", name):
        return told | {"members": members(parts[name])}
    if words := words_of(name, plain):
        return told | {"words": words}
    return told | ({"looks": LOOKS[name]} if name in LOOKS and plain in ("any", "object") else {})


def words_of(name: str, form: str) -> list[str]:
    """Return the words a member may be, [] where it is no word."""
    if form == "unit":
        return [unit[0] for unit in units.UNITS]
    if name == "point" and form == "text":
        return [point.name for point in POINTS]
    if form in WORDS:
        return list(WORDS[form])
    return list(getattr(vocabulary, form)) if form.isupper() else []
