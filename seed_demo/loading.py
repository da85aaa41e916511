"""Loads the demo the way phones do: sign in as each person's device and push entries in batches."""

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby
from typing import Any, NamedTuple
from uuid import uuid5
from zoneinfo import ZoneInfo

import httpx

from .case_files import write_cases
from .people import CASTELLANOS, PEOPLE, Person
from .plant import TIME_ZONE
from .story import NAMESPACE, Story, Written, set_up_plant
from .year import write_year

SEED = "harrow-bend-1"
BATCH = 500


class Loaded(NamedTuple):
    """How many entries the server took now, and how many it held before."""

    accepted: int
    held: int


class DemoRefused(Exception):
    """The server refused an entry of the demo; the text says which and why."""


def story_of(seed: str, now: datetime) -> Story:
    """Return the whole demo as entries, told from `now`."""
    story = Story(seed, now.astimezone(ZoneInfo(TIME_ZONE)).replace(second=0, microsecond=0))
    set_up_plant(story)
    write_year(story)
    write_cases(story)
    return story


def load(base_url: str, admin_name: str, admin_password: str, seed: str = SEED, now: datetime | None = None) -> Loaded:
    """Create the demo's people and load its entries; what is there already is left alone.

    The story is told from `now`, or from the moment of an earlier load, so that a second load finds the same entries.
    """
    with httpx.Client(base_url=base_url, timeout=60, trust_env=False) as http:
        _create_people(_Sender(http, Person(admin_name, "admin", admin_password), seed))
        office = _Sender(http, CASTELLANOS, seed)
        held = {entry["id"]: entry for entry in office.pull()}
        begun = Story(seed, now or datetime.now(ZoneInfo(TIME_ZONE)))
        told_from = begun.told_from(held.get(begun.site))
        story = story_of(seed, told_from)
        missing = [one for one in story.in_order() if one.entry["id"] not in held]
        people = PEOPLE if missing else ()
        senders = {person: office if person == CASTELLANOS else _Sender(http, person, seed) for person in people}
        for by, batch in _batches(missing):
            senders[by].push(batch)
        _send_pictures(office, story, [*held.values(), *(one.entry for one in missing)])
        if not missing:
            office.sign_out()
    return Loaded(len(missing), len(held))


def _send_pictures(office: "_Sender", story: Story, entries: list[dict[str, Any]]) -> None:
    """Send the photos that entries announce; one that is there already changes nothing."""
    announced = {entry["body"]["sha256"] for entry in entries if entry["kind"] == "photo" and not entry["base"]}
    for name in sorted(announced & set(story.pictures)):
        office.ask("PUT", f"/api/v1/photos/{name}", content=story.pictures[name])


def _create_people(admin: "_Sender") -> None:
    known = {person["name"] for person in admin.ask("GET", "/api/v1/people")["items"]}
    for person in PEOPLE:
        if person.name not in known:
            admin.ask("POST", "/api/v1/people", json=person._asdict())
    admin.sign_out()


def _batches(written: list[Written]) -> Iterator[tuple[Person, list[Written]]]:
    """Cut the entries, in their order, into runs of one person's, none too long for the server."""
    for by, run in groupby(written, key=lambda one: one.by):
        entries = list(run)
        for start in range(0, len(entries), BATCH):
            yield by, entries[start : start + BATCH]


class _Sender:
    """One person's device."""

    def __init__(self, http: httpx.Client, person: Person, seed: str) -> None:
        self.http = http
        self.person = person
        self.token = ""
        self.device = str(uuid5(NAMESPACE, f"{seed}/device of {person.name}"))
        asked = {"name": person.name, "password": person.password, "device": f"Demo phone of {person.name}"}
        answer = self.ask("POST", "/api/v1/devices", json=asked)
        self.signed_in, self.token = answer["device"], answer["token"]

    def pull(self) -> Iterator[dict[str, Any]]:
        after, more = 0, True
        while more:
            page = self.ask("GET", "/api/v1/entries", params={"after": after, "limit": BATCH})
            yield from page["items"]
            after, more = page["cursor"], page["more"]

    def push(self, written: list[Written]) -> None:
        entries = [{**one.entry, "device": self.device, "author": self.person.name} for one in written]
        answer = self.ask("POST", "/api/v1/entries", json={"device": self.signed_in, "entries": entries})
        for result in answer["results"]:
            if result["status"] == "refused":
                raise DemoRefused(f"{self.person.name}, entry {result['id']}: {result['code']}, {result['detail']}")

    def sign_out(self) -> None:
        self.ask("DELETE", f"/api/v1/devices/{self.signed_in}")

    def ask(self, method: str, path: str, **content: Any) -> Any:
        headers = {"Authorization": f"Bearer {self.token}"} if self.token else {}
        answer = self.http.request(method, path, headers=headers, **content)
        if answer.is_error:
            raise DemoRefused(f"{method} {path} as {self.person.name}: {answer.status_code} {answer.text}")
        return answer.json() if answer.content else None
