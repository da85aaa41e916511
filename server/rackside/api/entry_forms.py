"""JSON Schemas of the case and of every entry, made from the very fields the server checks them by."""

from typing import Any

from rackside.api.shapes import LOOKS
from rackside.engine import case_fields, units, vocabulary
from rackside.engine.points import POINTS
from rackside.sync.fields import CASE_PART, HEAD, OWN, PARTS, WORDS, Fields

Schema = dict[str, Any]
NUMBER: Schema = {
    "type": ["number", "string", "null"],
    "description": "A number, or text as read: the digits carry the meter's resolution",
}
FORMS: dict[str, Schema] = {
    "any": {},
    "text": {"type": ["string", "null"], "maxLength": 4000},
    "bool": {"type": ["boolean", "null"]},
    "time": {"type": ["string", "null"], "format": "date-time", "description": "RFC 3339 with offset"},
    "object": {"type": ["object", "null"]},
    "number": NUMBER,
    "positive": NUMBER,
    "id": {"type": ["string", "null"], "format": "uuid"},
    "ids": {"type": "array", "items": {"type": "string", "format": "uuid"}},
    "sha256": {"type": ["string", "null"], "pattern": "^[0-9a-f]{64}$"},
    "currency": {"type": ["string", "null"], "pattern": "^[A-Z]{3}$"},
    "whole": {"type": ["integer", "null"], "minimum": 0},
    "zone": {"type": ["string", "null"], "description": "Time zone name, like America/Chicago"},
}
LISTS = {"rounds": "Round", "signs": "Sign", "events": "Event", "actions": "Action", "readings": "Reading"}
LISTS |= {"photos": "Photo", "overrides": "Override", "neighbours": "Neighbour", "history": "History"}
CASE_PARTS: dict[str, Fields] = {
    "Machine": case_fields.MACHINE,
    "Round": case_fields.ROUND,
    "Reading": case_fields.READING,
    "Sign": case_fields.SIGN,
    "Event": case_fields.EVENT,
    "Action": case_fields.ACTION,
    "Photo": case_fields.PHOTO,
    "Override": case_fields.OVERRIDE,
    "Neighbour": case_fields.NEIGHBOUR,
    "History": case_fields.HISTORY,
    "Decision": case_fields.DECISION,
}


CASE: dict[int | str, Any] = {200: {"content": {"application/json": {"schema": {"$ref": "#/components/schemas/Case"}}}}}


def _ref(name: str) -> Schema:
    return {"$ref": f"#/components/schemas/{name}"}


def _member(name: str, form: str) -> Schema:
    plain = form.rstrip("!")
    if plain in PARTS:
        return _object(PARTS[plain], ("extra",), nullable=True)
    if name in LISTS and plain == "any":
        return {"type": ["array", "null"], "items": _ref(f"Case{LISTS[name]}")}
    if plain == "unit":
        return {"enum": [*(unit[0] for unit in units.UNITS), None]}
    if plain == "text" and name == "point":
        return {"enum": [point.name for point in POINTS]}
    schema = FORMS.get(plain)
    if schema is not None and plain in ("any", "object") and name in LOOKS:
        return schema | {"description": LOOKS[name]}
    return schema if schema is not None else {"enum": _words(plain) + ([] if form.endswith("!") else [None])}


def _words(name: str) -> list[Any]:
    return list(WORDS[name] if name in WORDS else getattr(vocabulary, name))


def _object(fields: Fields, also: tuple[str, ...] = ("extra",), nullable: bool = False) -> Schema:
    members = {name: _member(name, form) for name, form in fields} | {name: {} for name in also}
    schema: Schema = {"type": ["object", "null"] if nullable else "object", "additionalProperties": False}
    required = [name for name, form in fields if form.endswith("!")]
    return schema | {"properties": members} | ({"required": required} if required else {})


def _machine(fields: Fields) -> Schema:
    """Plate values with their parts: oil control, supply, fan and the rest."""
    schema = _object(fields)
    schema["properties"] |= {name: _object(part, nullable=True) for name, part in case_fields.MACHINE_PARTS}
    return schema


def case_schemas() -> dict[str, Schema]:
    """Return the schemas of a case and its parts by name."""
    parts = {f"Case{name}": _object(fields) for name, fields in CASE_PARTS.items()}
    parts["CaseMachine"] = _machine(case_fields.MACHINE)
    case = _object(case_fields.CASE_KEYS)
    case["required"] = ["machine", "rounds"]
    case["properties"] |= {
        "machine": _ref("CaseMachine"),
        "decision": {"anyOf": [_ref("CaseDecision"), {"type": "null"}]},
    }
    case["properties"]["meters"] = {"type": ["object", "null"], "additionalProperties": _object(case_fields.METER)}
    return parts | {"Case": case}


def entry_schemas() -> dict[str, Schema]:
    """Return the schemas of an entry, first of its thing or a correction, and of each kind's body."""
    bodies = {f"Body_{kind}": _body(kind) for kind in OWN}
    first = {f"Entry_{kind}": _entry(kind, _ref(f"Body_{kind}"), {"maxItems": 0}) for kind in OWN}
    loose = {"type": "object", "description": "Only the members that change; null clears"}
    correction = _entry(None, loose, {"minItems": 1})
    entry = {"oneOf": [*map(_ref, first), _ref("Correction")], "description": "What a device writes, once and for ever"}
    return bodies | first | {"Correction": correction, "Entry": entry}


def _body(kind: str) -> Schema:
    fields = OWN[kind] + CASE_PART.get(kind, ())
    return _machine(fields) if kind == "machine" else _object(fields)


def _entry(kind: str | None, body: Schema, base: Schema) -> Schema:
    schema = _object(HEAD, ("cursor", "received_at", "seal"))
    own = {"body": body, "base": FORMS["ids"] | base, "schema": {"type": "integer", "minimum": 1}}
    own["kind"] = {"enum": list(OWN)} if kind is None else {"const": kind}
    for name in ("id", "made_at", "device", "author"):
        own[name] = schema["properties"][name] | {"type": "string"}
    schema["properties"] |= own
    schema["required"] = ["id", "schema", "kind", "call", "base", "made_at", "device", "author", "body"]
    return schema
