"""What opened, what was done and what was passed against advice, as lines to read. Pure."""

from typing import Any

from rackside.reports.text import name

Json = dict[str, Any]
HAPPENED = {"trip": "tripped", "alarm": "gave an alarm", "reset": "was reset", "start": "started", "stop": "stopped"}


def events(case: Json) -> list[Json]:
    """Return what the controller and people told, the oldest first: at, words, and what is known of it."""
    told = sorted(case.get("events") or [], key=lambda event: str(event.get("at") or ""))
    return [{"at": event.get("at"), "words": _event(event), "more": _known(event)} for event in told]


def _event(event: Json) -> str:
    words = f"{name('device', event['device'])} {HAPPENED.get(event['what'], event['what'])}"
    return f"{words} (“{event['text']}”)" if event.get("text") else words


def _known(event: Json) -> str:
    ran = event.get("motor_ran")
    parts = [
        f"by {event['by']}" if event.get("by") and event["by"] != "unknown" else "",
        "by whom is not known" if event["what"] == "reset" and event.get("by") in (None, "", "unknown") else "",
        "" if ran is None else ("the motor had been running" if ran else "the motor had not been running"),
        f"from: {event['source']}" if event.get("source") else "",
    ]
    return ", ".join(part for part in parts if part)


def actions(case: Json, *kinds: str) -> list[Json]:
    """Return what was done, the oldest first; only these kinds when any are named."""
    told = sorted(case.get("actions") or [], key=lambda action: str(action.get("at") or ""))
    return [
        {**action, "title": name("action", action["kind"])} for action in told if not kinds or action["kind"] in kinds
    ]


def valves(case: Json) -> list[Json]:
    """Return where each moved valve stands last."""
    last = {str(action.get("what") or ""): action for action in actions(case, "valve_moved")}
    return list(last.values())


def signs(case: Json) -> tuple[list[Json], list[Json]]:
    """Return what was seen, heard or read, and what was looked for and not there."""
    told = [{**sign, "title": name("sign", sign["sign"])} for sign in case.get("signs") or []]
    return [sign for sign in told if sign.get("present")], [sign for sign in told if not sign.get("present")]


def passed(result: Json) -> list[Json]:
    """Return every gate need a person passed, and every start made against a gate, as the engine says it."""
    return [
        {"gate": name("gate", gate), "text": one["text"], "at": one.get("at"), "against": kind == "started_against"}
        for gate, stands in (result.get("gates") or {}).items()
        for kind in ("overrides", "started_against")
        for one in stands.get(kind) or []
    ]
