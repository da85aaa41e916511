"""Runs the documented requests one after the other, as somebody would who follows the reference page."""

import time
from typing import Any

import httpx

from rackside.records import Database
from tests.server.house import House, Phone

Json = dict[str, Any]
# A picture can't be shown in JSON: these bytes stand for their words.
PICTURE = b"RIFF\x1a\0\0\0WEBPVP8L\r\0\0\0/\0\0\0\x10\x07\x10\x11\x11\x88\x88\xfe\x07\0"
PICTURE_WORDS = "(the bytes of the picture)"
# What a server makes up itself, so that it differs from run to run.
OWN = ("id", "device", "token")


class Replay:
    """Knows what the server of this run calls the things that an example names."""

    def __init__(self, house: House, admin: Phone) -> None:
        self._house = house
        self._clients = {"admin": admin.http, "nobody": house.client()}
        self._known: dict[str, str] = {}
        self._changed: int | None = None

    def ask(self, example: Json) -> httpx.Response:
        """Send the request of an example, with this run's names in it."""
        if example["path"].endswith("/deliveries"):
            settle(self._house.database)
        told = self._here(example)
        place = "/api/v1" + told["path"].format_map(told["in_path"])
        content: Any = {}
        if isinstance(told.get("body"), str):
            body = PICTURE if told["body"] == PICTURE_WORDS else told["body"].encode()
            content = {"content": body, "headers": {"Content-Type": told["body_type"]}}
        elif "body" in told:
            content = {"json": told["body"]}
        return self._clients[told["by"]].request(told["method"], place, params=told["query"], **content)

    def learn(self, example: Json, documented: Any, answer: Any) -> None:
        """Remember what this server calls what the documented answer names."""
        self._pair(documented, answer)
        if example["path"].endswith("/deliveries"):
            self._pair(documented["items"][0], answer["items"][0])
        if example["path"] == "/devices" and example["method"] == "POST":
            self._clients["phone"] = self._house.client(answer["token"])

    def _pair(self, documented: Any, real: Any) -> None:
        if not isinstance(documented, dict) or not isinstance(real, dict):
            return
        for name in OWN:
            if name in documented and name in real:
                self._known[documented[name]] = real[name]
        self._changed = real.get("changed", self._changed)

    def _here(self, value: Any, name: str = "") -> Any:
        if isinstance(value, dict):
            return {key: self._here(one, key) for key, one in value.items()}
        if isinstance(value, list):
            return [self._here(one) for one in value]
        if name == "seen":
            return self._changed
        return self._known.get(value, value) if isinstance(value, str) else value


def unlike(documented: Any, real: Any, place: str = "") -> list[str]:
    """Return where a documented answer is not what a server answers: a member it lacks, or of another kind.

    A list is an example of its items: each documented one must be like some item of the real list.
    """
    if documented is None or real is None:
        return []
    if isinstance(documented, dict) and isinstance(real, dict):
        missing = [f"{place}/{name}" for name in documented if name not in real]
        both = [name for name in documented if name in real]
        return missing + [fault for name in both for fault in unlike(documented[name], real[name], f"{place}/{name}")]
    if isinstance(documented, list) and isinstance(real, list):
        return [fault for number, one in enumerate(documented) for fault in _in_none(one, real, f"{place}/{number}")]
    same = _kind(documented) == _kind(real)
    return [] if same else [f"{place}: {_kind(documented)}, not {_kind(real)}"]


def _in_none(documented: Any, real: list[Any], place: str) -> list[str]:
    faults = [unlike(documented, one, place) for one in real]
    return min(faults, key=len) if faults else [f"{place}: the list is empty"]


def _kind(value: Any) -> str:
    if isinstance(value, bool):
        return "bool"
    return "number" if isinstance(value, int | float) else type(value).__name__


def settle(database: Database) -> None:
    """Wait until every message to a webhook was tried."""
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        with database.reading() as connection:
            waiting = connection.exec_driver_sql("SELECT count(*) FROM deliveries WHERE state = 'pending'").scalar()
        if not waiting:
            return
        time.sleep(0.05)
    raise AssertionError("messages are still on their way")
