"""Clocks: started by hand beside the reading, true after a reload or a dead phone, told when they are over."""

import re

from playwright.sync_api import Page, expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

AGO = """(seconds) => new Promise((done) => {
    const asked = indexedDB.open("rackside");
    asked.onsuccess = () => {
        const meta = asked.result.transaction("meta", "readwrite").objectStore("meta");
        meta.get("timers").onsuccess = ({ target }) => {
            const back = seconds * 1000;
            const moved = target.result.map((one) => ({ ...one, began: one.began - back, due: one.due - back }));
            meta.put(moved, "timers").onsuccess = () => { asked.result.close(); done(); };
        };
    };
})"""


def start_the_insulation_minute(demo: Server, phone: Phone) -> Technician:
    technician = Technician(phone, demo.url)
    technician.settle_in()
    technician.open_call("B3")
    technician.open_point("as_found", "insulation_resistance")
    phone.page.get_by_role("button", name="Start 60 s").click()
    expect(phone.page.locator(".clock-left")).to_have_text(re.compile(r"^0:5\d$|^1:00$"))
    return technician


def seconds_left(page: Page) -> int:
    minutes, seconds = page.locator(".clock-left").inner_text().split(":")
    return int(minutes) * 60 + int(seconds)


def test_a_clock_goes_on_while_the_phone_is_dead_and_says_when_it_is_over(demo: Server, phone: Phone) -> None:
    technician = start_the_insulation_minute(demo, phone)
    phone.page.wait_for_timeout(300)
    phone.kill()
    phone.open()
    phone.page.goto(f"{demo.url}/#/call/{technician.call}/measure")
    assert 20 < seconds_left(phone.page) < 60
    silent = phone.page.get_by_text("No sound will come until you touch this page once.")
    expect(silent).to_be_visible()
    phone.page.get_by_role("heading", level=1).click()
    expect(silent).to_have_count(0)
    expect(phone.page.get_by_text("Sound and vibration only while this page is in front.")).to_be_visible()

    phone.page.evaluate(AGO, 75)
    phone.page.reload()
    expect(phone.page.locator(".clock.is-over .clock-left")).to_have_text(re.compile(r"^0:\d\d over$"))
    expect(phone.page.get_by_role("alert")).to_contain_text("Insulation minute: time is up")
    phone.page.get_by_role("button", name="Put away: Insulation minute").click()
    expect(phone.page.locator(".clock")).to_have_count(0)


LOCKS = """
    globalThis.locks = [];
    navigator.wakeLock.request = async (kind) => {
        const lock = new EventTarget();
        lock.release = async () => { locks.push("released"); lock.dispatchEvent(new Event("release")); };
        globalThis.held = lock;
        locks.push(kind);
        return lock;
    };
"""
TURN = """(seen) => {
    Object.defineProperty(document, "visibilityState", { value: seen ? "visible" : "hidden", configurable: true });
    if (!seen) held.dispatchEvent(new Event("release"));
    document.dispatchEvent(new Event("visibilitychange"));
}"""
STARTED_AGO = """async (seconds) => {
    const real = Date.now;
    Date.now = () => real() + seconds * 1000;
}"""


def test_the_screen_is_held_while_a_clock_runs_and_let_go_after(demo: Server, phone: Phone) -> None:
    phone.context.add_init_script(LOCKS)
    technician = start_the_insulation_minute(demo, phone)
    technician.go(f"#/call/{technician.call}/measure")
    expect(phone.page.get_by_text("The screen stays on while it runs.")).to_be_visible()
    assert phone.page.evaluate("locks") == ["screen"]
    phone.page.get_by_role("button", name="Put away: Insulation minute").click()
    expect(phone.page.locator(".clock")).to_have_count(0)
    assert phone.page.evaluate("locks") == ["screen", "released"]


def test_a_browser_that_refuses_to_stay_awake_is_told_plainly(demo: Server, phone: Phone) -> None:
    phone.context.add_init_script("navigator.wakeLock.request = () => Promise.reject(new Error('battery low'));")
    technician = start_the_insulation_minute(demo, phone)
    technician.go(f"#/call/{technician.call}/measure")
    expect(phone.page.get_by_text("This browser may lock the screen; the time goes on all the same.")).to_be_visible()


def test_a_start_that_was_read_makes_the_wait_a_tile_by_itself(demo: Server, phone: Phone) -> None:
    technician = Technician(phone, demo.url)
    technician.settle_in()
    technician.open_call("B3")
    amps = {"L1": "150", "L2": "151", "L3": "149"}
    technician.read("interim", "start_current", {**amps, "duration": "0.6"}, Meter_caught_it_as="inrush")
    technician.go(f"#/call/{technician.call}/measure")
    wait = phone.page.locator('[data-clock="next_start_allowed"]')
    expect(wait).to_contain_text("Wait between starts")
    expect(wait.locator(".clock-left")).to_have_text(re.compile(r"^4:\d\d$|^5:00$"))


def test_the_wait_between_starts_holds_the_screen_and_takes_it_again_when_the_page_comes_back(
    demo: Server, phone: Phone
) -> None:
    phone.context.add_init_script(LOCKS)
    technician = Technician(phone, demo.url)
    technician.settle_in()
    technician.open_call("B3")
    technician.step("start")
    phone.page.get_by_role("button", name="It was started just now").click()
    held = phone.page.get_by_text("The screen stays on while it runs.")
    expect(held).to_be_visible()
    phone.page.evaluate(TURN, False)
    expect(phone.page.get_by_text("This browser may lock the screen")).to_be_visible()
    assert phone.page.evaluate("locks") == ["screen"]
    phone.page.evaluate(TURN, True)
    expect(held).to_be_visible()
    assert phone.page.evaluate("locks") == ["screen", "screen"]

    phone.page.reload()
    expect(phone.page.get_by_text("No sound will come until you touch this page once.")).to_be_visible()
    expect(held).to_be_visible()
    assert phone.page.evaluate("locks") == ["screen"]
    phone.page.evaluate(STARTED_AGO, 301)
    expect(phone.page.locator('[data-clock="next_start_allowed"].is-over')).to_be_visible()
    expect(phone.page.get_by_role("alert").filter(has_text="Wait between starts: time is up")).to_be_attached()
    assert phone.page.evaluate("locks") == ["screen", "released"]
