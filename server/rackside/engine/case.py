"""Check the form of a case: every fault is listed with its JSON pointer, nothing is guessed.

A wrong key, word or shape is a fault. A reading that is missing, unreadable or impossible is not: it becomes a finding.
"""

from . import moment, units, vocabulary
from .case_fields import (
    ACTION,
    CASE_KEYS,
    CHAIN_CONTACT,
    DECISION,
    EVENT,
    HISTORY,
    MACHINE,
    MACHINE_PARTS,
    METER,
    METER_POINT,
    NEIGHBOUR,
    OVERRIDE,
    PHOTO,
    READING,
    ROUND,
    SIGN,
)
from .kinds import Any, Json
from .number import read_number
from .points import known_point

# No plate or setting lies beyond these, in any unit of the contract.
LARGEST = 1.0e12
SMALLEST = 1.0e-9


class Faults:
    """The list of what is wrong with a case."""

    def __init__(self) -> None:
        self.found: "list[Json]" = []

    def add(self, pointer: str, detail: str) -> None:
        self.found.append({"pointer": pointer, "detail": detail})


def faults_of(case: Any) -> "list[Json]":
    """Return every fault of a parsed case as {"pointer", "detail"}; an empty list means it can be judged."""
    faults = Faults()
    if not isinstance(case, dict):
        faults.add("", 'The case must be a JSON object with at least "machine" and "rounds".')
        return faults.found
    _keys(case, "", CASE_KEYS, faults)
    for needed in ("machine", "rounds"):
        if case.get(needed) is None:
            faults.add("/" + needed, 'Missing: a case needs "' + needed + '".')
    _machine(case.get("machine"), faults)
    _meters(case.get("meters"), faults)
    for index, round_ in _items(case, "rounds", "", faults):
        _fields(round_, "/rounds/" + str(index), ROUND, faults)
        _readings(round_, "/rounds/" + str(index), faults)
    for index, past in _items(case, "history", "", faults):
        _fields(past, "/history/" + str(index), HISTORY, faults)
        _readings(past, "/history/" + str(index), faults)
    for index, other in _items(case, "neighbours", "", faults):
        _fields(other, "/neighbours/" + str(index), NEIGHBOUR, faults)
        _readings(other, "/neighbours/" + str(index), faults)
    _plain_lists(case, faults)
    return faults.found


def _plain_lists(case: Json, faults: Faults) -> None:
    lists = (
        ("signs", SIGN),
        ("events", EVENT),
        ("actions", ACTION),
        ("overrides", OVERRIDE),
        ("photos", PHOTO),
    )
    for name, fields in lists:
        for index, item in _items(case, name, "", faults):
            _fields(item, "/" + name + "/" + str(index), fields, faults)
    if case.get("decision") is not None:
        _fields(case["decision"], "/decision", DECISION, faults)


def _items(owner: Any, name: str, pointer: str, faults: Faults) -> "list[tuple[int, Any]]":
    if not isinstance(owner, dict) or owner.get(name) is None:
        return []
    listed = owner[name]
    if not isinstance(listed, list):
        faults.add(pointer + "/" + name, "Must be a list.")
        return []
    return [(index, listed[index]) for index in range(len(listed))]


def _escaped(key: Any) -> str:
    return str(key).replace("~", "~0").replace("/", "~1")


def _keys(owner: Json, pointer: str, allowed: "tuple[tuple[str, str], ...]", faults: Faults) -> None:
    known = [name for name, _ in allowed]
    for key in sorted(owner):
        if key not in known and key != "extra":
            faults.add(
                pointer + "/" + _escaped(key),
                'Unknown key. Check the spelling, or put it under "extra". Known here: ' + ", ".join(known) + ".",
            )


def _fields(owner: Any, pointer: str, fields: "tuple[tuple[str, str], ...]", faults: Faults) -> None:
    if not isinstance(owner, dict):
        faults.add(pointer, "Must be a JSON object.")
        return
    _keys(owner, pointer, fields, faults)
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


def _machine(machine: Any, faults: Faults) -> None:
    if machine is None:
        return
    _fields(machine, "/machine", MACHINE, faults)
    if not isinstance(machine, dict):
        return
    for name, fields in MACHINE_PARTS:
        if isinstance(machine.get(name), dict):
            _fields(machine[name], "/machine/" + name, fields, faults)
    _rated_voltage(machine.get("rated_voltage"), faults)
    _ratings(machine.get("ratings"), faults)
    _own_limits(machine.get("limits"), faults)


def _rated_voltage(value: Any, faults: Faults) -> None:
    if value is None:
        return
    pair = value if isinstance(value, list) else [value]
    for one in pair:
        if field_problem(one, "positive") or len(pair) > 2:
            faults.add("/machine/rated_voltage", "Must be a number above 0, or a pair of them like [208, 230].")
            return


def _ratings(ratings: Any, faults: Faults) -> None:
    if not isinstance(ratings, dict):
        return
    for name in ("power", "current", "mass_flow", "capacity"):
        terms = ratings.get(name)
        if terms is None:
            continue
        good = isinstance(terms, list) and len(terms) == 10
        if not good or [term for term in terms if field_problem(term, "number")]:
            faults.add("/machine/ratings/" + name, "Must be a list of ten numbers, C1 to C10.")
    unit = ratings.get("temperature_unit")
    if isinstance(unit, str) and units.known(unit) and units.dimension(unit) != "temperature":
        faults.add("/machine/ratings/temperature_unit", "Must be F, C or K.")
    _envelope(ratings.get("envelope"), faults)


def _envelope(envelope: Any, faults: Faults) -> None:
    if not isinstance(envelope, dict):
        return
    pointer = "/machine/ratings/envelope"
    _keys(envelope, pointer, (("suction", "any"), ("discharge", "any")), faults)
    for side in ("suction", "discharge"):
        ends = envelope.get(side)
        good = isinstance(ends, list) and len(ends) == 2
        if ends is not None and (not good or [end for end in ends if field_problem(end, "number")]):
            told = "Must be the lowest and highest dew temperature, like [-40, 0], in the map's own unit."
            faults.add(pointer + "/" + side, told)


def _own_limits(limits: Any, faults: Faults) -> None:
    if not isinstance(limits, dict):
        return
    for check in sorted(limits):
        pointer = "/machine/limits/" + _escaped(check)
        own = limits[check]
        _fields(own, pointer, (("unit", "unit!"), ("watch", "object"), ("fail", "object"), ("source", "text!")), faults)
        if not isinstance(own, dict):
            continue
        for verdict in ("watch", "fail"):
            if isinstance(own.get(verdict), dict):
                _fields(own[verdict], pointer + "/" + verdict, (("above", "number"), ("below", "number")), faults)


def _meters(meters: Any, faults: Faults) -> None:
    if meters is None:
        return
    if not isinstance(meters, dict):
        faults.add("/meters", "Must be an object: a meter by its name.")
        return
    for name in sorted(meters):
        pointer = "/meters/" + _escaped(name)
        _fields(meters[name], pointer, METER, faults)
        points = meters[name].get("points") if isinstance(meters[name], dict) else None
        if not isinstance(points, dict):
            continue
        for point in sorted(points):
            if known_point(point) is None:
                faults.add(pointer + "/points/" + _escaped(point), "Unknown point. See GET /api/v1/vocabulary.")
            _fields(points[point], pointer + "/points/" + _escaped(point), METER_POINT, faults)


def _readings(owner: Any, pointer: str, faults: Faults) -> None:
    for index, reading in _items(owner, "readings", pointer, faults):
        reading_faults(reading, pointer + "/readings/" + str(index), faults)


def reading_faults(reading: Any, pointer: str, faults: Faults) -> None:
    """List the faults in the form of one reading."""
    _fields(reading, pointer, READING, faults)
    if not isinstance(reading, dict):
        return
    point = known_point(reading.get("point"))
    if point is None:
        faults.add(pointer + "/point", "Unknown point. See GET /api/v1/vocabulary for the points there are.")
        return
    legs = reading.get("legs")
    if isinstance(legs, dict):
        keys = point.keys
        for leg in sorted(legs):
            if leg not in keys:
                told = "This point has no such leg. It has: " + (", ".join(keys) or 'none, give "value"') + "."
                faults.add(pointer + "/legs/" + _escaped(leg), told)
            elif not _plain(legs[leg]):
                faults.add(pointer + "/legs/" + _escaped(leg), "Must be text as read, or a number.")
    for name in ("value", "known_source_before", "known_source_after"):
        if not _plain(reading.get(name)):
            faults.add(pointer + "/" + name, "Must be text as read, or a number.")
    for index, contact in _items(reading, "contacts", pointer, faults):
        _fields(contact, pointer + "/contacts/" + str(index), CHAIN_CONTACT, faults)


def _plain(value: Any) -> bool:
    # true is a whole number to one runtime and none to the other: it is none here.
    return value is None or (isinstance(value, (str, int, float)) and not isinstance(value, bool))
