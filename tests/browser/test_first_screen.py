"""The calls stand before the rest of the page is fetched, and a tap that comes early is not lost."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

WATCH = """new MutationObserver((_, watching) => {
    const card = document.querySelector(".call-card");
    if (!card) return;
    watching.disconnect();
    self.listed = performance.now();
    self.early = document.querySelector(".send-line").innerText;
    if (sessionStorage.getItem("quick")) card.click();
}).observe(document, { childList: true, subtree: true });"""
ASKED = "performance.getEntriesByType('resource').filter(({ name }) => name.endsWith('/app/beyond.js'))[0]?.startTime"


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    """Somebody whose phone holds the page, two entries unsent, and has lost the line."""
    person = Technician(phone, demo.url)
    person.settle_in()
    person.open_call("B3")
    phone.context.set_offline(True)
    person.read("as_found", "oil_level", {"value": "0.5"})
    phone.context.add_init_script(WATCH)
    return person


def test_the_list_waits_for_nothing_it_does_not_show(technician: Technician) -> None:
    page = technician.page
    technician.go("#/")
    page.reload()
    technician.wait_until_ready()
    assert page.evaluate("self.listed") < page.evaluate(ASKED)
    assert "2 entries kept, not yet sent" in page.evaluate("self.early")


def test_a_tap_before_the_rest_is_there_opens_the_call(technician: Technician) -> None:
    page = technician.page
    technician.go("#/")
    page.evaluate("sessionStorage.setItem('quick', 'yes')")
    page.reload()
    expect(page.locator(".point-row").first).to_be_visible()
    expect(page).to_have_url(re.compile("#/call/"))


def test_another_screen_is_fetched_with_everything_at_once(technician: Technician) -> None:
    page = technician.page
    technician.tab("findings")
    page.reload()
    expect(page.locator("[data-check=oil_level]").first).to_be_visible()
    assert page.evaluate("self.listed") is None


def test_a_line_that_breaks_half_way_is_told_and_the_page_starts_anew(demo: Server, phone: Phone) -> None:
    page = phone.page
    page.route("**/app/beyond.js", lambda route: route.abort())
    page.goto(demo.url)
    expect(page.get_by_text("The line broke before the page was whole.")).to_be_visible()
    page.unroute("**/app/beyond.js")
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.get_by_label("Your name")).to_be_visible()
