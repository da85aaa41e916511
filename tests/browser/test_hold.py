"""Press and hold corrects a kept reading: a new entry, with the old one struck, by whom and when."""

import re

import pytest
from playwright.sync_api import Locator, expect

from seed_demo.people import OKAFOR
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

LEGS = {"L1-L2": "478", "L2-L3": "480", "L3-L1": "497"}


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.sign_in()
    person.open_call("B3")
    person.read("as_found", "line_voltage", LEGS)
    return person


WATCH = """() => { globalThis.shown = [];
    new MutationObserver((seen) => seen.forEach(({ target }) => {
        if (target.hasAttribute("data-held")) shown.push(getComputedStyle(target, "::after").animationName);
    })).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-held"] });
}"""
PRESS = """(element, { kind, after }) => new Promise((done) => {
    const point = (name, x) => element.dispatchEvent(
        new PointerEvent(name, { bubbles: true, isPrimary: true, button: 0, clientX: x, clientY: 50 }));
    point("pointerdown", 50);
    setTimeout(() => point(kind, 90), after);
    setTimeout(() => { done(document.querySelectorAll("[data-held]").length); point("pointerup", 90); }, 900);
})"""


def hold(technician: Technician, what: Locator) -> None:
    """Press, wait more than half a second, let go."""
    technician.page.evaluate(WATCH)
    box = what.bounding_box()
    technician.page.mouse.move(box["x"] + 30, box["y"] + box["height"] / 2)
    technician.page.mouse.down()
    technician.page.wait_for_timeout(800)
    technician.page.mouse.up()


def correct_last_leg(technician: Technician) -> None:
    expect(technician.page.get_by_text("Correcting. The first reading stays in the log.")).to_be_visible()
    technician.type_into("L3-L1", "")
    for _ in range(2):
        technician.page.get_by_role("button", name="Delete last digit").click()
    technician.type_into("L3-L1", "79")
    technician.page.get_by_role("button", name="Keep the correction").click()


def test_holding_the_figures_opens_their_correction_and_the_old_ones_stay(technician: Technician) -> None:
    page = technician.page
    hold(technician, page.locator(".kept-figures"))
    assert page.evaluate("shown") == ["holding"]
    expect(page.locator(".strip s")).to_have_text("478 / 480 / 497 V")
    correct_last_leg(technician)
    expect(page.locator(".kept-figures")).to_have_text("478 / 480 / 479 V")
    expect(page.locator(".versions li")).to_have_text(re.compile(rf"478 / 480 / 497 V {OKAFOR.name}, \d\d:\d\d"))

    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Correcting. The first reading stays in the log.")).to_be_visible()
    technician.step("supply")
    expect(page.locator(".point-row", has_text="Line volts, L side")).to_contain_text("478 / 480 / 497 V")


def test_a_short_press_or_a_thumb_that_strays_corrects_nothing(technician: Technician) -> None:
    page = technician.page
    for kind, after in (("pointerup", 200), ("pointermove", 100)):
        held = page.locator(".kept-figures").evaluate(PRESS, {"kind": kind, "after": after})
        assert held == 0
        expect(page.get_by_text("Kept on this phone at")).to_be_visible()


def test_holding_a_row_of_the_round_corrects_and_a_tap_still_opens_it(technician: Technician) -> None:
    page = technician.page
    page.emulate_media(reduced_motion="reduce")
    technician.step("supply")
    row = page.locator(".point-row", has_text="Line volts, L side")
    hold(technician, row)
    assert page.evaluate("shown") == ["none"]
    correct_last_leg(technician)
    technician.step("supply")
    row.click()
    expect(page.locator(".kept-figures")).to_have_text("478 / 480 / 479 V")
    link = page.get_by_role("link", name="Correct it")
    link.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_text("Correcting. The first reading stays in the log.")).to_be_visible()
