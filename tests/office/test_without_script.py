"""What the office writes, in Chromium with scripts switched off: review, pick, map, leak, table, a page grown old."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from seed_demo.people import LINDQVIST, OKAFOR
from seed_demo.story import Story
from tests.office.desk import Desk, Kept
from tests.office.test_screens import SIZES, signed_in
from tests.server.house import House

TERMS = [f"C{number}" for number in range(1, 11)]
MAP = "\n".join(["term,current", *(f"{term},{30 if term == 'C1' else 0}" for term in TERMS)])


@pytest.fixture
def page(chromium: Browser, house: House, desk: Desk) -> Iterator[Page]:
    opened, faults = signed_in(chromium, house, SIZES["tablet"], script=False)
    yield opened
    assert [fault for fault in faults if "the server responded with a status of 4" not in fault] == []
    opened.context.close()


@pytest.fixture
def machine(story: Story, kept: Kept) -> str:
    kept.keep(story)
    return story.machines["B1"]


def test_a_call_is_sent_back_for_a_reading(page: Page, submitted: str, kept: Kept) -> None:
    page.goto(f"/office/calls/{submitted}")
    page.click(".ask summary")
    page.select_option("[name=points]", ["oil_acid"])
    page.click("button[value=returned]")
    assert "Sent back" in page.inner_text("[role=status]")
    assert kept.phone_of(OKAFOR).get(f"/calls/{submitted}")["state"] == "returned"


def test_a_page_grown_old_says_what_came_and_keeps_the_note(page: Page, submitted: str, kept: Kept) -> None:
    page.goto(f"/office/calls/{submitted}")
    page.fill("textarea[name=note]", "keep this note")
    kept.phone_of(OKAFOR).write("sign", {"sign": "knock", "present": False, "note": "gone"}, submitted)
    page.click("button[value=accepted]")
    told = page.inner_text("[role=alert]")
    assert "something came since you opened this page" in told
    assert "Seen, T. Okafor: Knocks: no (gone)" in told
    assert page.input_value("textarea[name=note]") == "keep this note"
    page.click("button[value=accepted]")
    assert page.inner_text("[role=status]") == "Accepted."


def test_a_version_is_picked(page: Page, submitted: str, kept: Kept) -> None:
    marks = {"done": {"locked": "2026-11-24T05:39:00-06:00"}}
    theirs = [entry for entry in kept.phone_of(OKAFOR).pull(call=submitted) if entry["kind"] == "call"][-1]
    for person, extra in ((OKAFOR, marks), (LINDQVIST, {"skipped": {"oil": {"reason": "no gauge"}}})):
        kept.phone_of(person).write("call", {"extra": extra}, submitted, base=[theirs["id"]])
    page.goto(f"/office/calls/{submitted}")
    clash = page.locator(".clash")
    assert "marks of the phone" in clash.inner_text()
    assert "marked done: Its own disconnect open, locked and tagged" in clash.inner_text()
    page.check(".clash label:has-text('left out: Oil side, because no gauge') input")
    page.click(".clash button.main")
    assert "Settled" in page.inner_text("[role=status]")
    assert page.locator(".clash").count() == 0
    assert "Left out: oil side" in page.inner_text(".marks")


def test_a_map_is_pasted_wrong_then_drawn_then_written(page: Page, machine: str, kept: Kept) -> None:
    page.goto(f"/office/machines/{machine}/ratings")
    page.fill("[name=table]", MAP.replace("C4,0", "C4,zero").replace("C7,0\n", ""))
    page.click("button[value=keep]")
    told = page.inner_text("[role=alert]")
    assert "Row 5, current: 'zero' is no number with a decimal point." in told
    assert "Missing: C7." in told
    page.fill("[name=table]", MAP)
    page.click("button[value=look]")
    assert page.locator("svg.chart").count() == 1
    page.click("button[value=keep]")
    assert "The rating map is written down" in page.inner_text("[role=status]")
    assert kept.phone_of(OKAFOR).get(f"/machines/{machine}")["plate"]["ratings"]["current"][0] == 30


def test_machines_come_in_from_a_table_row_by_row_or_not_at_all(page: Page, machine: str, story: Story) -> None:
    page.goto(f"/office/sites/{story.site}/register")
    page.fill("[name=table]", "tag,rack,type\nC1,C,welded-scroll\nB1,B,welded-scroll\nC3,C,rotary\n")
    page.click("button[value=keep]")
    told = page.inner_text("[role=alert]")
    assert "Nothing was entered" in told
    assert "Row 3" in told
    assert "Row 4" in told
    assert "C1,C,welded-scroll" in page.input_value("[name=table]")


def test_a_machine_out_of_service_is_hidden_and_its_history_stays(page: Page, submitted: str, story: Story) -> None:
    machine = story.machines["A1"]
    page.goto(f"/office/machines/{machine}")
    page.click("button[value=yes]")
    assert "Out of service" in page.inner_text("[role=status]")
    page.goto(f"/office/sites/{story.site}")
    assert page.locator(f".worst a[href='/office/machines/{machine}']").count() == 0
    page.goto(f"/office/machines/{machine}")
    assert page.locator(f"a[href='/office/calls/{submitted}']").count() >= 1


def test_a_repair_of_a_leak_is_written_down(page: Page, machine: str, story: Story) -> None:
    page.goto(f"/office/sites/{story.site}/refrigerant")
    page.select_option("[name=kind]", "first_test")
    page.fill("[name=on]", "2026-11-02")
    page.click("#trail button.main")
    assert "Say of a test whether the repair held." in page.inner_text("[role=alert]")
    page.select_option("[name=result]", "held")
    page.click("#trail button.main")
    assert "First test that the repair holds, 02 Nov 2026, held" in page.inner_text("section.rack >> nth=0")
