"""What a phone says of itself: that the browser emptied its store, that its clock is wrong; and no Web Locks at all."""

import re

import httpx
import pytest
from playwright.sync_api import expect

from seed_demo.people import OKAFOR
from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

EMPTIED = "The browser emptied this phone's store."
TWO_HOURS_AHEAD = """(() => {
    const Right = Date;
    globalThis.Date = class extends Right {
        constructor(...given) { given.length ? super(...given) : super(Right.now() + 7_500_000); }
        static now() { return Right.now() + 7_500_000; }
    };
})()"""
NO_LOCKS = "Object.defineProperty(Navigator.prototype, 'locks', { value: undefined });"


def empty(phone: Phone, address: str, kinds: str) -> None:
    session = phone.context.new_cdp_session(phone.page)
    session.send("Storage.clearDataForOrigin", {"origin": address, "storageTypes": kinds})
    session.detach()


@pytest.mark.parametrize("kinds", ["indexeddb", "indexeddb,local_storage,service_workers,cache_storage"])
def test_an_emptied_store_is_told_with_what_is_lost(demo: Server, phone: Phone, kinds: str) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.wait_until_sent()
    phone.context.set_offline(True)
    technician.read("as_found", "oil_level", {"value": "0.5"})
    empty(phone, demo.url, kinds)
    phone.context.set_offline(False)
    technician.arrive()

    notice = phone.page.locator("aside", has_text=EMPTIED)
    waited = r"What the office has comes back when you sign in\. \d entr(y|ies) kept here, not sent as of .* gone: take"
    expect(notice).to_contain_text(EMPTIED, timeout=30_000)
    assert re.search(waited, notice.inner_text())
    technician.sign_in()
    expect(notice).to_be_visible()
    notice.get_by_role("button", name="Understood").click()
    expect(notice).to_be_hidden()
    technician.arrive()
    expect(phone.page.locator(".call-card").first).to_be_visible()
    expect(notice).to_be_hidden()


def test_who_signed_out_lost_nothing(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.sign_out()
    technician.arrive()
    expect(phone.page.get_by_label("Your name")).to_be_visible()
    expect(phone.page.get_by_text(EMPTIED)).to_be_hidden()


def test_a_wrong_clock_is_told_where_people_work(demo: Server, phone: Phone) -> None:
    """Told, and nothing more: it decides nothing."""
    phone.context.add_init_script(TWO_HOURS_AHEAD)
    technician = Technician(phone, demo.url)
    technician.sign_in()
    told = phone.page.get_by_text("This phone is 2 h ahead of the office.")
    expect(told).to_be_visible(timeout=30_000)
    technician.open_call("B3")
    expect(told).to_be_visible()
    told.click()
    expect(phone.page.get_by_role("heading", name="Clocks")).to_be_visible()


def test_two_tabs_of_a_browser_without_locks_double_nothing(demo: Server, phone: Phone) -> None:
    """Both send at once, and both the same: the server tells them that it had it before."""
    phone.context.add_init_script(NO_LOCKS)
    technician = Technician(phone, demo.url)
    technician.sign_in()
    call = technician.open_call("B3")
    technician.wait_until_sent()
    other = phone.context.new_page()
    other.goto(demo.url)
    expect(other.locator(".call-card").first).to_be_visible()
    assert phone.page.evaluate("navigator.locks") is None
    phone.context.set_offline(True)
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.read("as_found", "trip_delay", {"value": "121"})
    waiting = technician.waiting()
    pushes: list[int] = []
    phone.context.on(
        "response", lambda answer: pushes.append(answer.status) if answer.request.method == "POST" else None
    )
    phone.context.set_offline(False)
    for tab in (phone.page, other):
        tab.evaluate("() => { setTimeout(() => dispatchEvent(new Event('online'))); }")
    technician.wait_until_sent()
    entries = entries_of(demo, call)
    assert len(entries) == len({entry["id"] for entry in entries})
    mine = [entry for entry in entries if entry["author"] == OKAFOR.name]
    assert len([entry for entry in mine if entry["kind"] == "reading"]) == 2
    assert waiting >= 2
    assert set(pushes) == {200}
    assert phone.page.evaluate(REFUSED) == []


REFUSED = """async () => {
    const { refusedEntries } = await import("/storage/log.js");
    return refusedEntries();
}"""


def entries_of(server: Server, call: str) -> list[dict]:
    signed_in = {"name": OKAFOR.name, "password": OKAFOR.password, "device": "test"}
    with httpx.Client(base_url=server.url + "/api/v1", trust_env=False, timeout=60) as client:
        token = client.post("/devices", json=signed_in).raise_for_status().json()["token"]
        asked = {"call": call, "limit": 1000}
        answer = client.get("/entries", params=asked, headers={"Authorization": f"Bearer {token}"})
        return answer.raise_for_status().json()["items"]
