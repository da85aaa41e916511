"""Phones whose store an older version of the page left, and pages of two versions over one store."""

import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from rackside import phone as page_files
from seed_demo.people import OKAFOR
from tests.browser import old_phone
from tests.browser.alone import ADDRESS, MAKE, page_file
from tests.browser.places import entries_of, held, office_client
from tests.browser.technician import Technician
from tests.faults.pocket import signed_in
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

SHIPPED = sorted(old_phone.SHIPPED.glob("phone_*.json"))


def test_the_store_of_every_version_stays_in_the_tests() -> None:
    """A new version of the store comes with a file of what it leaves: python -m tests.browser.old_phone ADDRESS."""
    versions = range(1, old_phone.store_version() + 1)
    assert [old_phone.file_of(version) for version in versions] == SHIPPED


@pytest.mark.parametrize("file", SHIPPED, ids=lambda file: file.stem)
def test_a_phone_of_then_sends_and_shows_what_it_holds(file: Path, demo: Server, phone: Phone) -> None:
    shipped = json.loads(file.read_text())
    waiting = {mark["id"] for _, mark in shipped["stores"]["outbox"]["rows"]}
    [[sha256, photo]] = shipped["stores"]["photos"]["rows"]
    with office_client(demo) as office:
        epoch = office.get("/entries", params={"limit": 1}).json()["epoch"]
        page = phone.page
        page.goto(f"{demo.url}/api/v1/health")
        old_phone.load(page, shipped, epoch=epoch, session=signed_in(demo.url, OKAFOR.name, OKAFOR.password))
        technician = Technician(phone, demo.url)
        technician.arrive()
        technician.wait_until_sent()
        arrived = {entry["id"] for entry in entries_of(demo, shipped["call"])}
        assert len(waiting) > 2 and waiting <= arrived
        assert office.get(f"/photos/{sha256}").content == bytes(photo["bytes"])
    assert [held(page, store) for store in ("outbox", "photos", "refused")] == [0, 0, 1]
    page.get_by_text("1 entry refused by the office").click()
    expect(page.locator("article")).to_contain_text("no such sign")
    technician.open_call("B3")
    technician.go(f"#/call/{technician.call}/as_found/oil_level")
    expect(page.get_by_text("Kept on this phone at")).to_be_visible()


# Two pages over one store, the second of a version whose store is one newer.
TROUBLES = """
    const { onTrouble } = await import("/storage/database.js");
    globalThis.troubles ??= [];
    onTrouble((trouble) => troubles.push(trouble));
"""


def newer(route: Route) -> None:
    source = (page_files.WEB / "storage/database.js").read_text()
    version = old_phone.store_version()
    assert f"const VERSION = {version};" in source
    fresh = source.replace(f"const VERSION = {version};", f"const VERSION = {version + 1};")
    route.fulfill(body=fresh, content_type="text/javascript")


def ask(page: Page, script: str) -> Any:
    return page.evaluate(f"async () => {{ {MAKE} {TROUBLES} {script} }}")


@pytest.fixture
def pages(chromium: Browser) -> Iterator[tuple[Page, Page]]:
    """Two pages of one phone."""
    context = chromium.new_context()
    context.route("**/*", page_file)
    older, later = context.new_page(), context.new_page()
    later.route("**/storage/database.js", newer)
    for page in (older, later):
        page.goto(ADDRESS + "/")
    yield older, later
    context.close()


def test_a_newer_page_takes_the_store_over_with_all_that_waits(pages: tuple[Page, Page]) -> None:
    """The page of before lets go, says so, and keeps nothing more: what it can't keep is told, not lost in silence."""
    older, later = pages
    kept = ask(older, 'const kept = await keep([make("site", { name: "x" })]); return kept[0].id;')
    assert ask(later, "return (await waitingMarks()).map(({ id }) => id);") == [kept]
    assert ask(older, "return troubles;") == ["replaced"]
    trouble = ask(older, 'return keep([make("site", { name: "y" })]).then(() => "", (error) => error.name);')
    assert (trouble, ask(older, "return troubles;")) == ("VersionError", ["replaced", "replaced"])
    also = ask(later, 'const kept = await keep([make("site", { name: "z" })]); return kept[0].id;')
    assert ask(later, "return (await waitingMarks()).map(({ id }) => id);") == [kept, also]


def test_a_tab_that_does_not_let_go_is_told_of_and_waited_for(pages: tuple[Page, Page]) -> None:
    older, later = pages
    kept = ask(older, 'const kept = await keep([make("site", { name: "x" })]); return kept[0].id;')
    older.evaluate(
        """(version) => new Promise((done) => {
            const asked = indexedDB.open("rackside", version);
            asked.onsuccess = () => { globalThis.held = asked.result; done(); };
        })""",
        old_phone.store_version(),
    )
    ask(later, "globalThis.waits = waitingMarks().then((marks) => marks.map(({ id }) => id));")
    deadline = time.monotonic() + 20
    while not (told := later.evaluate("troubles")) and time.monotonic() < deadline:
        later.wait_for_timeout(20)
    assert told == ["blocked"]
    older.close()
    assert later.evaluate("waits") == [kept]
