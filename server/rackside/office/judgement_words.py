"""How two judgements of one call differ, in words. Pure."""

from collections.abc import Iterable
from typing import Any

from rackside.reports.text import LABEL_WORDS, VERDICT_WORDS, name

Json = dict[str, Any]
MOST = 12
BEFORE_AND_NOW = ("before", "now")
PHONE_AND_HERE = ("on the phone", "here")


def differences(before: Json, after: Json, whose: tuple[str, str] = BEFORE_AND_NOW) -> list[str]:
    """Return what the later judgement says otherwise: verdicts by check and round, gates, the leading cause."""
    earlier, later = _verdicts(before), _verdicts(after)
    told = []
    for place in sorted({*earlier, *later}):
        old, new = earlier.get(place), later.get(place)
        if old != new:
            label, check = place
            where = f"{name('check', check)}, {LABEL_WORDS.get(label, label)}"
            told.append(f"{where}: {_word(old)} {whose[0]}, {_word(new)} {whose[1]}")
    return [*told[:MOST], *_more(told), *_gates(before, after, whose), *_leading(before, after, whose)]


def _verdicts(result: Json) -> dict[tuple[str, str], str]:
    """Return the carrying verdict of each check in each round; of rounds of one label the last."""
    rounds: Iterable[Json] = result.get("rounds") or []
    found: dict[tuple[str, str], str] = {}
    for round_ in rounds:
        for finding in round_.get("findings") or []:
            if finding.get("carries"):
                found[round_.get("label") or "", finding["check"]] = finding["verdict"]
    return found


def _word(verdict: str | None) -> str:
    return VERDICT_WORDS.get(verdict, verdict) if verdict else "not judged"


def _more(told: list[str]) -> list[str]:
    return [f"and {len(told) - MOST} more"] if len(told) > MOST else []


def _gates(before: Json, after: Json, whose: tuple[str, str]) -> list[str]:
    old, new = before.get("gates") or {}, after.get("gates") or {}
    return [
        f"{name('gate', gate)}: {_stands(old[gate])} {whose[0]}, {_stands(new[gate])} {whose[1]}"
        for gate in sorted({*old} & {*new})
        if bool(old[gate].get("open")) != bool(new[gate].get("open"))
    ]


def _stands(gate: Json) -> str:
    return "nothing missing" if gate.get("open") else "not yet"


def _leading(before: Json, after: Json, whose: tuple[str, str]) -> list[str]:
    old, new = ((one.get("causes") or [{}])[0].get("cause") for one in (before, after))
    if old == new or not old or not new:
        return []
    return [f"first among the causes: {name('cause', old)} {whose[0]}, {name('cause', new)} {whose[1]}"]


def history(judgements: list[Json]) -> list[Json]:
    """Return every judgement, the latest first, with what each says otherwise than the one before it.

    Each has `judged_at`, `digest`, `upto` and `result`.
    """
    lines = []
    for place, one in enumerate(judgements):
        before = judgements[place + 1] if place + 1 < len(judgements) else None
        line = {**one, "verdict": one["result"]["summary"]["verdict"], "engine": one["result"]["engine"]}
        lines.append(line | {"rules_changed": False, "entries_came": False, "changes": []} | _against(one, before))
    return lines


def _against(one: Json, before: Json | None) -> Json:
    if before is None:
        return {}
    return {
        "rules_changed": one["digest"] != before["digest"],
        "entries_came": one["upto"] != before["upto"],
        "changes": differences(before["result"], one["result"]),
    }
