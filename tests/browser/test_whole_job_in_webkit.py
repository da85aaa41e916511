"""One case of the handbook from alarm to submission in WebKit, with the server gone: F10, the head fan's capacitor."""

import time
from collections.abc import Callable

from selenium import webdriver

from seed_demo.people import OKAFOR
from tests.fixtures.servers import Server

CLICK = """const [selector, text] = arguments;
const wanted = [...document.querySelectorAll(selector)].filter((one) => one.getClientRects().length);
const found = wanted.find((one) => !text || one.innerText.trim() === text)
    ?? wanted.find((one) => one.innerText.includes(text));
found?.click();
return Boolean(found);"""
FILL = """const field = document.querySelector(arguments[0]);
if (!field) return false;
field.value = arguments[1];
field.dispatchEvent(new Event("input", { bubbles: true }));
return true;"""
WAITING = """const done = arguments[0];
import("/storage/log.js").then(({ waitingMarks }) => waitingMarks()).then((all) => done(all.length));"""
SEEN = "return document.body.innerText.includes(arguments[0]);"
PRESSED = """const all = [...document.querySelectorAll("button, a")];
const button = all.find((one) => one.innerText.trim() === arguments[0]);
return button?.getAttribute("aria-pressed") === "true";"""


class Glove:
    """A technician's thumb on WebKit: taps by words, one after another, each waiting until it can."""

    def __init__(self, browser: webdriver.WebKitGTK, url: str) -> None:
        self.browser, self.url, self.call = browser, url, ""

    def until(self, ask: Callable[[], object], what: str, within: float = 20) -> None:
        end = time.monotonic() + within
        while time.monotonic() < end:
            if ask():
                return
            time.sleep(0.05)
        raise AssertionError(
            f"{what} did not come; the page says:\n{self.browser.find_element('tag name', 'body').text[:1500]}"
        )

    def tap(self, text: str, selector: str = "button, a") -> None:
        self.until(lambda: self.browser.execute_script(CLICK, selector, text), text or selector)

    def fill(self, selector: str, text: str) -> None:
        self.until(lambda: self.browser.execute_script(FILL, selector, text), selector)

    def sees(self, text: str, within: float = 20) -> None:
        self.until(lambda: self.browser.execute_script(SEEN, text), text, within)

    def go(self, place: str) -> None:
        self.browser.execute_script(
            "location.hash = arguments[0];", f"#/call/{self.call}/{place}" if self.call else "#/" + place
        )

    def read(self, point: str, value: str, label: str = "as_found", state: str = "", *taps: str) -> None:
        self.go(f"{label}/{point}")
        self.until(
            lambda: self.browser.execute_script("return Boolean(document.querySelector('.pad, .caution'))"), point
        )
        self.browser.execute_script(CLICK, ".caution .big-button", "")
        self.until(lambda: self.browser.execute_script("return Boolean(document.querySelector('.pad'))"), "the pad")
        if state:
            self.tap(state, ".half")
            self.browser.execute_script(CLICK, ".caution .big-button", "")
        for key in value:
            self.tap(key, ".pad .key")
        for text in taps:
            if not self.browser.execute_script(PRESSED, text):
                self.tap(text, ".chip")
        self.tap("Keep", ".pad .key")
        self.sees("Kept on this phone at")

    def keep_sheet(self, sheet: str, *taps: str, **typed: str) -> None:
        self.go(f"sheet/{sheet}")
        self.sees("Keep")
        for text in taps:
            if not self.browser.execute_script(PRESSED, text):
                self.tap(text, ".choice .chip")
        for name, text in typed.items():
            self.fill(f'[name="{name}"]', text)
        self.tap("Keep", ".big-button")
        self.until(lambda: "/sheet/" not in self.browser.current_url, "leaving the sheet")


def sign_in(glove: Glove) -> None:
    glove.browser.get(glove.url)
    glove.fill('[name="name"]', OKAFOR.name)
    glove.fill('[name="password"]', OKAFOR.password)
    glove.tap("Sign in")
    glove.until(
        lambda: glove.browser.execute_script("return Boolean(document.querySelector('.call-card'))"), "the calls"
    )
    glove.sees("Ready for no signal", 60)


def open_a_call(glove: Glove) -> None:
    glove.go("new")
    glove.tap("A6", ".chip")
    glove.tap("High discharge temperature", ".chip")
    glove.tap("Open the call", ".big-button")
    glove.until(lambda: "/call/" in glove.browser.current_url, "the call")
    glove.call = glove.browser.current_url.split("/call/")[1].split("/")[0]
    glove.sees("First: what opened?")


def read_as_found_and_left(glove: Glove) -> None:
    glove.keep_sheet("event/trip", "Head temperature control", "tripped", "yes", at="14:30")
    glove.read("suction_pressure", "9", "as_found", "Running")
    glove.read("discharge_pressure", "230", "as_found", "Running")
    glove.read("discharge_temperature", "246", "as_found", "", "clamp")
    glove.read("fan_current", "1.41", "as_found", "Running")
    glove.read("fan_speed", "610", "as_found", "Running")
    glove.read("fan_capacitance", "2.6", "as_found", "Locked")
    glove.keep_sheet("action/part_fitted", "Part fitted", what="head fan capacitor 5 uF")
    glove.read("fan_current", "0.86", "as_left", "Running")
    glove.read("fan_capacitance", "5.0", "as_left", "Locked")


def test_the_head_fan_from_alarm_to_submission(demo: Server, webkit: webdriver.WebKitGTK) -> None:
    glove = Glove(webkit, demo.url)
    sign_in(glove)
    demo.kill()
    open_a_call(glove)
    read_as_found_and_left(glove)
    glove.go("step/as_left")
    glove.sees("2.6 µF")
    glove.sees("5.0 µF")
    glove.go("step/decision")
    leader = "return document.querySelector('[data-cause]')?.dataset.cause;"
    glove.until(lambda: webkit.execute_script(leader) == "head_fan", "the head fan as the leading cause")
    glove.tap("This is the cause", "[data-cause=head_fan] .chip")
    glove.tap("Restart", ".chip")
    glove.tap("7 days", ".chip")
    glove.tap("Keep the decision", ".big-button")
    glove.sees("Decided: Restart")
    glove.go("step/hand_over")
    glove.tap("Hand in to the office", ".big-button")
    glove.sees("Handed in.")
    assert webkit.execute_async_script(WAITING) > 15
    demo.start()
    webkit.refresh()
    glove.until(lambda: webkit.execute_async_script(WAITING) == 0, "an empty outbox", 60)
    glove.call = ""
    glove.go("")
    glove.sees("all sent")
    assert "refused" not in webkit.find_element("tag name", "body").text
