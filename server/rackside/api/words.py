"""Every word that is allowed: what the engine describes, and the words of the server's own."""

from typing import Any

from rackside import host
from rackside.access.caller import KEY_SCOPES, ROLES
from rackside.api.errors import CODES
from rackside.engine import vocabulary
from rackside.records.outbox import EVENTS
from rackside.records.states import STATES
from rackside.sync.fields import CASE_PART, OWN, SCHEMAS, WORDS

PLATE = ("PROTECTORS", "APPLICATIONS", "STAGES", "OIL_PUMPS", "OVERLOAD_PLACES", "RATING_ORDERS", "HEATER_KINDS")
READING = ("LEADS", "MOMENTS", "METHODS", "CAPTURES", "PROBES", "PLACES", "CONTACT_POSITIONS", "LABELS")
OTHER = ("INSULATION_FORMS", "CODE_LETTERS")


def words(language: str) -> dict[str, Any]:
    """Return what GET /vocabulary answers."""
    lists = {name.lower(): list(getattr(vocabulary, name)) for name in PLATE + READING + OTHER}
    return lists | host.describe(language) | _own()


def _own() -> dict[str, Any]:
    codes = [{"code": code, "status": known.status, "remedy": known.remedy} for code, known in CODES.items()]
    return {
        "error_codes": codes,
        "entry_schemas": list(SCHEMAS),
        "entry_bodies": {kind: _members(kind) for kind in OWN},
        "call_states": list(STATES),
        "review_outcomes": list(WORDS["outcome"]),
        "line_kinds": list(WORDS["line_kind"]),
        "photo_types": list(WORDS["photo_type"]),
        "roles": {role: sorted(rights) for role, rights in ROLES.items()},
        "key_scopes": list(KEY_SCOPES),
        "webhook_events": list(EVENTS),
    }


def _members(kind: str) -> list[dict[str, Any]]:
    fields = OWN[kind] + CASE_PART.get(kind, ())
    return [{"member": name, "form": form.rstrip("!"), "required": form.endswith("!")} for name, form in fields]
