"""The next technician's page: how the machine was left, what is doubtful, and what need not be measured again. Pure."""

from typing import Any

from rackside.reports import causes, findings, happenings, readings
from rackside.reports.text import name, number

Json = dict[str, Any]
# What a number leans on: stands beside the numbers of its round.
AROUND = ("suction_pressure", "discharge_pressure", "line_voltage", "ambient_temperature", "outdoor_temperature")
SETTINGS = ("setting_changed", "jumper_on", "jumper_off", "lead_lifted", "lead_restored", "leads_rolled")
WORK = ("part_fitted", "cleaned", "oil_added", "charge_added", "reset")
MOST = 14
# Free text is cut after so many characters; what it is stands in front.
LONGEST = 360


def next_values(sheet: Json, most: int = MOST) -> Json:
    """Return what the page shows; no list has more than `most` lines, and the page says how many it leaves out."""
    case, result = sheet["case"], sheet["result"]
    decided = (case.get("decision") or {}).get("cause")
    lists = {
        "valves": happenings.valves(case),
        "settings": happenings.actions(case, *SETTINGS),
        "work": happenings.actions(case, *WORK),
        "good": _good(result, case),
        "doubts": _doubts(result, case),
        "ruled_out": _by_fact(causes.ruled_out(result, decided)),
        "passed": happenings.passed(result),
        "open_items": result.get("open_items") or [],
    }
    cut = sum(len(told) - most for told in lists.values() if len(told) > most)
    kept = {title: [_brief(one) for one in told[:most]] for title, told in lists.items()}
    return {
        "heading": f"{sheet['named']}: for the next technician",
        "decision": case.get("decision"),
        "cause": name("cause", decided),
        "reason": brief((case.get("decision") or {}).get("reason")),
        "valve_note": brief(_valve_note(case)),
        "around": [_around(round_, case) for round_ in case["rounds"] if round_["label"] == "as_left"][-1:],
        "cut": cut,
        **kept,
    }


def brief(words: Any) -> Any:
    """Return text no longer than the page can bear; anything else as it is."""
    return words[: LONGEST - 1] + "…" if isinstance(words, str) and len(words) > LONGEST else words


def _brief(one: Json) -> Json:
    return {member: brief(value) for member, value in one.items()}


def _by_fact(ruled_out: list[Json]) -> list[Json]:
    """Return each first fact against causes with the causes it speaks against."""
    facts: dict[str, list[str]] = {}
    for one in ruled_out:
        facts.setdefault(one["against"][0]["text"], []).append(one["title"])
    return [{"causes": titles, "text": fact} for fact, titles in facts.items()]


def _valve_note(case: Json) -> str | None:
    """Return what was written where the valves were stated; None when nobody stated them."""
    stated = [sign for sign in case.get("signs") or [] if sign["sign"] == "valves_stated" and sign.get("present")]
    return str(stated[-1].get("note") or "") if stated else None


def _good(result: Json, case: Json) -> list[Json]:
    """Return the last number of each check that passed, with the conditions of its readings; the most telling first."""
    taken = {reading["id"]: reading for round_ in case["rounds"] for reading in round_["readings"] if "id" in reading}
    last: dict[str, Json] = {}
    for round_ in result["rounds"]:
        for finding in findings.carried(round_):
            last[finding["check"]] = {**finding, "round_label": round_["label"], "taken_at": round_.get("at")}
    good = [one for one in last.values() if one["verdict"] == "pass" and one.get("value") is not None]
    good.sort(key=lambda one: (findings.telling(one["check"]), one["check"]))
    return [findings.shown(one) | {"conditions": _conditions(one, taken), "by_leg": _by_leg(one)} for one in good]


def _by_leg(finding: Json) -> str:
    """Return the legs' values with their unit once: `29.3 / 29.6 / 29.1 A`."""
    legs = finding.get("legs") or []
    units = {leg.get("unit") for leg in legs}
    told = " / ".join(number(leg.get("value")) for leg in legs)
    return f"{told} {name('unit', units.pop())}" if len(units) == 1 and told else told


def _conditions(finding: Json, taken: dict[str, Json]) -> str:
    used = [taken[id_] for id_ in finding.get("readings") or [] if id_ in taken]
    states = [name("state", reading.get("state")) for reading in used if reading.get("state")]
    return ", ".join(dict.fromkeys([*states, *(told for reading in used for told in readings.conditions(reading))]))


def _around(round_: Json, case: Json) -> Json:
    """Return the pressures, volts and temperatures beside which a round's numbers hold."""
    last = {reading["point"]: reading for reading in round_["readings"] if not reading.get("not_taken")}
    told = [f"{name('point', point)} {readings.values(last[point])}" for point in AROUND if point in last]
    return {"label": round_["label"], "at": round_.get("at"), "told": told}


def _doubts(result: Json, case: Json) -> list[Json]:
    """Return what the visit leaves undecided: verdicts, readings left out or told twice, open needs."""
    compared, _ = findings.measured(findings.pairs(result))
    doubts = [
        {"title": one["title"], "verdict": one["verdict"], "text": one["because"]}
        for one in findings.last_not_passed(compared)
    ]
    for round_ in case["rounds"]:
        doubts += [_left_out(reading) for reading in round_["readings"] if reading.get("not_taken")]
        doubts += [
            _twice(reading) for reading in round_["readings"] if (reading.get("extra") or {}).get("two_versions")
        ]
    contradicted = (result.get("weighing") or {}).get("contradictions") or []
    doubts += [{"title": "Contradiction", "verdict": None, "text": _text(one)} for one in contradicted]
    service = (result.get("gates") or {}).get("return_to_service") or {}
    told = [one["text"] for one in [*(service.get("blocks") or []), *(service.get("unmet") or [])]]
    return doubts + ([{"title": "Before leaving it running", "verdict": None, "text": " ".join(told)}] if told else [])


def _text(told: Any) -> str:
    return str(told["text"]) if isinstance(told, dict) else str(told)


def _left_out(reading: Json) -> Json:
    text = f"not taken, because: {reading['not_taken']}"
    return {"title": name("point", reading["point"]), "verdict": None, "text": text}


def _twice(reading: Json) -> Json:
    members = ", ".join(reading["extra"]["two_versions"])
    text = f"two versions of {members} stand in the log; the earlier was judged"
    return {"title": name("point", reading["point"]), "verdict": None, "text": text}
