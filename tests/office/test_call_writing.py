"""What the office does to a call beside accepting it: asks, picks a version, links a repeat, judges again."""

import hashlib
import json
import re

import pytest
from sqlalchemy import update

from rackside import host
from rackside.records import judging
from seed_demo.people import LINDQVIST, OKAFOR
from seed_demo.story import Story
from seed_demo.visit import Visit
from tests.office.desk import Desk, Kept, keep_story, words
from tests.server.house import House


def entries_of(kept: Kept, call: str, kind: str) -> list[dict]:
    return [entry for entry in kept.phone_of(OKAFOR).pull(call=call) if entry["kind"] == kind]


def test_a_reading_is_asked_for_and_a_note_goes_to_a_step(desk: Desk, submitted: str, kept: Kept) -> None:
    reading = entries_of(kept, submitted, "reading")[0]["id"]
    form = desk.review_form(submitted) | {"outcome": "returned", "note": "Leads off, please.", "step": reading}
    desk.post(f"/office/calls/{submitted}/reviews", **form, points=["insulation_resistance", "sump_temperature"])
    (review,) = entries_of(kept, submitted, "review")
    assert review["body"]["of"] == reading
    assert review["body"]["note"] == "Please take: Insulation at 60 s, Sump temperature. Leads off, please."


def test_asking_for_a_reading_needs_no_further_note(desk: Desk, submitted: str, kept: Kept) -> None:
    form = desk.review_form(submitted) | {"outcome": "returned", "note": ""}
    desk.post(f"/office/calls/{submitted}/reviews", **form, points=["oil_acid"])
    (review,) = entries_of(kept, submitted, "review")
    assert review["body"]["note"] == "Please take: Oil acid test."


@pytest.fixture
def disputed(submitted: str, kept: Kept) -> tuple[str, dict, dict]:
    """A call in which two people corrected one reading without seeing each other."""
    reading = next(entry for entry in entries_of(kept, submitted, "reading") if entry["body"]["point"] == "oil_level")
    first = kept.phone_of(OKAFOR).write("reading", {"value": "0.25"}, submitted, base=[reading["id"]])
    second = kept.phone_of(LINDQVIST).write("reading", {"value": "0.375"}, submitted, base=[reading["id"]])
    return submitted, first, second


def test_two_versions_are_shown_and_the_one_picked_is_judged(desk: Desk, disputed: tuple, kept: Kept) -> None:
    call, first, second = disputed
    page = desk.get(f"/office/calls/{call}")
    told = words(page)
    assert "Two versions: Oil level, value" in told
    assert "0.25 T. Okafor" in told
    assert "0.375 R. Lindqvist" in told
    thing = re.search(r'name="thing" value="([^"]+)"', page)
    assert thing
    desk.post(f"/office/calls/{call}/versions", thing=thing[1], value=second["id"])
    settled = entries_of(kept, call, "reading")[-1]
    assert settled["author"] == "M. Castellanos"
    assert set(settled["base"]) == {first["id"], second["id"]}
    assert settled["body"] == {"value": "0.375"}
    assert "Two versions" not in words(desk.get(f"/office/calls/{call}"))


def test_a_pick_of_what_is_not_offered_is_refused(desk: Desk, disputed: tuple) -> None:
    call, first, _ = disputed
    answer = desk.post(f"/office/calls/{call}/versions", 422, thing=first["base"][0], value="something else")
    assert "Nothing was picked" in words(answer.text)


def accept(desk: Desk, call: str) -> None:
    desk.post(f"/office/calls/{call}/reviews", **desk.review_form(call), outcome="accepted", note="")


def test_a_trip_inside_the_watch_is_linked_both_ways_and_counted(desk: Desk, story: Story, kept: Kept) -> None:
    watched = keep_story(story, kept, "F6")
    accept(desk, watched)
    again = Visit(story, "again", "A1", LINDQVIST, story.now).open("oil_trip", "Tripped again in the night.")
    kept.keep(story)
    page = desk.get(f"/office/calls/{again.call}")
    assert "This call came inside the watch" in words(page)
    assert f'name="of" value="{watched}"' in page
    fleet = desk.get("/office/fleet")
    assert "repeat trip" in fleet
    assert again.call in fleet
    desk.post(f"/office/calls/{again.call}/follows", of=watched)
    assert f'A repeat: it follows <a href="/office/calls/{watched}"' in desk.get(f"/office/calls/{again.call}")
    assert f'It came back: <a href="/office/calls/{again.call}"' in desk.get(f"/office/calls/{watched}")
    assert kept.phone_of(OKAFOR).get(f"/calls/{again.call}")["follows"] == watched
    other = keep_story(story, kept, "F4")
    assert "can be followed" in words(desk.post(f"/office/calls/{again.call}/follows", 422, of=other).text)


def test_judged_again_keeps_both_and_says_that_the_rules_changed(
    desk: Desk, submitted: str, house: House, kept: Kept
) -> None:
    desk.get(f"/office/calls/{submitted}")
    with house.database.reading() as connection:
        (kept_one,) = judging.all_of(connection, submitted)
    older = json.loads(kept_one.result)
    finding = next(one for round_ in older["rounds"] for one in round_["findings"] if one["carries"])
    was, finding["verdict"] = finding["verdict"], "cannot_tell" if finding["verdict"] != "cannot_tell" else "pass"
    with house.database.writing() as connection:
        mine = judging.JUDGEMENTS.c.id == kept_one.id
        values = {"digest": "0" * 64, "result": json.dumps(older)}
        connection.execute(update(judging.JUDGEMENTS).where(mine).values(**values))
    assert "The rules have changed since the last judgement." in words(desk.get(f"/office/calls/{submitted}"))
    desk.post(f"/office/calls/{submitted}/judgements")
    told = words(desk.get(f"/office/calls/{submitted}"))
    assert "The rules changed since the judgement before." in told
    assert was.replace("_", " ") + " now" in told
    with house.database.reading() as connection:
        assert [one.digest for one in judging.all_of(connection, submitted)] == [host.digest(), "0" * 64]


def test_a_phone_that_judged_by_other_rules_is_told_in_words(desk: Desk, submitted: str, kept: Kept) -> None:
    result = kept.phone_of(OKAFOR).get(f"/calls/{submitted}/results")["result"]
    finding = next(one for round_ in result["rounds"] for one in round_["findings"] if one["carries"])
    now, finding["verdict"] = finding["verdict"], "cannot_tell" if finding["verdict"] != "cannot_tell" else "pass"
    engine = {"version": "0.9.0", "rules": "2026-05", "digest": "1" * 64}
    upto = [entry["id"] for entry in kept.phone_of(OKAFOR).pull(call=submitted)]
    kept.phone_of(OKAFOR).write("judgement", {"engine": engine, "upto": upto, "result": result}, submitted)
    told = words(desk.get(f"/office/calls/{submitted}"))
    assert "The rules changed between the two: the phone judged by 2026-05" in told
    assert f"on the phone, {now.replace('_', ' ')} here" in told


def test_a_judgement_of_another_form_is_no_fault_of_the_page(desk: Desk, submitted: str, kept: Kept) -> None:
    engine = {"version": "0.9.0", "digest": "1" * 64}
    body = {"engine": engine, "upto": [submitted], "result": {"rounds": 7, "summary": {}}}
    kept.phone_of(OKAFOR).write("judgement", body, submitted)
    assert "has another form" in words(desk.get(f"/office/calls/{submitted}"))


def test_only_the_office_writes(submitted: str, kept: Kept) -> None:
    kept.phone_of(LINDQVIST)
    reader = Desk(kept.house).sign_in(LINDQVIST.name)
    for place in ("versions", "follows", "judgements"):
        reader.post(f"/office/calls/{submitted}/{place}", 403, thing="", of="")


def test_photos_stand_on_the_call_and_a_late_one_is_said_to_be_on_the_phone(
    desk: Desk, submitted: str, kept: Kept
) -> None:
    phone, content = kept.phone_of(OKAFOR), b"\xff\xd8\xff\xe0 the plate"
    sha256 = hashlib.sha256(content).hexdigest()
    before = words(desk.get(f"/office/calls/{submitted}")).count("Still on the phone.")
    body = {"sha256": sha256, "media_type": "image/jpeg", "shows": "plate", "caption": "Plate of A1"}
    phone.write("photo", body, submitted)
    late = hashlib.sha256(b"not sent yet").hexdigest()
    phone.write("photo", body | {"sha256": late, "shows": "alarm", "caption": None}, submitted)
    assert words(desk.get(f"/office/calls/{submitted}")).count("Still on the phone.") == before + 2
    answer = phone.http.put(f"/api/v1/photos/{sha256}", content=content, headers={"Content-Type": "image/jpeg"})
    assert answer.status_code == 201, answer.text
    page = desk.get(f"/office/calls/{submitted}")
    assert f'<img src="/api/v1/photos/{sha256}" alt="Plate: Plate of A1"' in page
    assert words(page).count("Still on the phone.") == before + 1
    assert desk.http.get(f"/api/v1/photos/{sha256}").content == content
