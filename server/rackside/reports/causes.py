"""The causes of a result as outputs tell them: what is shown, and what was ruled out by which fact. Pure."""

from typing import Any

from rackside.reports.text import name

Json = dict[str, Any]
WORDS = {"likely": "likely", "possible": "possible", "not_shown": "not shown"}


def shown(result: Json, decided: str | None = None) -> list[Json]:
    """Return the causes that are likely or possible, and the one that was decided on, with the facts on both sides."""
    told = [cause for cause in result.get("causes") or [] if cause["word"] != "not_shown" or cause["cause"] == decided]
    return [_told(cause) for cause in told]


def ruled_out(result: Json, decided: str | None = None) -> list[Json]:
    """Return the causes that measured facts speak against and that are not shown."""
    return [
        _told(cause)
        for cause in result.get("causes") or []
        if cause["word"] == "not_shown" and cause.get("against") and cause["cause"] != decided
    ]


def _told(cause: Json) -> Json:
    return {
        "title": name("cause", cause["cause"]),
        "word": WORDS[cause["word"]],
        "for": _once(cause.get("for") or []),
        "against": _once(cause.get("against") or []),
    }


def _once(facts: list[Json]) -> list[Json]:
    return list({fact["text"]: fact for fact in facts}.values())
