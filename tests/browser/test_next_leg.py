"""The next leg by itself: after a pause that shows, ended by any key, never where a digit could still come."""

import re

import pytest
from playwright.sync_api import Locator, expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.sign_in()
    person.open_call("B3")
    return person


def field(technician: Technician, leg: str) -> Locator:
    return technician.page.locator(f'.field[data-field="{leg}"]')


def stands_on(technician: Technician, leg: str) -> None:
    expect(field(technician, leg)).to_have_attribute("aria-current", "true", timeout=4_000)


def test_a_leg_like_the_one_before_goes_on_by_itself_and_says_so(technician: Technician) -> None:
    page = technician.page
    technician.open_point("as_found", "line_voltage")
    page.keyboard.type("478")
    stands_on(technician, "L2-L3")
    expect(page.get_by_role("status").filter(has_text="Now L2-L3")).to_be_attached()
    page.keyboard.type("480")
    expect(field(technician, "L2-L3")).to_have_class(re.compile("is-sure"))
    page.keyboard.press("Enter")
    stands_on(technician, "L3-L1")
    page.keyboard.type("479")
    page.wait_for_timeout(1_800)
    stands_on(technician, "L3-L1")
    page.keyboard.press("Enter")
    expect(page.locator(".kept-figures")).to_have_text("478 / 480 / 479 V")


def test_any_key_ends_the_pause_and_no_digit_is_lost_to_another_leg(technician: Technician) -> None:
    page = technician.page
    technician.open_point("as_found", "line_voltage")
    page.keyboard.type("478")
    page.wait_for_timeout(600)
    page.keyboard.type(".2")
    expect(field(technician, "L1-L2")).not_to_have_class(re.compile("is-sure"))
    page.wait_for_timeout(1_800)
    stands_on(technician, "L1-L2")
    page.keyboard.press("Enter")
    page.keyboard.type("480")
    page.wait_for_timeout(1_800)
    stands_on(technician, "L2-L3")
    page.keyboard.type(".1")
    stands_on(technician, "L3-L1")
    page.keyboard.press("Backspace")
    stands_on(technician, "L2-L3")
    expect(field(technician, "L2-L3").locator(".field-text")).to_have_text("480.1")


def test_a_late_next_does_not_jump_over_the_leg_that_came_by_itself(technician: Technician) -> None:
    page = technician.page
    technician.open_point("as_found", "line_voltage")
    page.keyboard.type("478")
    stands_on(technician, "L2-L3")
    page.locator(".pad").get_by_text("Next", exact=True).click()
    stands_on(technician, "L2-L3")


def test_over_limit_goes_on_at_once_and_the_switch_turns_it_off(technician: Technician) -> None:
    page = technician.page
    technician.open_point("as_found", "winding_resistance")
    technician.page.locator(".pad").get_by_text("OL", exact=True).click()
    stands_on(technician, "T2-T3")
    technician.go("#/settings")
    page.get_by_role("button", name="By the Next key").click()
    technician.open_point("as_found", "line_voltage")
    page.keyboard.type("478")
    expect(field(technician, "L1-L2").locator(".field-text")).to_have_text("478")
    page.wait_for_timeout(1_800)
    stands_on(technician, "L1-L2")
