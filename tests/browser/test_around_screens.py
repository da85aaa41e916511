"""The screens around the job by axe-core, by keyboard, at 320 px, in both themes and in the largest letters."""

import re
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from tests.browser.technician import Technician
from tests.browser.test_every_screen import AXE, FOUND
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

ALONE = ("#/settings", "#/diagnose", "#/carry", "#/code/", "#/")
IN_CALL = ("photos", "measure", "findings", "as_found/insulation_resistance", "as_found/oil_level")
PAST = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture
def technician(demo: Server, phone: Phone, tmp_path: Path) -> Technician:
    """Somebody with a photo, a running clock and a reading on an open call."""
    person = Technician(phone, demo.url)
    person.settle_in()
    person.open_call("B3")
    person.read("as_found", "oil_level", {"value": "0.5"})
    picture = tmp_path / "panel.png"
    Image.new("RGB", (640, 480), (90, 120, 90)).save(picture)
    person.go(f"#/call/{person.call}/photos")
    phone.page.get_by_label("Panel", exact=True).set_input_files(picture)
    expect(phone.page.locator("img.photo-small")).to_be_visible()
    person.open_point("as_found", "insulation_resistance")
    phone.page.get_by_role("button", name="Start 60 s").click()
    return person


def places(technician: Technician) -> list[str]:
    machine = technician.page.evaluate("""async () => {
        const { rowsOfKinds } = await import("/storage/log.js");
        return (await rowsOfKinds(["machine"]))[0].id;
    }""")
    technician.go(f"#/call/{technician.call}/photos")
    photo = technician.page.locator(".photos a").get_attribute("href")
    return [*ALONE, f"#/machine/{machine}", photo, *(f"#/call/{technician.call}/{place}" for place in IN_CALL)]


@pytest.mark.parametrize(("theme", "width", "letters"), [("dark", 390, "usual"), ("sun", 320, "largest")])
def test_nothing_stands_in_anybodys_way(technician: Technician, theme: str, width: int, letters: str) -> None:
    page = technician.page
    page.set_viewport_size({"width": width, "height": 844 if width == 390 else 568})
    technician.go("#/settings")
    choose(page, {"dark": "Dark room", "sun": "Sunlight"}[theme])
    choose(page, letters.capitalize())
    page.evaluate(AXE.read_text())
    faults = []
    for place in places(technician):
        technician.go(place)
        page.locator("main:not([aria-busy])").wait_for()
        faults += [f"{place}: {fault}" for fault in page.evaluate(FOUND)]
        past = page.evaluate(PAST)
        faults += [f"{place}: {past} px past the edge"] if past > 0 else []
    assert faults == []


def choose(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()
    expect(page.get_by_role("button", name=name, exact=True)).to_have_attribute("aria-pressed", "true")


def test_settings_are_chosen_by_keyboard_alone_and_stay(technician: Technician) -> None:
    page = technician.page
    technician.go("#/settings")
    expect(page.get_by_role("heading", name="Settings")).to_be_visible()
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Sunlight":
            break
    page.keyboard.press("Enter")
    expect(page.locator("html")).to_have_attribute("data-theme", "sun")
    page.reload()
    expect(page.locator("html")).to_have_attribute("data-theme", "sun")


def test_a_clock_and_a_camera_have_names_for_ears(technician: Technician) -> None:
    page = technician.page
    technician.go(f"#/call/{technician.call}/photos")
    expect(page.get_by_role("link", name=re.compile("^Panel, today"))).to_be_visible()
    technician.go(f"#/call/{technician.call}/measure")
    expect(page.get_by_role("region", name="Clocks").get_by_role("timer")).to_be_visible()
    expect(page.get_by_role("link", name="Photos")).to_be_visible()
