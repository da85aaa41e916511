"""Lists, machines, people and phones at the office."""

import re
from datetime import UTC, datetime, timedelta
from hashlib import sha256

import pytest

from rackside.office.phone_words import held, silence
from rackside.records.deliveries import Delivery
from seed_demo.people import CASTELLANOS, LINDQVIST
from seed_demo.story import Story
from seed_demo.visit import Visit
from tests.office.desk import Desk, Kept, keep_story, words
from tests.server.house import PASSWORD, House
from tests.server.house import story as one_call


@pytest.fixture
def admin(small_house: House) -> Desk:
    small_house.person("Admin", "admin")
    return Desk(small_house).sign_in("Admin")


def test_today_lists_calls_by_what_they_wait_for(desk: Desk, story: Story, kept: Kept) -> None:
    waiting, fresh = keep_story(story, kept, "F6"), keep_story(story, kept, "F7")
    page = desk.get("/office")
    groups = {found[0]: found[1] for found in re.findall(r'<section id="(\w+)"(.*?)</section>', page, re.S)}
    assert [group for group in groups if group != "due"][:2] == ["submitted", "returned"]
    assert waiting in groups["submitted"]
    assert fresh in groups["open"]
    assert fresh not in groups["submitted"]


def test_the_list_goes_on_page_by_page(desk: Desk, story: Story, kept: Kept) -> None:
    for number in range(55):
        Visit(story, f"short {number}", "A5", LINDQVIST, story.day(30, "09:00")).open("noise")
    kept.keep(story)
    seen: list[str] = []
    path = "/office/calls?state=open"
    while path:
        page = desk.get(path)
        seen += re.findall(r'<a class="tag" href="/office/calls/([^"]+)"', page)
        following = re.search(r'<a href="(/office/calls\?[^"]*next=[^"]*)"', page)
        path = following[1].replace("&amp;", "&") if following else ""
    assert len(seen) == len(set(seen)) >= 55
    assert {story.id_of(f"short {number} call") for number in range(55)} <= set(seen)
    assert "There is no state" in words(desk.get("/office/calls?state=lost", 422))


def test_a_machine_shows_its_plate_its_calls_and_its_numbers(desk: Desk, story: Story, kept: Kept) -> None:
    call = keep_story(story, kept, "F4")
    kept.phone_of(CASTELLANOS).get(f"/calls/{call}/results")
    assert story.machines["B1"] in desk.get("/office/machines")
    page = desk.get(f"/office/machines/{story.machines['B1']}")
    told = words(page)
    assert "Locked rotor amps 205 A" in told
    assert "Oil control cut out 9 psi, delay 120 s" in told
    assert "Net oil pressure pass 31 psi 20 Nov 26" in told
    assert f"/office/calls/{call}" in page
    assert "not yet confirmed" not in told


def test_the_office_confirms_a_plate_a_technician_wrote(desk: Desk, story: Story, kept: Kept) -> None:
    kept.keep(story)
    body = {"site": story.site, "tag": "C1", "rack": "C", "type": "welded-scroll"}
    machine = kept.phone_of(LINDQVIST).write("machine", body)["id"]
    assert "Plate not yet confirmed" in words(desk.get(f"/office/machines/{machine}"))
    desk.post(f"/office/machines/{machine}/confirmation")
    assert "not yet confirmed" not in words(desk.get(f"/office/machines/{machine}"))
    assert kept.phone_of(LINDQVIST).get(f"/machines/{machine}")["confirmed"] is True
    reader = Desk(kept.house).sign_in(LINDQVIST.name)
    assert "no right to review" in words(reader.post(f"/office/machines/{machine}/confirmation", 403).text)


def test_an_admin_adds_people_and_ends_a_phones_sign_in(admin: Desk, small_house: House) -> None:
    admin.post("/office/people", name="R. Lindqvist", role="technician", password=PASSWORD)
    assert "R. Lindqvist technician all" in words(admin.get("/office/people"))
    again = admin.post("/office/people", 422, name="R. Lindqvist", role="technician", password=PASSWORD)
    assert "is taken: names are for ever" in words(again.text)
    phone = small_house.sign_in("R. Lindqvist", "Lindqvist's phone")
    assert "Lindqvist's phone R. Lindqvist" in words(admin.get("/office/devices"))
    admin.post(f"/office/devices/{phone.device}/end")
    assert phone.http.get("/api/v1/me").json()["code"] == "token_revoked"
    assert "ended" in words(admin.get("/office/devices"))
    admin.post("/office/devices/nothing-like-it/end", 404)


def test_the_office_role_may_look_but_not_add_people(desk: Desk) -> None:
    assert "Add somebody" not in desk.get("/office/people")
    desk.post("/office/people", 403, name="Somebody", role="admin", password=PASSWORD)


@pytest.mark.parametrize("name", ["office.css", "report.css"])
def test_style_sheets_are_served_to_anybody(small_house: House, name: str) -> None:
    answer = small_house.client().get(f"/office/static/{name}")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("text/css")


@pytest.mark.parametrize("name", ["pages.py", "..%2fpages.py", "nothing.css"])
def test_nothing_else_is_served(small_house: House, name: str) -> None:
    assert small_house.client().get(f"/office/static/{name}").status_code == 404


def test_a_person_is_let_in_no_more_and_again(admin: Desk, small_house: House) -> None:
    person = small_house.person("R. Lindqvist")
    phone = small_house.sign_in("R. Lindqvist")
    admin.post(f"/office/people/{person}/service", active="no")
    assert "signs in no more" in words(admin.get("/office/people"))
    assert phone.http.get("/api/v1/me").json()["code"] == "token_revoked"
    admin.post(f"/office/people/{person}/service", active="yes")
    phone.get("/me")
    admin.post("/office/people/nobody/service", 404, active="no")
    mine = re.findall(r"/office/people/([^/]+)/service", admin.get("/office/people"))
    assert mine == [person], "nobody is offered to shut themselves out"


def test_a_phone_tells_how_long_its_entries_waited(admin: Desk, small_house: House) -> None:
    phone = small_house.phone("T. Okafor")
    written = datetime.now(UTC) - timedelta(days=3, hours=2)
    assert "no entry written on it is here, so nothing is known of more" in words(admin.get("/office/devices"))
    phone.write("site", {"name": "Back lane store"}, made_at=written.isoformat())
    page = words(admin.get("/office/devices"))
    assert "1 entry the oldest had waited 3 days what it may still hold is at most 3 days old" in page
    phone.write("meter", {"kind": "clamp"}, made_at=datetime.now(UTC).isoformat())
    assert "1 entry the oldest had waited less than two minutes" in words(admin.get("/office/devices"))


def test_a_photo_that_was_announced_and_has_not_come_is_told_of_its_phone(admin: Desk, small_house: House) -> None:
    phone = small_house.phone("T. Okafor")
    content = b"\xff\xd8\xff of a photo"
    name = sha256(content).hexdigest()
    told = one_call(phone)
    phone.keep(*told.entries)
    body = {"sha256": name, "media_type": "image/jpeg", "size": len(content), "shows": "alarm"}
    phone.write("photo", body, told.call)
    owed = "1 photo is announced and not here, the longest for less than two minutes"
    assert owed in words(admin.get("/office/devices"))
    phone.http.put(f"/api/v1/photos/{name}", content=content)
    assert "announced and not here" not in words(admin.get("/office/devices"))


def test_a_silent_phone_stands_out_and_a_clock_ahead_proves_nothing() -> None:
    now = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)
    assert silence((now - timedelta(days=9)).isoformat(), now) == "not heard from for 9 days"
    assert silence((now - timedelta(days=6)).isoformat(), now) == silence(None, now) == ""
    ahead = Delivery((now - timedelta(days=2)).isoformat(), 3, 0.0, (now + timedelta(days=30)).isoformat())
    assert held(ahead, None, now) == ["its clock is ahead, so nothing follows from its times"]
