"""Check the form of a case: every fault is listed with its JSON pointer, nothing is guessed.

A wrong key, word or shape is a fault. A reading that is missing, unreadable or impossible is not: it becomes a finding.
"""

from .case_faults import Faults, escaped, fields_faults, items_of
from .case_fields import (
    ACTION,
    CASE_KEYS,
    CHAIN_CONTACT,
    DECISION,
    EVENT,
    HISTORY,
    METER,
    METER_POINT,
    NEIGHBOUR,
    OVERRIDE,
    PHOTO,
    READING,
    ROUND,
    SIGN,
)
from .case_machine import machine_faults
from .kinds import Any, Json
from .points import known_point


def faults_of(case: Any) -> "list[Json]":
    """Return every fault of a parsed case as {"pointer", "detail"}; an empty list means it can be judged."""
    faults = Faults()
    if not isinstance(case, dict):
        faults.add("", 'The case must be a JSON object with at least "machine" and "rounds".')
        return faults.found
    fields_faults(case, "", CASE_KEYS, faults)
    for needed in ("machine", "rounds"):
        if case.get(needed) is None:
            faults.add("/" + needed, 'Missing: a case needs "' + needed + '".')
    machine_faults(case.get("machine"), faults)
    _meters(case.get("meters"), faults)
    for index, round_ in items_of(case, "rounds", "", faults):
        fields_faults(round_, "/rounds/" + str(index), ROUND, faults)
        _readings(round_, "/rounds/" + str(index), faults)
    for index, past in items_of(case, "history", "", faults):
        fields_faults(past, "/history/" + str(index), HISTORY, faults)
        _readings(past, "/history/" + str(index), faults)
    for index, other in items_of(case, "neighbours", "", faults):
        fields_faults(other, "/neighbours/" + str(index), NEIGHBOUR, faults)
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
        for index, item in items_of(case, name, "", faults):
            fields_faults(item, "/" + name + "/" + str(index), fields, faults)
    if case.get("decision") is not None:
        fields_faults(case["decision"], "/decision", DECISION, faults)


def _meters(meters: Any, faults: Faults) -> None:
    if meters is None:
        return
    if not isinstance(meters, dict):
        faults.add("/meters", "Must be an object: a meter by its name.")
        return
    for name in sorted(meters):
        pointer = "/meters/" + escaped(name)
        fields_faults(meters[name], pointer, METER, faults)
        points = meters[name].get("points") if isinstance(meters[name], dict) else None
        if not isinstance(points, dict):
            continue
        for point in sorted(points):
            if known_point(point) is None:
                faults.add(pointer + "/points/" + escaped(point), "Unknown point. See GET /api/v1/vocabulary.")
            fields_faults(points[point], pointer + "/points/" + escaped(point), METER_POINT, faults)


def _readings(owner: Any, pointer: str, faults: Faults) -> None:
    for index, reading in items_of(owner, "readings", pointer, faults):
        reading_faults(reading, pointer + "/readings/" + str(index), faults)


def reading_faults(reading: Any, pointer: str, faults: Faults) -> None:
    """List the faults in the form of one reading."""
    fields_faults(reading, pointer, READING, faults)
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
                faults.add(pointer + "/legs/" + escaped(leg), told)
            elif not _plain(legs[leg]):
                faults.add(pointer + "/legs/" + escaped(leg), "Must be text as read, or a number.")
    for name in ("value", "known_source_before", "known_source_after"):
        if not _plain(reading.get(name)):
            faults.add(pointer + "/" + name, "Must be text as read, or a number.")
    for index, contact in items_of(reading, "contacts", pointer, faults):
        fields_faults(contact, pointer + "/contacts/" + str(index), CHAIN_CONTACT, faults)


def _plain(value: Any) -> bool:
    # true is a whole number to one runtime and none to the other: it is none here.
    return value is None or (isinstance(value, (str, int, float)) and not isinstance(value, bool))
