"""The log of a call as lines to read: who, when, what, what it corrects and what was taken back. Pure."""

from typing import Any

from rackside.reports.job_marks import change_words
from rackside.reports.pictures import SUBJECTS
from rackside.reports.text import DECISION_WORDS, VERDICT_WORDS, name, number

Json = dict[str, Any]
KIND_WORDS = {
    "site": "Site",
    "machine": "Machine",
    "meter": "Meter",
    "call": "Call opened",
    "round": "Round begun",
    "reading": "Reading",
    "sign": "Seen",
    "event": "From the controller",
    "action": "Done",
    "photo": "Photo",
    "override": "Gate overruled",
    "decision": "Decision",
    "line": "Parts and labour",
    "signature": "Signature",
    "judgement": "Judged by the phone",
    "submission": "Sent for review",
    "review": "Review",
    "retraction": "Taken back",
}
PLAIN_CONDITIONS = {
    "leads": "leads {}",
    "winding_temperature": "winding at {}",
    "seconds": "after {} s",
    "test_voltage": "at {} V",
    "since_start": "{} s after the start",
    "roll": "roll {}",
    "moment": "{}",
    "where": "at the {}",
    "probe": "probe {}",
    "capture": "capture {}",
    "duration": "for {} s",
    "load": "load {}",
    "method": "method {}",
}


def lines_of(entries: list[Json], meters: dict[str, str]) -> list[Json]:
    """Return the lines of a call's entries in the server's order; `meters` gives a meter's name by its id."""
    taken_back = {entry["body"]["of"]: entry for entry in _standing_retractions(entries)}
    lines: list[Json] = []
    by_id: dict[str, Json] = {}
    marked: dict[str, Any] = {}
    for place, entry in enumerate(entries, 1):
        before = marked.get(entry["base"][0]) if entry["base"] else None
        marked[entry["id"]] = entry["body"].get("extra", before)
        line = {
            "place": place,
            "id": entry["id"],
            "cursor": entry["cursor"],
            "at": entry["made_at"],
            "received_at": entry["received_at"],
            "author": entry["author"],
            "kind": KIND_WORDS.get(entry["kind"], entry["kind"]),
            "words": words_of(entry, meters, before),
            "corrects": [by_id[base]["place"] for base in entry["base"] if base in by_id],
            "corrected_by": [],
            "why_gone": _why(taken_back.get(entry["id"])),
            "gone": entry["id"] in taken_back,
        }
        for base in entry["base"]:
            if base in by_id:
                by_id[base]["corrected_by"].append(place)
        by_id[entry["id"]] = line
        lines.append(line)
    return lines


def words_of(entry: Json, meters: dict[str, str], marked: Any = None) -> str:
    """Return what an entry says, in one line; `marked` is what a call had under `extra` before it."""
    body = entry["body"]
    if entry["base"]:
        told = [
            f"{_spaced(member)} {spoken(value)}" for member, value in sorted(body.items()) if not _marks(entry, member)
        ]
        told += [change_words(marked, body[member]) for member in body if _marks(entry, member)]
        return "now: " + "; ".join(told)
    maker = _WORDS.get(entry["kind"])
    if maker is None:
        return "; ".join(f"{_spaced(member)} {spoken(value)}" for member, value in sorted(body.items()))
    return maker(body, meters)


def _marks(entry: Json, member: str) -> bool:
    return entry["kind"] == "call" and member == "extra"


def _standing_retractions(entries: list[Json]) -> list[Json]:
    retractions = [entry for entry in entries if entry["kind"] == "retraction"]
    withdrawn = {entry["body"]["of"] for entry in retractions}
    return [entry for entry in retractions if entry["id"] not in withdrawn]


def _why(retraction: Json | None) -> str:
    return (retraction["body"].get("why") or "no reason given") if retraction else ""


def _spaced(word: str) -> str:
    return word.replace("_", " ")


def spoken(value: Any) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{key} {spoken(item)}" for key, item in value.items())
    if isinstance(value, list):
        return ", ".join(spoken(item) for item in value)
    return "cleared" if value is None else str(value)


def _reading(body: Json, meters: dict[str, str]) -> str:
    title = name("point", body["point"])
    if body.get("neighbour"):
        title = f"On {body['neighbour'].get('tag') or 'a neighbour'}: {title}"
    if body.get("not_taken"):
        return f"{title}: not taken, because {body['not_taken']}"
    as_read = (
        " / ".join(str(value) for value in body["legs"].values()) if body.get("legs") else str(body.get("value", ""))
    )
    parts = [f"{title} {number(as_read, body.get('unit'))}", name("state", body.get("state")), *_conditions(body)]
    meter = body.get("meter")
    if isinstance(meter, str):
        parts.append(f"read with {meters.get(meter, meter)}")
    return ", ".join(part for part in parts if part)


def _conditions(body: Json) -> list[str]:
    told = [form.format(body[key]) for key, form in PLAIN_CONDITIONS.items() if body.get(key) is not None]
    unit = body.get("winding_temperature_unit")
    return [f"{part} {name('unit', unit)}" if part.startswith("winding at") and unit else part for part in told]


def _call(body: Json, _meters: dict[str, str]) -> str:
    told = [name("complaint", body.get("complaint")), body.get("reported") or ""]
    if body.get("assigned_to"):
        told.append(f"for {body['assigned_to']}")
    return ". ".join(part.rstrip(".") for part in told if part)


def _sign(body: Json, _meters: dict[str, str]) -> str:
    note = f" ({body['note']})" if body.get("note") else ""
    return f"{name('sign', body['sign'])}: {'yes' if body.get('present', True) else 'no'}{note}"


def _event(body: Json, _meters: dict[str, str]) -> str:
    told = f"{name('device', body.get('device'))}: {_spaced(body.get('what') or '')}"
    printed = f", “{body['text']}”" if body.get("text") else ""
    return f"{told}{printed}, by {body.get('by') or 'unknown'}"


def _action(body: Json, _meters: dict[str, str]) -> str:
    change = (
        f": {body.get('before') or '–'} → {body.get('after') or '–'}" if body.get("before") or body.get("after") else ""
    )
    return f"{name('action', body['kind'])}, {body.get('what') or ''}{change}".rstrip(", ")


def _decision(body: Json, _meters: dict[str, str]) -> str:
    told = [DECISION_WORDS[body["decision"]], name("cause", body.get("cause")), body.get("reason") or ""]
    if body.get("watch_until"):
        told.append(f"Watch until {body['watch_until'][:10]}")
    return ". ".join(part.rstrip(".") for part in told if part)


def _photo(body: Json, _meters: dict[str, str]) -> str:
    subject = SUBJECTS.get(body["shows"], body["shows"]).capitalize()
    return f"{subject}: {body['caption']}" if body.get("caption") else subject


def _line(body: Json, _meters: dict[str, str]) -> str:
    price = f"{body.get('price') or '–'} {body.get('currency') or ''}".strip()
    return f"{body['kind']}: {body['what']}, {body.get('quantity') or 1} × {price}"


def _override(body: Json, _meters: dict[str, str]) -> str:
    return f"{name('gate', body['gate'])}: {_spaced(body['need'])} not met. {body['reason']}"


def _review(body: Json, _meters: dict[str, str]) -> str:
    outcome = {"accepted": "accepted", "returned": "sent back"}[body["outcome"]]
    return f"{outcome}: {body['note']}" if body.get("note") else outcome


def _judgement(body: Json, _meters: dict[str, str]) -> str:
    verdict = body["result"].get("summary", {}).get("verdict", "no verdict")
    told = VERDICT_WORDS.get(verdict, verdict)
    return f"{told}, by engine {body['engine'].get('version', '')} from {len(body['upto'])} entries"


_WORDS = {
    "reading": _reading,
    "call": _call,
    "round": lambda body, _meters: name("label", body["label"]),
    "sign": _sign,
    "event": _event,
    "action": _action,
    "override": _override,
    "decision": _decision,
    "line": _line,
    "judgement": _judgement,
    "photo": _photo,
    "submission": lambda body, _meters: body.get("note") or "",
    "review": _review,
    "retraction": lambda body, _meters: body.get("why") or "",
    "signature": lambda body, _meters: body["who"],
}
