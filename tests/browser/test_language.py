"""Another language: page and engine speak it, offline too, and what was typed is not lost on the way."""

import re

from playwright.sync_api import expect

from tests.browser.technician import Technician
from tests.browser.test_every_screen import ALONE, PLACES
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

# Everyday words that only English has, and the words of points; what the demo's people wrote is theirs.
ENGLISH = re.compile(
    r"\b(the|of|and|not|with|from|this|read|before|open|next|keep|leg|legs|oil|clear|straw|amber|milky|reading)\b"
)
CUT = """() => [...document.querySelectorAll("main, .reading-scroll, .foot-row, .tabs, .tabs a, .clock, .pad")]
    .filter((one) => one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline")
    .map((one) => `${one.className} is ${one.scrollWidth} in ${one.clientWidth}`)"""
TOLD = "Oil failure B3, reset three times by night staff, will not stay."


def test_a_reading_is_judged_in_spanish_without_signal(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.settle_in()
    technician.open_call("B3")
    technician.open_point("as_found", "line_voltage")
    technician.type_into("L1-L2", "478")
    phone.page.wait_for_timeout(300)
    phone.context.set_offline(True)
    technician.go("#/settings")
    phone.page.get_by_role("button", name="Español").click()

    expect(phone.page.get_by_role("heading", name="Ajustes")).to_be_visible()
    expect(phone.page.locator("html")).to_have_attribute("lang", "es")
    expect(phone.page.get_by_role("button", name="Español")).to_have_attribute("aria-pressed", "true")
    technician.go(f"#/call/{technician.call}/as_found/line_voltage")
    heard = phone.page.get_by_role("button", name="Entendido, seguir")
    first = phone.page.locator('.field[data-field="L1-L2"]')
    expect(heard.or_(first).first).to_be_visible()
    if heard.is_visible():
        heard.click()
    expect(first.locator(".field-text")).to_have_text("478")
    technician.type_into("L2-L3", "480")
    technician.type_into("L3-L1", "479")
    expect(phone.page.get_by_text("Todas las fases están dentro de 1 % del promedio.")).to_be_visible()
    phone.page.get_by_role("button", name="Guardar", exact=True).click()
    expect(phone.page.get_by_text("Guardada en este teléfono a las")).to_be_visible()


def test_si_units_are_offered_first_and_what_was_read_is_left_alone(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.read("as_found", "suction_pressure", {"value": "24"}, state="running")
    technician.go("#/settings")
    phone.page.get_by_role("button", name="SI (°C, kPa)").click()
    technician.go(f"#/call/{technician.call}/as_found/suction_pressure")
    expect(phone.page.locator(".kept-figures")).to_have_text("24 psig")
    phone.page.reload()
    technician.open_point("as_found", "discharge_pressure")
    unit = phone.page.get_by_label("Unit", exact=True)
    expect(unit).to_have_value("kPa")
    technician.type_into("value", "1300")
    expect(unit).to_be_disabled()
    expect(phone.page.locator('.field[data-field="value"] .field-unit')).to_have_text("kPa")


def test_every_screen_speaks_spanish_and_cuts_nothing_on_the_smallest_phone(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    page = phone.page
    page.evaluate("localStorage.setItem('language', 'es')")
    page.set_viewport_size({"width": 320, "height": 568})
    page.reload()
    faults = []
    for place in ("settings", "diagnose", "carry", "code/", *PLACES):
        alone = place in ALONE or place in {"settings", "diagnose", "carry", "code/"}
        technician.go(f"#/{place}" if alone else f"#/call/{technician.call}/{place}")
        page.locator("main:not([aria-busy])").wait_for()
        said = page.locator("body").inner_text().replace(TOLD, "")
        faults += [f"{place}: {found.group()}" for found in ENGLISH.finditer(said.lower())]
        faults += [f"{place}: {cut}" for cut in page.evaluate(CUT)]
    assert faults == [], "\n".join(faults)
