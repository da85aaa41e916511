"""Two people wrote one plate fact down without knowing of each other: the phone shows both, and a person picks."""

import uuid
from typing import Any

import httpx
import pytest
from playwright.sync_api import Locator, Page, expect

from seed_demo.people import LINDQVIST, OKAFOR
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

Json = dict[str, Any]


class Writer:
    """Another person's phone, by its requests alone."""

    def __init__(self, server: Server, person: Any) -> None:
        self.http = httpx.Client(base_url=f"{server.url}/api/v1", trust_env=False, timeout=60)
        asked = {"name": person.name, "password": person.password, "device": "another phone"}
        told = self.http.post("/devices", json=asked).raise_for_status().json()
        self.http.headers["Authorization"] = f"Bearer {told['token']}"
        self.device, self.author = told["device"], person.name

    def log(self) -> list[Json]:
        items: list[Json] = []
        after, more = 0, True
        while more:
            page = self.http.get("/entries", params={"after": after}).raise_for_status().json()
            items, after, more = items + page["items"], page["cursor"], page["more"]
        return items

    def correct(self, kind: str, base: list[str], body: Json) -> str:
        head = {"id": str(uuid.uuid4()), "schema": 1, "kind": kind, "call": None, "base": base}
        made = {"made_at": "2026-10-14T21:40:00-05:00", "device": self.device, "author": self.author, "body": body}
        pushed = self.http.post("/entries", json={"device": self.device, "epoch": None, "entries": [head | made]})
        assert pushed.json()["results"][0]["status"] == "accepted", pushed.text
        return head["id"]


def versions_of(log: list[Json], thing: str) -> list[str]:
    family = [thing]
    for entry in log:
        if set(entry["base"]) & set(family):
            family.append(entry["id"])
    return family


@pytest.mark.parametrize("place", ["machine", "step"])
def test_both_versions_stand_with_who_and_when_until_a_person_picks(demo: Server, phone: Phone, place: str) -> None:
    okafor, lindqvist = Writer(demo, OKAFOR), Writer(demo, LINDQVIST)
    log = okafor.log()
    machine = next(entry for entry in log if entry["kind"] == "machine" and entry["body"].get("tag") == "B3")
    base = versions_of(log, machine["id"])
    both = [okafor.correct("machine", base, {"serial": "4711"}), lindqvist.correct("machine", base, {"serial": "4717"})]
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.wait_until_sent()
    call = technician.open_call("B3")
    technician.go(f"#/machine/{machine['id']}" if place == "machine" else f"#/call/{call}/step/machine")
    clash = phone.page.locator(".clash")
    expect(clash).to_have_count(1)
    told = [line.inner_text() for line in clash.locator("li").all()]
    assert ["4711" in told[0], OKAFOR.name in told[0], "used until somebody picks" in told[0]] == [True] * 3
    assert ["4717" in told[1], LINDQVIST.name in told[1], "Oct" in told[1], "used until" in told[1]] == [True] * 3 + [
        False
    ]
    serial = plate_fact(phone.page, "Serial")
    expect(serial).to_have_text("4711")
    clash.locator("li").nth(1).get_by_role("button", name="This one").click()
    expect(clash).to_have_count(0)
    expect(serial).to_have_text("4717")
    technician.wait_until_sent()
    settled = okafor.log()[-1]
    assert (settled["kind"], settled["author"], settled["body"]) == ("machine", OKAFOR.name, {"serial": "4717"})
    assert set(settled["base"]) == set(both)
    office = okafor.http.get(f"/machines/{machine['id']}").raise_for_status().json()
    assert office["plate"]["serial"] == "4717"


def test_two_versions_of_a_site_are_picked_beside_its_machine(demo: Server, phone: Phone) -> None:
    okafor, lindqvist = Writer(demo, OKAFOR), Writer(demo, LINDQVIST)
    log = okafor.log()
    machine = next(entry for entry in log if entry["kind"] == "machine" and entry["body"].get("tag") == "B3")
    site = machine["body"]["site"]
    base = versions_of(log, site)
    for writer, volts in ((okafor, 480), (lindqvist, 460)):
        writer.correct("site", base, {"supply": {"nominal_voltage": volts, "grounding": "grounded-wye"}})
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.wait_until_sent()
    technician.go(f"#/machine/{machine['id']}")
    clash = phone.page.get_by_role("region", name="Two versions: Supply")
    expect(clash.locator("li")).to_have_count(2)
    clash.locator("li", has_text="460").get_by_role("button", name="This one").click()
    expect(clash).to_have_count(0)
    technician.wait_until_sent()
    assert okafor.log()[-1]["body"]["supply"]["nominal_voltage"] == 460


def plate_fact(page: Page, name: str) -> Locator:
    return page.locator(".facts > div", has_text=name).locator("dd")
