"""One witnessed start, three legs together or one leg a start: the wait timed, the rate counted, nothing blocked."""

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.places import entries_of
from tests.browser.technician import Technician
from tests.browser.test_every_screen import AXE, FOUND
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

PAST = "document.documentElement.scrollWidth - document.documentElement.clientWidth"

CUT = """() => [...document.querySelectorAll("main, .reading-scroll, .foot, .foot-row")]
    .filter((part) => part.scrollWidth > part.clientWidth).map((part) => part.className)"""


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.settle_in()
    person.open_call("B3")
    person.step("start")
    phone.page.get_by_role("link", name="One leg a start").click()
    phone.page.get_by_role("button", name="Understood, go on").click()
    return person


def leg(page: Page, name: str) -> Locator:
    return page.get_by_role("list", name="Start amps").get_by_role("listitem").filter(has_text=name)


def keep_amps(technician: Technician, amps: str) -> None:
    expect(technician.page.locator(".field")).to_have_count(2)
    technician.page.keyboard.type(amps)
    technician.page.locator(".pad").get_by_text("Keep", exact=True).click()


def start_early(technician: Technician, reason: str) -> None:
    page = technician.page
    page.get_by_text("Start before that, because…").click()
    page.get_by_label("Why").fill(reason)
    page.get_by_role("button", name="It starts now, all the same").click()


def test_three_legs_in_three_starts_with_the_wait_between_them(demo: Server, technician: Technician) -> None:
    page = technician.page
    expect(page.get_by_text("0 of 6 usual starts in the last hour, 10 at the most.")).to_be_visible()
    expect(leg(page, "L1")).to_contain_text("next")
    page.get_by_role("button", name="It starts now").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Start amps L1")
    page.get_by_role("link", name="One leg a start").click()
    expect(page.get_by_text(re.compile("Started at .* on L1"))).to_be_visible()
    page.reload()
    page.get_by_role("link", name="Amps of L1").click()
    keep_amps(technician, "148")

    wait = page.locator('[data-clock="next_start_allowed"]')
    expect(wait).to_contain_text(re.compile(r"4:\d\d to wait, until \d\d:\d\d"))
    expect(leg(page, "L1")).to_contain_text("148 A")
    expect(page.get_by_text("1 of 6 usual starts in the last hour")).to_be_visible()
    page.reload()
    expect(wait).to_contain_text("Clamp on L2")
    expect(page.get_by_role("button", name="It starts now", exact=True)).to_have_count(0)
    for amps in ("150", "147"):
        start_early(technician, "the food is warming")
        keep_amps(technician, amps)
    expect(page.get_by_text("All three legs are caught.")).to_be_visible()
    expect(page.locator('[data-check="start_current"]')).to_be_visible()
    expect(technician.gate("restart")).to_contain_text("the food is warming")

    technician.wait_until_sent()
    assert page.locator(".is-alarm").count() == 0, "the office refused something"
    entries = entries_of(demo, technician.call)
    amps = [entry for entry in entries if entry["kind"] == "reading" and "L1" in entry["body"].get("legs", {})]
    assert [list(entry["body"]["legs"].values()) for entry in amps[-3:]] == [
        ["148"],
        ["148", "150"],
        ["148", "150", "147"],
    ]
    assert amps[-3]["body"]["same_start"] is False
    starts = [entry["body"]["at"] for entry in entries if entry["body"].get("what") == "start"]
    assert amps[-3]["body"]["at"] in starts, "the reading carries the moment of its start"


def test_a_start_that_was_not_caught_asks_the_same_leg_and_a_locked_one_waits_half_an_hour(
    technician: Technician,
) -> None:
    page = technician.page
    page.get_by_role("button", name="It starts now").click()
    page.get_by_role("link", name="One leg a start").click()
    page.get_by_role("button", name="Not caught").click()
    expect(page.locator('[data-clock="next_start_allowed"]')).to_contain_text("Clamp on L1")
    start_early(technician, "it is still equalised")
    page.get_by_role("link", name="One leg a start").click()
    page.get_by_role("button", name="It did not turn").click()
    expect(page.locator('[data-clock="next_start_allowed"] [role="timer"]')).to_have_text(re.compile(r"^(29|30):\d\d$"))


def test_volts_of_the_same_start_are_offered_beside_and_three_together_stay_one_tap_away(
    technician: Technician,
) -> None:
    page = technician.page
    page.get_by_role("button", name="It starts now").click()
    keep_amps(technician, "148")
    page.get_by_role("link", name="Least volts T1-T2, same start").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Least volts during the start, T side T1-T2")
    page.keyboard.type("428")
    page.locator(".pad").get_by_text("Keep", exact=True).click()
    expect(page.get_by_role("heading", name="One leg a start")).to_be_visible()
    expect(page.get_by_text("same start")).to_have_count(0)
    technician.step("start")
    page.get_by_role("link", name="Three legs in one start").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Start amps")


@pytest.mark.parametrize(("theme", "width"), [("dark", 390), ("sun", 320)])
def test_the_screen_stands_in_nobodys_way(technician: Technician, theme: str, width: int) -> None:
    page = technician.page
    page.set_viewport_size({"width": width, "height": 844 if width == 390 else 568})
    page.evaluate(AXE.read_text())
    faults = []
    for look in ("start", "read", "wait"):
        if look == "read":
            reach(page, "It starts now")
            page.get_by_role("link", name="One leg a start").click()
        if look == "wait":
            reach(page, "Amps of L1")
            expect(page.locator(".pad")).to_be_visible()
            field, pad = page.locator(".field").first.bounding_box(), page.locator(".pad").bounding_box()
            assert field["y"] + field["height"] <= pad["y"], "two clocks leave no room for the field"
            page.keyboard.type("148")
            page.keyboard.press("Enter")
            page.keyboard.press("Enter")
            expect(page.get_by_text("Start before that, because…")).to_be_visible()
        page.evaluate("theme => { document.documentElement.dataset.theme = theme; }", theme)
        faults += [f"{look}: {fault}" for fault in page.evaluate(FOUND)]
        past = page.evaluate(PAST)
        faults += [f"{look}: {past} px past the edge"] if past > 0 else []
    assert faults == []


def test_a_spanish_phone_knows_the_rate_and_nothing_is_cut(technician: Technician) -> None:
    page = technician.page
    page.set_viewport_size({"width": 320, "height": 568})
    page.evaluate("localStorage.setItem('language', 'es')")
    page.reload()
    expect(page.get_by_text("0 de 6 arranques usuales en la última hora, 10 como máximo.")).to_be_visible()
    page.get_by_role("button", name="Arranca ahora").click()
    expect(page.locator(".pad")).to_be_visible()
    technician.go(f"#/call/{technician.call}/as_found/oil_level")
    page.locator(".caution .big-button").or_(page.locator(".pad")).first.wait_for()
    if page.locator(".caution").count():
        page.locator(".caution .big-button").click()
    page.keyboard.type("0.5")
    page.locator(".pad .is-keep").click()
    expect(page.locator(".kept-figures")).to_be_visible()
    assert page.evaluate(CUT) == []


def reach(page: Page, name: str) -> None:
    """Come to a button or link by the Tab key alone and press it."""
    expect(page.get_by_role("button", name=name, exact=True).or_(page.get_by_role("link", name=name))).to_be_visible()
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent").strip() == name:
            return page.keyboard.press("Enter")
    raise AssertionError(f"{name} is out of the keyboard's reach")
