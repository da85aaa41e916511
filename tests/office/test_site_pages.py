"""Sites, the fleet, the refrigerant log, machines entered from a table, and search."""

import re
from datetime import UTC, datetime, timedelta

import pytest

from rackside.office.trend_series import Mark
from rackside.office.worst_first import Known, ranked
from seed_demo.people import LINDQVIST, OKAFOR
from seed_demo.story import Story
from seed_demo.visit import Visit
from tests.office.desk import Desk, Kept, keep_story, words

NOW = datetime(2026, 11, 25, 14, tzinfo=UTC)
NOTHING = Known({}, {}, {}, {})


def machine(tag: str, days: int = 5, phase: str = "accepted", complaint: str = "routine", **left: str) -> dict:
    opened = (NOW - timedelta(days=days)).isoformat()
    last = {"id": f"call of {tag}", "complaint": complaint, "opened_at": opened, "phase": phase, "watch_until": None}
    site = {"id": "s", "name": "Store", "time_zone": "America/Chicago"}
    return {"id": tag, "tag": tag, "rack": "A", "site": site, "last": last, "judged": last, "left": left}


def test_the_worst_stands_first_with_its_reason_in_words() -> None:
    watch = {"id": "w", "watch_until": (NOW - timedelta(days=2)).isoformat()}
    known = Known(
        {"A4": 2}, {}, {"A5": [watch]}, {"A6": [Mark("", "m", "Contactor poles: poles more than half apart")]}
    )
    fleet = [
        machine("A1"),
        machine("A2", pole_drop="fail", insulation="watch"),
        machine("A3", phase="open", complaint="oil_trip"),
        machine("A4"),
        machine("A5"),
        machine("A6"),
        machine("A7", days=200),
        machine("A8", phase="returned"),
    ]
    told = ranked(fleet, known, NOW)
    assert [one["tag"] for one in told] == ["A3", "A4", "A5", "A2", "A6", "A8", "A7", "A1"]
    assert [one["reasons"][0].words for one in told[:-1]] == [
        "open call: Oil failure trip",
        "2 trips in 30 days",
        "its watch ended on 23 Nov and nobody has measured since",
        "left failing: contactor poles",
        "Contactor poles: poles more than half apart",
        "call sent back: Routine visit",
        "not seen since 09 May 2026",
    ]
    assert told[-1]["reasons"] == []


def test_a_machine_nobody_measured_says_so() -> None:
    fresh = machine("A9") | {"last": None, "judged": None}
    assert [reason.words for reason in ranked([fresh], NOTHING, NOW)[0]["reasons"]] == ["never measured"]


@pytest.fixture
def site(story: Story, kept: Kept) -> str:
    kept.keep(story)
    return story.site


def test_a_site_names_its_clock_and_its_machines(desk: Desk, site: str, story: Story) -> None:
    page = desk.get(f"/office/sites/{site}")
    assert "All times: America/Chicago" in words(page)
    assert f"/office/machines/{story.machines['B5']}" in page
    assert f"/office/sites/{site}" in desk.get("/office/sites")
    desk.get("/office/sites/nothing-like-it", 404)


def test_the_refrigerant_log_shows_its_inputs_and_names_the_rule(
    desk: Desk, site: str, story: Story, kept: Kept
) -> None:
    call = Visit(story, "topped up", "B2", OKAFOR, story.day(40, "09:00")).open("routine")
    call.round("as_left").value("refrigerant_added", "12", "lb")
    kept.keep(story)
    desk.post(f"/office/sites/{site}/refrigerant", **{"charge-A": "620", "charge-B": "480", "method": "rolling"})
    told = words(desk.get(f"/office/sites/{site}/refrigerant"))
    assert "40 CFR 84.106" in told
    assert "1 January 2026" in told
    assert "12 lb" in told
    assert "480 lb" in told
    assert "2.5 % below the 20 % the rule names" in told
    assert "complian" not in told.replace("complaint", "").lower()
    answer = desk.post(f"/office/sites/{site}/refrigerant", 422, **{"charge-A": "much", "method": "rolling"})
    assert "'much' is no number of pounds" in words(answer.text)


def test_what_is_written_down_about_a_leak_stands_with_its_rate_and_can_be_taken_back(
    desk: Desk, site: str, story: Story, kept: Kept
) -> None:
    visit = Visit(story, "big leak", "B2", OKAFOR, story.day(20, "09:00")).open("routine")
    visit.round("as_left").value("refrigerant_added", "150", "lb")
    kept.keep(story)
    place = f"/office/sites/{site}/refrigerant"
    before = words(desk.get(place))
    assert "31.2 % above the 20 % the rule names" in before
    assert re.search(r"Leak repaired not written down; 30 days end on \d\d \w{3} 2026", before)
    assert "No pounds recovered are written down" in before
    told = {"rack": "B", "kind": "first_test", "on": story.day(18, "12:00").date().isoformat(), "result": "held"}
    desk.post(f"{place}/trail", **told, what="soap on the flare, T. Okafor")
    desk.post(f"{place}/trail", rack="B", kind="recovered", on=told["on"], pounds="22.5")
    page = desk.get(place)
    assert re.search(
        r"First test that the repair holds \d\d Nov 2026, held : soap on the flare, T\. Okafor by M\. C", words(page)
    )
    assert "22.5 lb recovered in all" in words(page)
    assert "T. Okafor" in words(page)
    wrong = desk.post(f"{place}/trail", 422, rack="B", kind="recovered", on="soon", pounds="much", what="kept text")
    assert "The day is a date" in words(wrong.text)
    assert 'value="kept text"' in wrong.text
    first = re.findall(r'name="drop" value="([^"]+)"', page)[0]
    desk.post(f"{place}/trail", drop=first)
    assert len(re.findall(r'name="drop"', desk.get(place))) == 1
    desk.post(place, **{"charge-A": "620", "charge-B": "480", "method": "rolling"})
    assert len(re.findall(r'name="drop"', desk.get(place))) == 1, "charges leave the trail alone"


def test_machines_come_in_from_a_table_all_or_none(desk: Desk, site: str, kept: Kept) -> None:
    before = len(kept.phone_of(OKAFOR).get("/machines", site=site, limit=500)["items"])
    place, good = f"/office/sites/{site}/register", "tag,rack,type\nC1,C,welded-scroll\nC2,C,welded-scroll\n"
    answer = desk.post(place, 422, table=good + "C3,C,rotary\n", step="keep")
    assert "Row 4: type: Must be one of" in words(answer.text)
    assert "Nothing was entered" in answer.text
    looked = desk.post(place, 200, table=good, step="look")
    assert "2 machines can be entered: C1, C2. Nothing is written yet." in words(looked.text)
    assert len(kept.phone_of(OKAFOR).get("/machines", site=site, limit=500)["items"]) == before
    desk.post(place, table=good, step="keep")
    after = kept.phone_of(OKAFOR).get("/machines", site=site, limit=500)["items"]
    assert len(after) == before + 2
    again = desk.post(place, 422, table=good, step="keep")
    assert "Row 2: the tag 'C1' is there already." in words(again.text)


def test_search_finds_a_call_by_words_of_different_entries(desk: Desk, story: Story, kept: Kept) -> None:
    call = Visit(story, "odd", "A5", OKAFOR, story.day(3, "09:00")).open("noise", "Zebra-striped façade vent rattles")
    call.action("cleaned", "Quokkafilter washed")
    kept.keep(story)
    place = f"/office/calls/{call.call}"
    assert place in desk.get("/office/search?q=zebra+quokka")
    assert place in desk.get("/office/search?q=FACADE")
    assert "Zebra-striped" in words(desk.get("/office/search?q=quok+rattles"))
    assert "Nothing holds all these words" in words(desk.get("/office/search?q=zebra+walrus"))
    assert "Search all text" in desk.get("/office/search?q=%25_%27")


def test_search_finds_machines_by_serial_and_sites_by_name(desk: Desk, site: str, story: Story, kept: Kept) -> None:
    serial = kept.phone_of(OKAFOR).get(f"/machines/{story.machines['A5']}")["plate"]["serial"]
    assert "/office/machines/" in desk.get(f"/office/search?q={serial}")
    found, path = "", "/office/search?q=tannery+basement"
    while path and f"/office/sites/{site}" not in found:
        found = desk.get(path)
        following = re.search(r'href="(/office/search\?[^"]*before=\d+)"', found)
        path = following[1].replace("&amp;", "&") if following else ""
    assert f"/office/sites/{site}" in found


def test_calls_are_filtered_and_counted(desk: Desk, story: Story, kept: Kept) -> None:
    wanted = keep_story(story, kept, "F7")
    page = desk.get(f"/office/calls?site={story.site}&complaint=oil_trip")
    assert wanted in page
    assert "1 call, the last changed first" in words(page)
    assert "0 calls" in words(desk.get(f"/office/calls?site={story.site}&complaint=noise"))
    assert wanted in desk.get(f"/office/calls?machine={story.machines['B3']}&assigned_to=T.+Okafor")


def test_a_watch_that_ends_is_due_until_somebody_measures(desk: Desk, story: Story, kept: Kept) -> None:
    visit = Visit(story, "watched", "A5", OKAFOR, story.day(9, "09:00")).open("oil_trip")
    visit.decide("run_under_watch", "floodback", "Runs; come back.", watch_days=7)
    visit.review(visit.submit(), "accepted", hours=1)
    kept.keep(story)
    due = re.search(r'<section id="due".*?</section>', desk.get("/office"), re.S)
    assert due
    assert visit.call in due[0]
    assert "watch ended" in words(due[0])
    Visit(story, "looked", "A5", LINDQVIST, story.day(1, "09:00")).open("routine").round("as_left")
    kept.keep(story)
    assert visit.call not in (re.findall(r'<section id="due".*?</section>', desk.get("/office"), re.S) or [""])[0]
