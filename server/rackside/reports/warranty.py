"""The office and warranty file of a call: all that was read, judged and done, each with where it came from. Pure."""

from typing import Any

from rackside.reports import causes, findings, happenings, readings
from rackside.reports.plate import plate_lines
from rackside.reports.text import VERDICT_WORDS, name, number, source_words

Json = dict[str, Any]


class Sources:
    """The sources that limits cite, numbered in the order they are first cited."""

    def __init__(self) -> None:
        self.cited: dict[str, int] = {}

    def number(self, words: str) -> int | None:
        return self.cited.setdefault(words, len(self.cited) + 1) if words else None


def warranty_values(sheet: Json) -> Json:
    """Return what the template of the warranty file needs beside the sheet."""
    case, result, sources = sheet["case"], sheet["result"], Sources()
    places = places_of(case)
    present, absent = happenings.signs(case)
    decided = (case.get("decision") or {}).get("cause")
    return {
        "heading": f"{sheet['named']}: office and warranty file",
        "decision": case.get("decision"),
        "cause": name("cause", decided),
        "repair": [action for action in happenings.actions(case) if action.get("id") == _repair(case)],
        "plate": plate_lines({**case["machine"], **sheet["call"]["machine"]}),
        "events": happenings.events(case),
        "present": present,
        "absent": absent,
        "rounds": [_round(round_, case["meters"], places) for round_ in case["rounds"]],
        "neighbours": [_neighbour(one, case["meters"], places) for one in case.get("neighbours") or []],
        "verdicts": [_verdicts(round_, places, sources) for round_ in result["rounds"]],
        "sources": sources.cited,
        "causes": causes.shown(result, decided),
        "ruled_out": causes.ruled_out(result, decided),
        "gates": [_gate(gate, stands, places) for gate, stands in (result.get("gates") or {}).items()],
        "actions": happenings.actions(case),
        "meters": [_meter(meter) for meter in case["meters"].values()],
        "changes": changes_of(sheet["call"]["entries"]),
        "places": places,
    }


def places_of(case: Json) -> dict[str, int]:
    """Return the number by which the file names each reading, neighbours' last."""
    groups = [*case["rounds"], *(case.get("neighbours") or [])]
    ids = [str(reading.get("id")) for group in groups for reading in group["readings"]]
    return {id_: place for place, id_ in enumerate(ids, 1)}


def changes_of(entries: list[Json]) -> list[Json]:
    """Return the corrections and retractions of a call's log: when, by whom, of what, and what it says now.

    The phone's marks ride on the call as corrections of its `extra`; they are told as marks, not as changes.
    """
    by_id = {entry["id"]: entry for entry in entries}
    changed = [entry for entry in entries if (entry["base"] and _told_members(entry)) or entry["kind"] == "retraction"]
    return [{"at": entry["made_at"], "by": entry["author"], **_change(entry, by_id)} for entry in changed]


def _change(entry: Json, by_id: dict[str, Json]) -> Json:
    if entry["kind"] == "retraction":
        told = f"taken back: {entry['body'].get('why') or 'no reason given'}"
        return {"of": _named(by_id.get(entry["body"]["of"])), "says": told}
    told = "; ".join(
        f"{member.replace('_', ' ')}: {_brief(_held(member, entry, by_id))} → {_brief(entry['body'][member])}"
        for member in _told_members(entry)
    )
    return {"of": _named(entry if entry["body"].get("point") else by_id.get(entry["base"][0])), "says": told}


def _told_members(entry: Json) -> list[str]:
    return [member for member in entry["body"] if (entry["kind"], member) != ("call", "extra")]


def _held(member: str, entry: Json, by_id: dict[str, Json]) -> Any:
    """Return what a thing said before a correction: the nearest entry under it that gives the member."""
    seen = set()
    while entry["base"] and entry["base"][0] in by_id and entry["base"][0] not in seen:
        seen.add(entry["base"][0])
        entry = by_id[entry["base"][0]]
        if member in entry["body"]:
            return entry["body"][member]
    return None


def _named(entry: Json | None) -> str:
    """Return what an entry is about; one of another call is named by its kind alone."""
    if entry is None:
        return "an entry"
    return name("point", entry["body"].get("point")) or entry["kind"].replace("_", " ")


def _brief(value: Any) -> str:
    if isinstance(value, dict):
        return " / ".join(_brief(one) for one in value.values())
    return "nothing" if value is None else str(value)


def _repair(case: Json) -> str | None:
    return (case.get("decision") or {}).get("repair")


def _round(round_: Json, meters: Json, places: dict[str, int]) -> Json:
    read = _read(round_, meters, places)
    return {"title": name("label", round_["label"]), "at": round_.get("at"), "readings": read, "by": _one_of(read)}


def _neighbour(group: Json, meters: Json, places: dict[str, int]) -> Json:
    like = "likeness not stated" if group.get("like") is None else ("alike" if group["like"] else "not alike")
    read = _read(group, meters, places)
    return {"tag": group.get("tag") or "a neighbour", "like": like, "readings": read, "by": _one_of(read)}


def _one_of(read: list[Json]) -> str | None:
    """Return who took all of these readings, None where several people did."""
    people = {one["by"] for one in read}
    return people.pop() if len(people) == 1 else None


def _read(group: Json, meters: Json, places: dict[str, int]) -> list[Json]:
    return [
        readings.reading_words(reading, meters) | {"place": places[str(reading.get("id"))]}
        for reading in group["readings"]
    ]


def _verdicts(round_: Json, places: dict[str, int], sources: Sources) -> Json:
    """Return a round's findings, each limit with the number of its source and each finding with its readings'."""
    told = []
    for finding in round_["findings"]:
        one = findings.shown(finding)
        read = [places[id_] for id_ in finding.get("readings") or [] if id_ in places]
        told.append({**one, "brief": _brief_limits(finding.get("limits") or [], sources), "places": read})
    return {"title": name("label", round_["label"]), "at": round_.get("at"), "findings": told}


def _brief_limits(limits: list[Json], sources: Sources) -> list[Json]:
    """Return the limits with both sides of one verdict on one line: `fail below 12 or above 60 psi [3]`."""
    alike: dict[tuple[str, str, str], list[Json]] = {}
    for limit in limits:
        alike.setdefault((limit["verdict"], limit.get("unit") or "", limit.get("when") or ""), []).append(limit)
    return [_brief_limit(key, told, sources) for key, told in alike.items()]


def _brief_limit(key: tuple[str, str, str], told: list[Json], sources: Sources) -> Json:
    verdict, unit, when = key
    sides = [f"{side} {number(one[side])}" for side in ("below", "above") for one in told if one.get(side) is not None]
    words = f"{VERDICT_WORDS[verdict]} {' or '.join(sides)} {name('unit', unit)}".rstrip()
    cited = [sources.number(source_words(one.get("source") or {})) for one in told]
    return {
        "words": f"{words} ({when})" if when else words,
        "cited": list(dict.fromkeys(place for place in cited if place)),
    }


def _gate(gate: str, stands: Json, places: dict[str, int]) -> Json:
    met = [{"text": need["text"], "by": _met_by(need["met_by"], places)} for need in stands.get("met") or []]
    passed = happenings.passed({"gates": {gate: stands}})
    return {
        "title": name("gate", gate),
        "open": stands["open"],
        "met": met,
        "unmet": stands.get("unmet") or [],
        "blocks": stands.get("blocks") or [],
        "passed": passed,
        "warnings": stands.get("warnings") or [],
        "for_cause": name("cause", stands.get("for_cause")),
    }


def _met_by(by: str, places: dict[str, int]) -> str:
    """Return what met a need, in words."""
    if by in places:
        return f"reading {places[by]}"
    kind, _, what = by.partition(":")
    if kind in ("sign", "event"):
        return name("sign" if kind == "sign" else "device", what)
    return {"photo": "a photo", "action": "an action", "log": "the log", "decision": "the decision"}.get(kind, by)


def _meter(meter: Json) -> Json:
    """Return a meter with what is known of its accuracy by point."""
    exact = []
    for point, known in (meter.get("points") or {}).items():
        parts = [
            f"±{number(known['percent'])} %" if known.get("percent") is not None else "",
            f"±{number(known['counts'])} counts" if known.get("counts") is not None else "",
            f"resolution {number(known['resolution'])}" if known.get("resolution") is not None else "",
        ]
        exact.append(f"{name('point', point)} {', '.join(part for part in parts if part)}")
    return {**meter, "exact": "; ".join(exact)}
