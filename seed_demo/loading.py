"""Loads the demo the way other software does: by the client, signed in as each person's device."""

from contextlib import ExitStack
from datetime import datetime
from itertools import groupby
from typing import Any, NamedTuple
from uuid import uuid5
from zoneinfo import ZoneInfo

from rackside.client import Rackside

from .case_files import write_cases
from .people import CASTELLANOS, PEOPLE, Person
from .plant import TIME_ZONE
from .story import NAMESPACE, Story, Written, set_up_plant
from .year import write_year

SEED = "harrow-bend-1"


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
    with ExitStack() as open_connections:
        _create_people(base_url, Person(admin_name, "admin", admin_password))
        office = open_connections.enter_context(_signed_in(base_url, CASTELLANOS))
        held = {entry["id"]: entry for entry in office.pull()}
        begun = Story(seed, now or datetime.now(ZoneInfo(TIME_ZONE)))
        told_from = begun.told_from(held.get(begun.site))
        story = story_of(seed, told_from)
        missing = [one for one in story.in_order() if one.entry["id"] not in held]
        servers = {CASTELLANOS: office}
        for person, run in groupby(missing, key=lambda one: one.by):
            if person not in servers:
                servers[person] = open_connections.enter_context(_signed_in(base_url, person))
            _push(servers[person], person, seed, list(run))
        _send_pictures(office, story, [*held.values(), *(one.entry for one in missing)])
        if not missing:
            office.sign_out()
    return Loaded(len(missing), len(held))


def _signed_in(base_url: str, person: Person) -> Rackside:
    return Rackside.sign_in(base_url, person.name, person.password, f"Demo phone of {person.name}")


def _create_people(base_url: str, admin: Person) -> None:
    with _signed_in(base_url, admin) as server:
        known = {person["name"] for person in server.people()}
        for person in PEOPLE:
            if person.name not in known:
                server.add_person(person.name, person.password, person.role)
        server.sign_out()


def _push(server: Rackside, person: Person, seed: str, written: list[Written]) -> None:
    """Send one person's entries, in their order, from the device that wrote them."""
    device = str(uuid5(NAMESPACE, f"{seed}/device of {person.name}"))
    entries = [{**one.entry, "device": device, "author": person.name} for one in written]
    for result in server.push(entries):
        if result["status"] == "refused":
            raise DemoRefused(f"{person.name}, entry {result['id']}: {result['code']}, {result['detail']}")


def _send_pictures(office: Rackside, story: Story, entries: list[dict[str, Any]]) -> None:
    """Send the photos that entries announce; one that is there already changes nothing."""
    announced = {entry["body"]["sha256"] for entry in entries if entry["kind"] == "photo" and not entry["base"]}
    for name in sorted(announced & set(story.pictures)):
        office.put_photo(story.pictures[name])
