"""The members of each kind of entry and the form of each; the engine's own rule decides what is well formed.

A form is one of the engine's (case_fields), or `id`, `ids`, `sha256`, `zone`, `whole`; "!" marks what is required.
A kind also named in CASE_PART has the members of that part of the case.
"""

from rackside.engine import case_fields

Fields = tuple[tuple[str, str], ...]

OWN: dict[str, Fields] = {
    "site": (
        ("name", "text!"),
        ("address", "text"),
        ("altitude", "altitude"),
        ("supply", "supply"),
        ("time_zone", "zone"),
        ("contact", "text"),
        ("notes", "text"),
    ),
    "machine": (("site", "id!"), ("rack", "text"), ("retired", "bool"), ("plate_photo", "text")),
    "meter": (),
    "call": (
        ("machine", "id!"),
        ("complaint", "COMPLAINTS"),
        ("opened_at", "time"),
        ("reported", "text"),
        ("assigned_to", "text"),
        ("follows", "id"),
    ),
    "round": (("label", "LABELS!"), ("at", "time")),
    "reading": (("round", "id!"), ("neighbour", "neighbour")),
    "sign": (),
    "event": (),
    "action": (),
    "photo": (
        ("sha256", "sha256!"),
        ("media_type", "photo_type!"),
        ("size", "whole"),
        ("shows", "PHOTO_SUBJECTS!"),
        ("of", "id"),
        ("caption", "text"),
        ("taken_at", "time"),
    ),
    "override": (("gate", "GATES!"), ("need", "text!"), ("reason", "text!")),
    "decision": (
        ("decision", "DECISIONS!"),
        ("cause", "CAUSES"),
        ("reason", "text"),
        ("repair", "id"),
        ("approver", "text"),
        ("watch_until", "time"),
    ),
    "line": (
        ("kind", "line_kind!"),
        ("what", "text!"),
        ("quantity", "number"),
        ("price", "number"),
        ("currency", "currency"),
    ),
    "signature": (("who", "text!"), ("role", "text"), ("photo", "id")),
    "judgement": (("engine", "object!"), ("upto", "ids!"), ("result", "object!")),
    "submission": (("note", "text"),),
    "review": (("outcome", "outcome!"), ("note", "text"), ("of", "id"), ("seen", "whole")),
    "retraction": (("of", "id!"), ("why", "text"), ("same_as", "id")),
}
CASE_PART: dict[str, Fields] = {
    "machine": case_fields.MACHINE,
    "meter": case_fields.METER,
    "reading": tuple(field for field in case_fields.READING if field[0] != "id"),
    "sign": case_fields.SIGN,
    "event": case_fields.EVENT,
    "action": tuple(field for field in case_fields.ACTION if field[0] != "id"),
}
PARTS: dict[str, Fields] = {
    "altitude": (("value", "number!"), ("unit", "unit!")),
    "supply": (("nominal_voltage", "positive"), ("grounding", "GROUNDINGS")),
    "neighbour": (("tag", "text"), ("like", "bool"), ("running", "bool")),
}
WORDS: dict[str, tuple[str, ...]] = {
    "photo_type": ("image/jpeg", "image/png", "image/webp"),
    "line_kind": ("part", "labour", "travel", "quote"),
    "outcome": ("accepted", "returned"),
}
KINDS = tuple(OWN)
SCHEMA = 1
SCHEMAS = tuple(range(max(1, SCHEMA - 2), SCHEMA + 1))
HEAD: Fields = (
    ("id", "id!"),
    ("schema", "whole!"),
    ("kind", "text!"),
    ("call", "id"),
    ("base", "ids!"),
    ("made_at", "time!"),
    ("device", "text!"),
    ("author", "text!"),
    ("body", "object!"),
)
ADDED_BY_SERVER = ("cursor", "received_at", "seal")
