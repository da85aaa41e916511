"""Say what is wrong with the form of an entry: every fault with its JSON pointer. Pure."""

import re
from collections.abc import Collection
from functools import cache
from typing import Any
from zoneinfo import ZoneInfo

from rackside.engine import case
from rackside.engine.case_faults import Faults, field_problem
from rackside.records import Refused
from rackside.sync import shapes
from rackside.sync.fields import ADDED_BY_SERVER, CASE_PART, HEAD, OWN, PARTS, WORDS, Fields
from rackside.sync.plain import is_id, is_plain_head, is_plain_time

SHA256 = re.compile(r"[0-9a-f]{64}")
CURRENCY = re.compile(r"[A-Z]{3}")
LARGEST = 2**53
Fault = dict[str, str]


def head_faults(entry: dict[str, Any]) -> list[Fault]:
    """Return the faults of an entry's own members, its body left aside."""
    return [] if is_plain_head(entry) else every_head_fault(entry)


def every_head_fault(entry: dict[str, Any]) -> list[Fault]:
    """Return the same by the forms alone."""
    faults = _fields_faults(entry, HEAD, "", ADDED_BY_SERVER)
    if "call" not in entry:
        faults.append({"pointer": "/call", "detail": "Missing: the id of a call, or null."})
    return faults


def body_faults(kind: str, body: dict[str, Any]) -> list[Fault]:
    """Return the faults of a whole body: of a first entry, or of what a correction makes of it."""
    shape = shapes.shape_of(body) if kind == "reading" else None
    if shape is not None and shapes.known(shape):
        return []
    faults = _all_faults(kind, body)
    if shape is not None and not faults:
        shapes.remember(shape)
    return faults


def _all_faults(kind: str, body: dict[str, Any]) -> list[Fault]:
    part = _part_of(kind)
    faults = _fields_faults(body, OWN[kind], "/body", part | {"extra"})
    if part:
        rest = {name: value for name, value in body.items() if name in part}
        faults += [
            {"pointer": "/body" + fault["pointer"], "detail": fault["detail"]} for fault in _case_faults(kind, rest)
        ]
    return faults


def refusal(faults: list[Fault]) -> Refused:
    """Return the refusal that tells these faults, one by one."""
    told = "; ".join(
        f"{fault['pointer']}: {fault['detail']}" if fault["pointer"] else fault["detail"] for fault in faults
    )
    return Refused("invalid_body", told, errors=faults)


@cache
def _part_of(kind: str) -> frozenset[str]:
    return frozenset(name for name, _ in CASE_PART.get(kind, ()))


@cache
def _rules(fields: Fields) -> tuple[dict[str, str], tuple[str, ...]]:
    """Return the form of each member, and which members must be there."""
    forms = {name: form.rstrip("!") for name, form in fields}
    return forms, tuple(name for name, form in fields if form.endswith("!"))


def _fields_faults(owner: dict[str, Any], fields: Fields, pointer: str, also: Collection[str]) -> list[Fault]:
    forms, required = _rules(fields)
    faults = []
    for name, value in owner.items():
        form = forms.get(name)
        if form is None:
            if name not in also:
                listed = ", ".join([*forms, *sorted(also)])
                told = f"Unknown member. Known here: {listed}."
                faults.append({"pointer": f"{pointer}/{_escaped(name)}", "detail": told})
        elif value is None:
            continue
        elif form in PARTS:
            faults += _part_faults(value, PARTS[form], f"{pointer}/{name}")
        elif problem := _problem(value, form):
            faults.append({"pointer": f"{pointer}/{name}", "detail": problem})
    for name in required:
        if owner.get(name) is None:
            faults.append({"pointer": f"{pointer}/{name}", "detail": "Missing."})
    return faults


def _part_faults(value: Any, fields: Fields, pointer: str) -> list[Fault]:
    if not isinstance(value, dict):
        return [{"pointer": pointer, "detail": "Must be a JSON object."}]
    return _fields_faults(value, fields, pointer, ("extra",))


def _escaped(name: str) -> str:
    return name.replace("~", "~0").replace("/", "~1")


def _problem(value: Any, form: str) -> str:
    if form == "time" and is_plain_time(value):
        return ""
    if form in _FORMS:
        good, told = _FORMS[form]
        return "" if good(value) else told
    if form in WORDS:
        return "" if value in WORDS[form] else "Must be one of: " + ", ".join(WORDS[form]) + "."
    return field_problem(value, form)


def _is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value < LARGEST


def _is_zone(value: Any) -> bool:
    if not isinstance(value, str):
        return False
    try:
        ZoneInfo(value)
    except Exception:
        return False
    return True


def _matches(pattern: re.Pattern[str]) -> Any:
    return lambda value: isinstance(value, str) and pattern.fullmatch(value) is not None


_FORMS: dict[str, tuple[Any, str]] = {
    "id": (is_id, "Must be a UUID."),
    "ids": (lambda value: isinstance(value, list) and all(map(is_id, value)), "Must be a list of UUIDs."),
    "sha256": (_matches(SHA256), "Must be a SHA-256 as 64 lower-case hexadecimal digits."),
    "currency": (_matches(CURRENCY), "Must be a currency code of three letters, like USD."),
    "whole": (_is_whole, "Must be a whole number, 0 or more."),
    "zone": (_is_zone, "Must be a time zone name, like America/Chicago."),
}


def _case_faults(kind: str, part: dict[str, Any]) -> list[Fault]:
    """Ask the engine about a body that is a part of a case."""
    faults = Faults()
    if kind == "reading":
        case.reading_faults(part, "", faults)
        return faults.found
    around: dict[str, Any] = {"machine": {}, "rounds": []}
    if kind == "machine":
        around["machine"], start = part, "/machine"
    elif kind == "meter":
        around["meters"], start = {"meter": part}, "/meters/meter"
    else:
        around[kind + "s"], start = [part], f"/{kind}s/0"
    return [fault | {"pointer": fault["pointer"].removeprefix(start)} for fault in case.faults_of(around)]
