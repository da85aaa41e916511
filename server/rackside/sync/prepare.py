"""Look at each entry of a batch by itself, before the log is asked. Pure."""

import re
from collections.abc import Iterable
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
# A NUL as JSON writes it; after an even number of backslashes, or they would be the text's own.
NUL = re.compile(r"(?<!\\)(?:\\\\)*\\u0000")
# What is taken must be read back everywhere; nothing that an entry holds lies nearly as deep.
DEEPEST = 100


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
    if "\\u0000" in content and NUL.search(content):
        return _invalid("", "Text with a NUL character can't be kept.")
    if content.count("{") + content.count("[") > DEEPEST and _is_deeper(entry, DEEPEST):
        return _invalid("", f"Lists and objects lie more than {DEEPEST} deep in this entry.")
    schema, kind = entry.get("schema"), entry.get("kind")
    if isinstance(schema, int) and schema not in SCHEMAS:
        return Refused("unknown_schema", f"This server takes schema {' and '.join(map(str, SCHEMAS))}, not {schema}.")
    if isinstance(kind, str) and kind not in KINDS:
        return Refused("unknown_kind", f"There is no kind {kind!r}. Kinds: {', '.join(KINDS)}.")
    faults = forms.head_faults(entry)
    if not faults and not entry["base"]:
        faults = forms.body_faults(entry["kind"], entry["body"])
    return forms.refusal(faults) if faults else None


def _is_deeper(value: Any, most: int) -> bool:
    level = [value]
    for _ in range(most):
        level = [inner for one in level for inner in _inside(one) if isinstance(inner, dict | list)]
    return bool(level)


def _inside(value: Any) -> Iterable[Any]:
    return value.values() if isinstance(value, dict) else value


def _invalid(pointer: str, told: str) -> Refused:
    return forms.refusal([{"pointer": pointer, "detail": told}])
