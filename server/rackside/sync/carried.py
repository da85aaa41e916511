"""A file of entries that a phone could not send, brought by hand. Each keeps its id, author and device."""

import base64
import binascii
import json
from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby
from typing import Any, NamedTuple

from rackside.records import Database, Refused, scopes
from rackside.records.caller import Caller
from rackside.sync.push import Answer, push

Json = dict[str, Any]
KIND = "rackside unsent entries"
BATCH = 500


class Carried(NamedTuple):
    """What a file holds."""

    entries: list[Any]
    photos: list[tuple[str, bytes]]


def read(text: str) -> Carried:
    """Return what a phone's file holds; refuse a file of another kind."""
    try:
        file = json.loads(text)
    except ValueError:
        raise Refused("invalid_body", "This file can't be read as JSON. Have the phone write it again.") from None
    if not isinstance(file, dict) or file.get("file") != KIND or not isinstance(file.get("entries"), list):
        raise Refused("invalid_body", "This is not a file of unsent entries, as a phone writes under Carry by hand.")
    if file.get("version") != 1:
        raise Refused("invalid_body", "A newer version wrote this file. Update the server first.")
    return Carried(file["entries"], list(_photos(file.get("photos"))))


def _photos(told: Any) -> Iterator[tuple[str, bytes]]:
    for photo in told if isinstance(told, list) else ():
        try:
            yield str(photo["sha256"]), base64.b64decode(photo["base64"], validate=True)
        except (KeyError, TypeError, binascii.Error):
            continue


def take(database: Database, caller: Caller, entries: list[Any], entry_limit: int) -> list[Answer]:
    """Push each run of entries as its author's: the office vouches for the file, the log keeps who wrote what."""
    caller.need("review")
    owners = _owners(database, entries)
    answers: list[Answer] = []
    for writer, run in groupby(entries, _writer):
        listed = list(run)
        if writer is None or owners.get(writer[1]) != writer[0]:
            answers += [_unknown(entry, writer) for entry in listed]
            continue
        author = replace(caller, author=writer[0], device_id=writer[1], may=caller.may - {"review"})
        for start in range(0, len(listed), BATCH):
            answers += push(database, author, None, listed[start : start + BATCH], entry_limit).answers
    return answers


def _writer(entry: Any) -> tuple[str, str] | None:
    found = (entry.get("author"), entry.get("device")) if isinstance(entry, dict) else (None, None)
    return (found[0], found[1]) if isinstance(found[0], str) and isinstance(found[1], str) else None


def _owners(database: Database, entries: list[Any]) -> dict[str, str]:
    devices = {writer[1] for writer in map(_writer, entries) if writer}
    with database.reading() as connection:
        return dict(scopes.owners(connection, sorted(devices)))


def _unknown(entry: Any, writer: tuple[str, str] | None) -> Answer:
    told = f"No phone {writer[1]} of {writer[0]} ever signed in here." if writer else "It names no author or device."
    name = entry.get("id") if isinstance(entry, dict) and isinstance(entry.get("id"), str) else None
    return Answer(name, "refused", refused=Refused("forged_author", told))
