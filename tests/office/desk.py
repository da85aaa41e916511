"""Somebody at the office's pages, and calls of the demo kept by the phones of a house."""

import re
from html import unescape
from itertools import groupby
from typing import Any

import httpx

from seed_demo import case_files
from seed_demo.people import Person
from seed_demo.story import Story
from tests.server.house import PASSWORD, House, Phone

CASES = {case.__name__.rsplit(".", 1)[1]: case for case in case_files.CASES}
MODULES = {
    "F1": "dial_turned_down",
    "F2": "soft_supply",
    "F4": "contactor_kept",
    "F6": "flooded_crankcase",
    "F7": "never_ran",
}


class Kept:
    """The phones of the demo's people in one house."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.phones: dict[str, Phone] = {}
        self.sent: set[str] = set()

    def phone_of(self, person: Person) -> Phone:
        if person.name not in self.phones:
            self.phones[person.name] = self.house.phone(person.name, person.role)
        return self.phones[person.name]

    def keep(self, story: Story) -> None:
        """Push what the story holds and no phone has sent yet, each entry by its own author."""
        missing = [written for written in story.in_order() if written.entry["id"] not in self.sent]
        for person, run in groupby(missing, key=lambda written: written.by):
            phone = self.phone_of(person)
            entries = [{**written.entry, "device": phone.device, "author": phone.author} for written in run]
            phone.keep(*entries)
            self.sent.update(entry["id"] for entry in entries)


def keep_story(story: Story, kept: Kept, name: str) -> str:
    """Keep one case file and return its call's id."""
    CASES[MODULES[name]].write(story)
    kept.keep(story)
    return story.id_of(f"{name} call")


class Desk:
    """A browser without script at the office."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.http = httpx.Client(base_url=house.url, trust_env=False, timeout=20)
        self.http.headers["origin"] = house.url

    def sign_in(self, name: str, password: str = PASSWORD) -> "Desk":
        answer = self.http.post("/office/sign-in", data={"name": name, "password": password})
        assert answer.status_code == 303, answer.text
        return self

    def get(self, path: str, status: int = 200) -> str:
        answer = self.http.get(path)
        assert answer.status_code == status, answer.text
        return answer.text

    def post(self, path: str, status: int = 303, origin: str | None = None, **fields: Any) -> httpx.Response:
        answer = self.http.post(path, data=fields, headers={"origin": origin} if origin else None)
        assert answer.status_code == status, answer.text
        return answer

    def review_form(self, call: str) -> dict[str, str]:
        """Return the hidden fields of a call's review form, as a browser would send them back."""
        form = re.search(
            r'<form method="post" action="[^"]*/reviews".*?</form>', self.get(f"/office/calls/{call}"), re.S
        )
        assert form, "the page has no review form"
        return dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form[0]))


def words(html: str) -> str:
    """Return what a reader sees: no tags, single spaces."""
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", html))).strip()
