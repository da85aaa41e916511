"""Every word that is allowed: what the engine describes, and the words of the server's own."""

from typing import Any

from rackside import host
from rackside.access.caller import KEY_SCOPES, ROLES
from rackside.api.errors import CODES
from rackside.api.shapes import FORMS, members
from rackside.engine import case_fields, vocabulary
from rackside.records.outbox import EVENTS
from rackside.records.states import STATES
from rackside.sync.fields import CASE_PART, HEAD, OWN, SCHEMAS, WORDS

PLATE = ("PROTECTORS", "APPLICATIONS", "STAGES", "OIL_PUMPS", "OVERLOAD_PLACES", "RATING_ORDERS", "HEATER_KINDS")
READING = ("LEADS", "MOMENTS", "METHODS", "CAPTURES", "PROBES", "PLACES", "CONTACT_POSITIONS", "LABELS")
# The parts of a case; those not named here are the bodies of entries.
CASE = {
    "machine": case_fields.MACHINE,
    "meter": case_fields.METER,
    "reading": case_fields.READING,
    "event": case_fields.EVENT,
    "action": case_fields.ACTION,
    "neighbour": case_fields.NEIGHBOUR,
    "history": case_fields.HISTORY,
    "override": case_fields.OVERRIDE,
    "decision": case_fields.DECISION,
}
OTHER = ("HAPPENINGS", "INSULATION_FORMS", "CODE_LETTERS")


def words(language: str) -> dict[str, Any]:
    """Return what GET /vocabulary answers."""
    lists = {name.lower(): list(getattr(vocabulary, name)) for name in PLATE + READING + OTHER}
    return lists | host.describe(language) | _own()


def _own() -> dict[str, Any]:
    codes = [{"code": code, "status": known.status, "remedy": known.remedy} for code, known in CODES.items()]
    return {
        "languages": list(host.languages()),
        "error_codes": codes,
        "entry_schemas": list(SCHEMAS),
        "entry_head": members(HEAD),
        "entry_bodies": {kind: members(OWN[kind] + CASE_PART.get(kind, ()), kind == "machine") for kind in OWN},
        "case": {name: members(fields, name == "machine") for name, fields in CASE.items()},
        "forms": FORMS,
        "call_states": list(STATES),
        "review_outcomes": list(WORDS["outcome"]),
        "line_kinds": list(WORDS["line_kind"]),
        "photo_types": list(WORDS["photo_type"]),
        "roles": {role: sorted(rights) for role, rights in ROLES.items()},
        "key_scopes": list(KEY_SCOPES),
        "webhook_events": list(EVENTS),
    }
