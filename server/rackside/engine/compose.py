"""Make the case out of the entries of one call, its machine, site and meters.

Written once for phone and server: which correction counts, what a retraction removes, which of two versions is judged.
"""

from . import moment
from .case_fields import MACHINE
from .kinds import Any, Json
from .settle import Thing, things_of

_MACHINE_KEYS = [name for name, _ in MACHINE]


def composed(told: Json) -> Json:
    """Return the case of {"call", "entries", "history"}; the order of the entries does not matter."""
    things = things_of(told.get("entries") or [])
    call = _call(things, told.get("call"))
    body = call.body if call else {}
    machine = _by_id(things, body.get("machine"))
    case: Json = {
        "machine": _machine(machine, things),
        "rounds": _rounds(things),
        "meters": _meters(things),
        "signs": _signs(things),
        "events": [_dated(thing) for thing in _of_kind(things, "event")],
        "neighbours": _neighbours(things),
        "actions": [_named(thing) for thing in _of_kind(things, "action")],
        "overrides": [_override(thing) for thing in _of_kind(things, "override")],
        "photos": [_photo(thing) for thing in _of_kind(things, "photo")],
        "decision": _decision(things),
    }
    if body.get("complaint"):
        case["complaint"] = body["complaint"]
    if told.get("history"):
        case["history"] = told["history"]
    if told.get("at"):
        case["at"] = told["at"]
    return case


def _of_kind(things: "list[Thing]", kind: str) -> "list[Thing]":
    """Return the things of a kind in the order they were made; the counter and the id settle equal times."""
    found = [thing for thing in things if thing.kind == kind]
    return sorted(found, key=lambda thing: (moment.seconds(thing.made_at) or 0.0, thing.order, thing.id))


def _by_id(things: "list[Thing]", wanted: Any) -> "Thing | None":
    for thing in things:
        if thing.id == wanted:
            return thing
    return None


def _call(things: "list[Thing]", wanted: Any) -> "Thing | None":
    calls = _of_kind(things, "call")
    for call in calls:
        if call.id == wanted:
            return call
    return calls[0] if calls else None


def _machine(machine: "Thing | None", things: "list[Thing]") -> Json:
    if machine is None:
        return {}
    told = {key: machine.body[key] for key in _MACHINE_KEYS if key in machine.body}
    site = _by_id(things, machine.body.get("site"))
    if site is None:
        return told
    if "supply" not in told and site.body.get("supply"):
        told["supply"] = site.body["supply"]
    altitude = site.body.get("altitude")
    if "site_altitude" not in told and isinstance(altitude, dict) and altitude.get("value") is not None:
        told["site_altitude"] = altitude["value"]
        told["site_altitude_unit"] = altitude.get("unit") or "ft"
    return told


def _meters(things: "list[Thing]") -> Json:
    keys = ("kind", "name", "serial", "calibrated", "resolution", "points")
    return {
        meter.id: {key: meter.body[key] for key in keys if meter.body.get(key) is not None}
        for meter in _of_kind(things, "meter")
    }


def _rounds(things: "list[Thing]") -> "list[Json]":
    """Return the rounds with their readings; a reading whose round is not here stands in one of its own."""
    rounds = []
    by_id: "dict[str, list[Json]]" = {}
    for thing in _of_kind(things, "round"):
        readings: "list[Json]" = []
        by_id[thing.id] = readings
        label = thing.body.get("label") or "interim"
        rounds.append(
            {"id": thing.id, "label": label, "at": thing.body.get("at") or thing.made_at, "readings": readings}
        )
    for thing in _of_kind(things, "reading"):
        if thing.body.get("neighbour"):
            continue
        round_id = str(thing.body.get("round") or "")
        if round_id not in by_id:
            by_id[round_id] = []
            rounds.append({"id": round_id, "label": "interim", "at": thing.made_at, "readings": by_id[round_id]})
        by_id[round_id].append(_reading(thing))
    return rounds


def _reading(thing: Thing) -> Json:
    reading = {key: thing.body[key] for key in thing.body if key not in ("round", "neighbour")}
    reading["id"] = thing.id
    if not reading.get("at"):
        reading["at"] = thing.made_at
    if not reading.get("by") and thing.author:
        reading["by"] = thing.author
    if thing.clashes:
        extra = reading.get("extra")
        reading["extra"] = dict(extra) if isinstance(extra, dict) else {}
        reading["extra"]["two_versions"] = thing.clashes
    return reading


def _neighbours(things: "list[Thing]") -> "list[Json]":
    found: "list[Json]" = []
    for thing in _of_kind(things, "reading"):
        neighbour = thing.body.get("neighbour")
        if not isinstance(neighbour, dict):
            continue
        same = [other for other in found if other.get("tag") == neighbour.get("tag")]
        if same:
            other = same[0]
        else:
            other = dict(neighbour)
            other["readings"] = []
            found.append(other)
        other["readings"].append(_reading(thing))
    return found


def _signs(things: "list[Thing]") -> "list[Json]":
    latest: "dict[str, Json]" = {}
    for thing in _of_kind(things, "sign"):
        latest[str(thing.body.get("sign"))] = dict(thing.body)
    return [latest[name] for name in sorted(latest)]


def _dated(thing: Thing) -> Json:
    told = dict(thing.body)
    if not told.get("at"):
        told["at"] = thing.made_at
    return told


def _named(thing: Thing) -> Json:
    told = _dated(thing)
    told["id"] = thing.id
    if not told.get("by") and thing.author:
        told["by"] = thing.author
    return told


def _override(thing: Thing) -> Json:
    told = _dated(thing)
    told["by"] = thing.author or "unknown"
    return told


def _photo(thing: Thing) -> Json:
    told: Json = {
        "id": thing.id,
        "shows": thing.body.get("shows") or "other",
        "at": thing.body.get("taken_at") or thing.made_at,
    }
    if thing.body.get("of"):
        told["of"] = thing.body["of"]
    return told


def _decision(things: "list[Thing]") -> "Json | None":
    decisions = _of_kind(things, "decision")
    if not decisions:
        return None
    told = _dated(decisions[-1])
    told["by"] = decisions[-1].author or "unknown"
    return told
