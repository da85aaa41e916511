"""One reading under the thumb: held by its caution, judged as it is typed, corrected without being overwritten."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.sign_in()
    person.open_call("B3")
    return person


def test_the_field_waits_for_the_caution_and_asks_it_once(technician: Technician) -> None:
    page = technician.page
    technician.go(f"#/call/{technician.call}/as_found/line_voltage")
    expect(page.get_by_role("alert")).to_contain_text("Energised.")
    page.keyboard.type("4")
    expect(page.locator(".pad")).not_to_be_visible()
    page.get_by_role("button", name="Understood, go on").click()
    expect(page.locator(".pad")).to_be_visible()
    technician.go(f"#/call/{technician.call}/as_left/line_voltage")
    expect(page.locator(".pad")).to_be_visible()
    page.reload()
    expect(page.locator(".pad")).to_be_visible()


def test_the_verdict_lands_with_the_digit_and_the_unit_is_locked(technician: Technician) -> None:
    page = technician.page
    technician.open_point("as_found", "line_voltage")
    expect(page.get_by_label("Unit")).to_be_enabled()
    page.keyboard.type("478")
    expect(page.get_by_label("Unit")).to_be_disabled()
    expect(page.locator(".stage circle.rail-mark.is-pass")).to_have_count(1)
    expect(page.locator(".stage .rail-line.is-dashed")).to_have_count(2)
    page.keyboard.press("Enter")
    page.keyboard.type("480")
    expect(page.locator(".stage circle.rail-mark.is-pass")).to_have_count(2)
    page.keyboard.press("Enter")
    page.keyboard.type("47")
    expect(page.locator(".rail-mark.is-fail")).to_have_count(0)
    page.keyboard.type("0")
    expect(page.locator(".verdict-line")).to_contain_text("watch")
    expect(page.locator("polygon.rail-mark.is-watch").first).to_be_visible()
    page.keyboard.press("Backspace")
    page.keyboard.type("9")
    expect(page.locator(".stage circle.rail-mark.is-pass")).to_have_count(3)
    expect(page.get_by_text("Last visit")).to_be_visible()
    page.keyboard.press("Enter")
    expect(page.get_by_text("Kept on this phone at")).to_be_visible()
    expect(page.locator('[data-check="supply_voltage_unbalance"]')).to_have_attribute("data-verdict", "pass")


def test_a_correction_keeps_the_first_reading_in_sight(technician: Technician) -> None:
    page = technician.page
    technician.read("as_found", "insulation_resistance", {"value": "110"}, Motor_leads="off")
    page.get_by_role("link", name="Correct it").click()
    expect(page.get_by_text("Correcting. The first reading stays in the log.")).to_be_visible()
    technician.type_into("value", "0")
    page.get_by_role("button", name="Keep the correction").click()
    expect(page.locator(".kept-figures")).to_have_text("1100 MΩ")
    expect(page.locator("s")).to_have_text("110 MΩ")
    expect(page.locator('[data-check="insulation"]')).to_have_attribute("data-verdict", "pass")
    technician.wait_until_sent()
    assert technician.page.locator(".is-alarm").count() == 0, "the office refused the correction"


def test_not_taken_is_an_answer_with_its_reason(technician: Technician) -> None:
    technician.open_point("as_found", "winding_resistance")
    technician.page.get_by_role("button", name="Not taken, because…").click()
    technician.page.get_by_label("Another reason").fill("terminal box painted shut")
    technician.page.get_by_role("button", name="Keep the reason").click()
    expect(technician.page.locator(".kept-figures")).to_have_text("not taken: terminal box painted shut")
    technician.step("isolated")
    expect(technician.page.locator(".point-row", has_text="Winding ohms")).to_contain_text("not taken")


def test_over_limit_and_greater_than_are_keys(technician: Technician) -> None:
    technician.open_point("as_found", "winding_resistance")
    for field in ("T1-T2", "T2-T3"):
        technician.type_into(field, "OL")
    technician.type_into("T3-T1", ">200")
    expect(technician.page.locator('[data-field="T1-T2"] .field-text')).to_have_text("OL")
    technician.keep()
    expect(technician.page.locator(".kept-figures")).to_have_text("OL / OL / >200 Ω")


PLACES = ("", "ready", "new", "measure", "signs", "findings", "close", "as_found/line_voltage")


def test_nothing_runs_off_a_small_screen(technician: Technician) -> None:
    page = technician.page
    page.set_viewport_size({"width": 320, "height": 568})
    for place in PLACES:
        alone = place in ("", "ready", "new")
        technician.go("#/" + place if alone else f"#/call/{technician.call}/{place}")
        expect(page.locator("main")).to_be_visible()
        assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") == 0, place
        for button in page.get_by_role("button").all():
            box = button.bounding_box()
            assert box is None or min(box["width"], box["height"]) >= 40, (place, button.inner_text())


def test_the_pad_is_whole_and_big_on_a_small_screen(technician: Technician) -> None:
    page = technician.page
    page.set_viewport_size({"width": 320, "height": 568})
    technician.open_point("as_found", "line_voltage")
    for key in page.locator(".pad .key").all():
        box = key.bounding_box()
        assert box["height"] >= 56
        assert box["y"] + box["height"] <= 568, key.inner_text()
    names = [key.get_attribute("aria-label") or key.inner_text() for key in page.locator(".pad .key").all()]
    assert all(re.search(r"\w|\.", name) for name in names)
