"""Around the job: the page looking at itself, a call as text, the home screen, a new version over old entries."""

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.technician import Technician
from tests.browser.test_one_version import MARK, TAKEN_OVER, WORDS, Deployment, deployment, wait_until  # noqa: F401
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

OFFER = """() => {
    const offer = new Event("beforeinstallprompt", { cancelable: true });
    offer.prompt = async () => { globalThis.prompted = true; };
    offer.userChoice = Promise.resolve({ outcome: "accepted" });
    dispatchEvent(offer);
}"""
CLIPBOARD = """() => {
    navigator.share = undefined;
    navigator.clipboard.writeText = async (text) => { globalThis.copied = text; };
}"""
NOTHING_TAKES_IT = """() => {
    navigator.share = undefined;
    navigator.clipboard.writeText = () => Promise.reject(new Error("no"));
}"""
AN_IPHONE = """
    Object.defineProperty(navigator, "userAgent", { value: "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X)" });
"""
PERSIST = """Object.defineProperty(StorageManager.prototype, "persist", {
    value: async () => { self.asked += 1; return self.answer; } });"""
NO_OFFER = (
    "addEventListener('beforeinstallprompt', (event) => event.isTrusted && event.stopImmediatePropagation(), true);"
)


@pytest.fixture
def own_database(demo_database: Path, tmp_path: Path) -> Path:
    """The demo's log under the name the deployment opens."""
    for part in demo_database.parent.glob(demo_database.name + "*"):
        shutil.copy(part, tmp_path / ("own.db" + part.name.removeprefix(demo_database.name)))
    return tmp_path / "own.db"


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.settle_in()
    return person


def test_the_page_tells_how_it_stands_without_signal(demo: Server, technician: Technician) -> None:
    page = technician.page
    demo.kill()
    technician.phone.context.set_offline(True)
    page.goto(f"{demo.url}/diagnose")
    expect(page.get_by_role("heading", name="How this phone stands")).to_be_visible()
    told = page.locator("main")
    expect(told).to_contain_text(re.compile(r"Started in\s*\d+ ms"), timeout=15_000)
    expect(told).to_contain_text(re.compile(r"Worked examples\s*(\d+) of \1 agree"))
    expect(told).to_contain_text(re.compile(r"Works without signal\s*yes"))
    expect(told).to_contain_text(re.compile(r"Entries\s*\d{3,}"))
    expect(told).to_contain_text(re.compile(r"Space left\s*\d+ MB"))


def test_a_call_is_handed_over_as_the_engines_own_sentences(technician: Technician) -> None:
    page = technician.page
    technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.tab("findings")
    said = page.locator('[data-check="oil_level"] .finding-body p').first.inner_text()
    page.evaluate("() => { navigator.share = async ({ text }) => { globalThis.shared = text; }; }")
    page.get_by_role("button", name="Share as text").click()
    text = page.evaluate("shared")
    assert f"Oil level (pass): {said}" in text
    assert text.startswith("Compressor B3, Tannery Lane Cold Store")

    page.evaluate(CLIPBOARD)
    page.get_by_role("button", name="Share as text").click()
    expect(page.get_by_text("Copied. Paste it where the customer reads it.")).to_be_visible()
    assert page.evaluate("copied") == text

    page.evaluate(NOTHING_TAKES_IT)
    page.get_by_role("button", name="Share as text").click()
    expect(page.get_by_label("Copy it from here:")).to_have_value(text)
    technician.tab("measure")
    technician.tab("close")
    expect(page.get_by_role("button", name="Share as text")).to_be_visible()
    expect(page.get_by_label("Copy it from here:")).to_have_count(0)


def test_the_home_screen_is_offered_with_its_reason(demo: Server, phone: Phone) -> None:
    phone.context.add_init_script(NO_OFFER)
    phone.page.goto(demo.url)
    expect(phone.page.get_by_role("button", name="Sign in")).to_be_visible()
    expect(phone.page.get_by_text("Put it on the home screen")).to_have_count(0)
    phone.page.evaluate(OFFER)
    expect(phone.page.get_by_text("There it opens without signal")).to_be_visible()
    phone.page.get_by_role("button", name="Put it there").click()
    expect(phone.page.get_by_text("There it opens without signal")).to_have_count(0)
    assert phone.page.evaluate("prompted") is True


def test_where_the_browser_offers_nothing_the_way_by_hand_is_told_before_the_sign_in(
    demo: Server, phone: Phone
) -> None:
    phone.context.add_init_script(NO_OFFER + AN_IPHONE)
    phone.page.goto(demo.url)
    expect(phone.page.get_by_label("Your name")).to_be_visible()
    expect(phone.page.get_by_text("“Add to Home Screen”")).to_be_visible()
    phone.page.get_by_role("button", name="Not now").click()
    phone.page.reload()
    expect(phone.page.get_by_label("Your name")).to_be_visible()
    expect(phone.page.get_by_text("“Add to Home Screen”")).to_have_count(0)


def test_a_new_version_waits_for_the_digits_and_opens_what_the_old_one_kept(
    own_database: Path,
    deployment: Deployment,  # noqa: F811
    phone: Phone,
) -> None:
    technician = Technician(phone, deployment.url)
    technician.settle_in()
    technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    before = technician.verdicts()
    technician.open_point("as_found", "trip_delay")
    technician.type_into("value", "12")

    deployment.change("words/en.js", f"\n{MARK}\n")
    deployment.read_files()
    phone.page.evaluate("navigator.serviceWorker.getRegistration().then((found) => found.update())")
    expect(phone.page.get_by_text("Keep or clear the digits you are typing")).to_be_visible(timeout=20_000)
    take_over = phone.page.get_by_role("button", name="Take it over")
    expect(take_over).to_have_count(0)
    technician.type_into("value", "1")
    technician.keep()
    with phone.page.expect_event("load"):
        take_over.click()
    wait_until(phone.page, TAKEN_OVER)
    technician.open_call("B3")
    assert MARK in phone.page.evaluate(WORDS)
    now = technician.verdicts()
    assert [one for one in before if one not in now] == []
    assert any(one[1] == "oil_trip_timing" for one in now)


def test_who_put_the_home_screen_off_finds_it_in_the_settings(demo: Server, phone: Phone) -> None:
    phone.context.add_init_script(NO_OFFER)
    phone.page.goto(demo.url)
    expect(phone.page.get_by_role("button", name="Sign in")).to_be_visible()
    phone.page.evaluate(OFFER)
    phone.page.get_by_role("button", name="Not now").click()
    expect(phone.page.get_by_text("There it opens without signal")).to_have_count(0)
    phone.page.evaluate("location.hash = '#/settings'")
    phone.page.get_by_role("button", name="Put it there").click()
    expect(phone.page.get_by_text("There it opens without signal")).to_have_count(0)
    assert phone.page.evaluate("prompted") is True


def test_keeping_is_asked_again_at_each_start_until_it_is_granted(technician: Technician) -> None:
    page = technician.page
    page.context.add_init_script("self.asked = 0; self.answer = false;" + PERSIST)
    page.reload()
    technician.open_call("B3")
    technician.read("as_found", "oil_level", {"value": "0.5"})
    technician.go("#/ready")
    expect(page.get_by_text("The browser may clear what is kept here")).to_be_visible()
    technician.choose_word("as_found", "oil_colour", "straw")
    assert page.evaluate("self.asked") == 1
    page.context.add_init_script("self.answer = true;")
    page.reload()
    technician.choose_word("as_found", "oil_acid", "negative")
    technician.go("#/ready")
    expect(page.get_by_text("The browser promised not to clear")).to_be_visible()
