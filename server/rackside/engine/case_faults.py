"""Faults of form: a key nobody knows, a missing one, a value of the wrong kind; each with its JSON pointer."""

from . import moment, units, vocabulary
from .kinds import Any, Json
from .number import read_number

# No plate or setting lies beyond these, in any unit of the contract.
LARGEST = 1.0e12
SMALLEST = 1.0e-9


class Faults:
    """The list of what is wrong with a case."""

    def __init__(self) -> None:
        self.found: "list[Json]" = []

    def add(self, pointer: str, detail: str) -> None:
        self.found.append({"pointer": pointer, "detail": detail})


def items_of(owner: Any, name: str, pointer: str, faults: Faults) -> "list[tuple[int, Any]]":
    """Return the numbered items of a list in an object; a member that is no list is a fault."""
    if not isinstance(owner, dict) or owner.get(name) is None:
        return []
    listed = owner[name]
    if not isinstance(listed, list):
        faults.add(pointer + "/" + name, "Must be a list.")
        return []
    return [(index, listed[index]) for index in range(len(listed))]


def escaped(key: Any) -> str:
    """Return a key as a part of a JSON pointer (RFC 6901)."""
    return str(key).replace("~", "~0").replace("/", "~1")


def keys_faults(owner: Json, pointer: str, allowed: "tuple[tuple[str, str], ...]", faults: Faults) -> None:
    """List the keys of an object that the contract does not know."""
    known = [name for name, _ in allowed]
    for key in sorted(owner):
        if key not in known and key != "extra":
            faults.add(
                pointer + "/" + escaped(key),
                'Unknown key. Check the spelling, or put it under "extra". Known here: ' + ", ".join(known) + ".",
            )


def fields_faults(owner: Any, pointer: str, fields: "tuple[tuple[str, str], ...]", faults: Faults) -> None:
    """List unknown keys, missing ones, and values of the wrong kind."""
    if not isinstance(owner, dict):
        faults.add(pointer, "Must be a JSON object.")
        return
    keys_faults(owner, pointer, fields, faults)
    for name, kind in fields:
        required = kind.endswith("!")
        value = owner.get(name)
        if value is None:
            if required:
                faults.add(pointer + "/" + name, "Missing.")
            continue
        problem = field_problem(value, kind[:-1] if required else kind)
        if problem:
            faults.add(pointer + "/" + name, problem)


def field_problem(value: Any, kind: str) -> str:
    """Return what is wrong with a value of a kind (see case_fields), "" when nothing is."""
    if kind == "any":
        return ""
    if kind == "text":
        return "" if isinstance(value, str) and len(value) <= 4000 else "Must be text of at most 4000 characters."
    if kind == "bool":
        return "" if isinstance(value, bool) else "Must be true or false."
    if kind == "time":
        good = isinstance(value, str) and moment.seconds(value) is not None
        return "" if good else "Must be an RFC 3339 time with offset, like 2026-10-14T21:40:00-05:00."
    if kind == "unit":
        return "" if isinstance(value, str) and units.known(value) else "Unknown unit. See GET /api/v1/vocabulary."
    if kind in ("number", "positive"):
        return _number_problem(value, kind)
    if kind == "object":
        return "" if isinstance(value, dict) else "Must be a JSON object."
    words = getattr(vocabulary, kind)
    return "" if isinstance(value, str) and value in words else "Must be one of: " + ", ".join(words) + "."


def _number_problem(value: Any, kind: str) -> str:
    number = read_number(value)
    if number is None or number.bound:
        return "Must be a plain finite number."
    if abs(number.value) > LARGEST:
        return "Is larger than anything on a machine."
    return "Must be above 0." if kind == "positive" and number.value < SMALLEST else ""
