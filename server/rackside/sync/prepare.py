"""Look at each entry of a batch by itself, before the log is asked. Pure."""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from rackside.records import Refused
from rackside.records.canonical import canonical
from rackside.sync import forms
from rackside.sync.fields import ADDED_BY_SERVER, KINDS, SCHEMAS
from rackside.sync.plain import is_id
from rackside.sync.references import named

Json = dict[str, Any]
NUL = "\\u0000"


@dataclass(slots=True)
class Prepared:
    """An entry with its content as one canonical text; `refused` when its form alone rules it out."""

    entry: Json
    content: str = ""
    content_hash: str = ""
    seal: str | None = None
    refused: Refused | None = None

    @property
    def id(self) -> str | None:
        entry_id = self.entry.get("id")
        return entry_id if isinstance(entry_id, str) else None

    def names(self) -> list[str]:
        """Return the ids the log must be asked about."""
        own = [self.id] if is_id(self.id) else []
        return own if self.refused else [*own, *named(self.entry)]


def prepare(raw: Any, entry_limit: int) -> Prepared:
    """Return an entry ready to be decided about."""
    if not isinstance(raw, dict):
        return Prepared({}, refused=_invalid("", "An entry must be a JSON object."))
    entry = raw
    if not raw.keys().isdisjoint(ADDED_BY_SERVER):
        entry = {name: value for name, value in raw.items() if name not in ADDED_BY_SERVER}
    try:
        content = canonical(entry)
        written = content.encode()
    except (ValueError, RecursionError):
        return Prepared(
            entry,
            refused=_invalid("", "Text or numbers in this entry can't be kept: NaN, infinity or half a character."),
        )
    seal = raw.get("seal")
    prepared = Prepared(entry, content, sha256(written).hexdigest(), seal if isinstance(seal, str) else None)
    prepared.refused = _refusal(entry, content, len(written), entry_limit)
    return prepared


def _refusal(entry: Json, content: str, size: int, entry_limit: int) -> Refused | None:
    if size > entry_limit:
        return Refused("entry_too_large", f"This entry has {size} bytes; at most {entry_limit} are taken.")
    if NUL in content:
        return _invalid("", "Text with a NUL character can't be kept.")
    schema, kind = entry.get("schema"), entry.get("kind")
    if isinstance(schema, int) and schema not in SCHEMAS:
        return Refused("unknown_schema", f"This server takes schema {' and '.join(map(str, SCHEMAS))}, not {schema}.")
    if isinstance(kind, str) and kind not in KINDS:
        return Refused("unknown_kind", f"There is no kind {kind!r}. Kinds: {', '.join(KINDS)}.")
    faults = forms.head_faults(entry)
    if not faults and not entry["base"]:
        faults = forms.body_faults(entry["kind"], entry["body"])
    return forms.refusal(faults) if faults else None


def _invalid(pointer: str, told: str) -> Refused:
    return forms.refusal([{"pointer": pointer, "detail": told}])
