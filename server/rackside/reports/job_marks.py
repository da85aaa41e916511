"""What the phone marks on the call itself, under its `extra`: what was done to make safe, and steps left out. Pure.

Anybody may write anything under `extra`; what has another form is left to the log.
"""

from typing import Any

Json = dict[str, Any]
DONE_WORDS = {
    "machine": "Plate looked at, it says the same",
    "staged": "Out of the controller's staging, alarms in test, customer told",
    "locked": "Its own disconnect open, locked and tagged",
    "tried": "Start tried: nothing moved",
    "waited": "Capacitors and drive bus waited for and measured",
}
SAFE = ("staged", "locked", "tried", "waited")
STEP_WORDS = {
    "alarm": "Alarm as found",
    "machine": "The machine",
    "look": "Look, listen, touch",
    "supply": "Supply",
    "control": "Control string and contactor",
    "make_safe": "Make safe",
    "isolated": "Tests locked out",
    "start": "One witnessed start",
    "running": "Running round",
    "oil": "Oil side",
    "heat": "Pressures and heat",
    "repair": "Repair and parts",
    "as_left": "As left beside as found",
    "gates": "Gates",
    "decision": "Decision and watch",
    "hand_over": "Hand over",
}


def marks_of(extra: Any) -> Json:
    """Return what was marked done, each with its time, the marks of making safe not made, and the steps left out."""
    done, skipped = _part(extra, "done"), _part(extra, "skipped")
    return {
        "done": [
            {"mark": mark, "words": DONE_WORDS.get(mark, _plain(mark)), "at": _text(at)} for mark, at in _ordered(done)
        ],
        "unmarked": [DONE_WORDS[mark] for mark in SAFE if mark not in done],
        "safe": any(mark in done for mark in SAFE),
        "left_out": [
            {"step": step, "words": STEP_WORDS.get(step, _plain(step))}
            | {part: _told(why, part) for part in ("reason", "at")}
            for step, why in skipped.items()
        ],
    }


def change_words(before: Any, after: Any) -> str:
    """Return in one line what a correction of `extra` marked, took back, left out or took up again."""
    was, now = _part(before, "done"), _part(after, "done")
    told = [f"marked done: {DONE_WORDS.get(mark, _plain(mark))}" for mark in now if mark not in was]
    told += [f"no longer marked done: {DONE_WORDS.get(mark, _plain(mark))}" for mark in was if mark not in now]
    was, now = _part(before, "skipped"), _part(after, "skipped")
    for step, why in now.items():
        if was.get(step) != why:
            told.append(f"left out: {STEP_WORDS.get(step, _plain(step))}, because {_told(why, 'reason') or 'not said'}")
    told += [f"taken up again: {STEP_WORDS.get(step, _plain(step))}" for step in was if step not in now]
    other = [member for member in _members(after) if _members(after)[member] != _members(before).get(member)]
    return (
        "; ".join([*told, *(f"noted beside it: {_plain(member)}" for member in other)]) or "nothing that is shown here"
    )


def _members(extra: Any) -> Json:
    known = extra if isinstance(extra, dict) else {}
    return {member: value for member, value in known.items() if member not in ("done", "skipped")}


def _part(extra: Any, member: str) -> Json:
    found = extra.get(member) if isinstance(extra, dict) else None
    return {mark: value for mark, value in found.items() if value} if isinstance(found, dict) else {}


def _ordered(done: Json) -> list[tuple[str, Any]]:
    known = list(DONE_WORDS)
    return sorted(done.items(), key=lambda pair: known.index(pair[0]) if pair[0] in known else len(known))


def _told(value: Any, member: str) -> str:
    return _text(value.get(member)) if isinstance(value, dict) else ""


def _text(value: Any) -> str:
    return value if isinstance(value, str) else ""


def _plain(word: str) -> str:
    return word.replace("_", " ")
