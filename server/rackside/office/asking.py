"""Sending a call back with something to do: a note to a step, and readings to take. Pure."""

from typing import Any

from rackside.office.log_lines import KIND_WORDS, words_of
from rackside.reports.text import name

Json = dict[str, Any]
# What a note may be about; the rest of a log is the office's own.
STEPS = ("round", "reading", "sign", "event", "action", "photo", "override", "decision", "line", "signature")
LONGEST = 90


def askable(vocabulary: Json) -> list[tuple[str, str]]:
    """Return the readings one may ask for, by the words people use."""
    return sorted(((point["name"], point["title"]) for point in vocabulary["points"]), key=lambda pair: pair[1])


def steps(entries: list[Json], meters: dict[str, str]) -> list[tuple[str, str]]:
    """Return the entries a note may be about: the first of each thing, in words."""
    told = []
    for place, entry in enumerate(entries, 1):
        if entry["kind"] in STEPS and not entry["base"]:
            said = words_of(entry, meters)
            short = said if len(said) <= LONGEST else said[: LONGEST - 1] + "…"
            told.append((entry["id"], f"no. {place}, {KIND_WORDS[entry['kind']].lower()}: {short}"))
    return told


def note_of(note: str, points: list[str], vocabulary: Json) -> str:
    """Return the note as the technician reads it: what to take first, then the office's own words."""
    known = {point["name"] for point in vocabulary["points"]}
    wanted = [name("point", point) for point in points if point in known]
    asked = f"Please take: {', '.join(wanted)}." if wanted else ""
    return " ".join(part for part in (asked, note) if part)
