"""How many taps a round of twelve legs takes beyond its digits, and how long the page lets a thumb wait."""

import time

from playwright.sync_api import Page, expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

ROUND = (
    ("line_voltage", ("478", "480", "479")),
    ("load_voltage", ("477", "479", "478")),
    ("running_current", ("33.1", "33.4", "32.9")),
    ("pole_drop", ("40", "42", "39")),
)
COUNT = """() => { self.taps = { digits: 0, others: 0 }; addEventListener("click", ({ target }) => {
    const key = target.closest(".key")?.textContent.trim() ?? "";
    self.taps[/^[0-9.]$/.test(key) ? "digits" : "others"] += 1;
}, true); }"""


def go_to_next_leg(page: Page) -> None:
    """Wait where the leg goes on by itself, as while the probes move; press Next where it waits for that."""
    left = page.locator('.field[aria-current="true"]').get_attribute("data-field")
    if page.locator(".field.is-sure").count():
        page.locator(f'.field[data-field="{left}"][aria-current="false"]').wait_for()
    else:
        page.locator(".pad").get_by_text("Next", exact=True).click()


def test_twelve_legs_take_at_most_four_taps_a_leg_beyond_digits(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    page = technician.page
    page.evaluate(COUNT)
    began = time.monotonic()
    for point, values in ROUND:
        technician.go(f"#/call/{technician.call}/as_found/{point}")
        page.evaluate("() => { self.taps.others += 1; }")  # the tap on the list or on "Next: …" that leads here
        heard = page.get_by_role("button", name="Understood, go on")
        expect(heard.or_(page.locator(".pad")).first).to_be_visible()
        if heard.is_visible():
            heard.click()
        running = page.get_by_role("group", name="Machine", exact=True).get_by_role("button", name="Running")
        if running.count() and running.get_attribute("aria-pressed") != "true":
            running.click()
        for place, value in enumerate(values):
            for digit in value:
                page.locator(".pad").get_by_text(digit, exact=True).click()
            if place == 2:
                page.locator(".pad").get_by_text("Keep", exact=True).click()
            else:
                go_to_next_leg(page)
        expect(page.get_by_text("Kept on this phone at")).to_be_visible()
    seconds = time.monotonic() - began
    taps = page.evaluate("self.taps")
    print(f"\n12 legs: {taps['digits']} digits, {taps['others']} other taps, {seconds:.1f} s by a machine's thumb")
    assert taps["digits"] == sum(len(value) for _, values in ROUND for value in values)
    assert taps["others"] <= 2 * 12
