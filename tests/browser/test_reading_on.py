"""Pages of the log and the cursor: kept together, only where they were asked for, and asked for again otherwise."""

import time
import uuid

import httpx
import pytest
from playwright.sync_api import Page, Route, expect

from seed_demo.people import LINDQVIST
from tests.browser.technician import Technician
from tests.browser.within import HELD, within
from tests.browser.within import page as page
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server


def test_room_made_while_a_page_is_on_its_way_loses_nothing(page: Page) -> None:
    """The page's cursor lies beyond what was dropped meanwhile; kept all the same, that would never come again."""
    before, dropped = within(
        page,
        HELD
        + """
        const { dropPulled } = await import("/storage/room.js");
        const before = await held();
        const real = window.fetch;
        window.dropped = null;
        window.fetch = async (address, request) => {
            const answer = await real(address, request);
            if (String(address).includes("/entries?after=") && !window.dropped) {
                window.dropped = [0];
                await dropPulled();
                window.dropped = await held();
            }
            return answer;
        };
        dispatchEvent(new Event("online"));
        while (!window.dropped?.[1] && window.dropped?.[1] !== 0) await new Promise((go) => setTimeout(go, 20));
        return [before, window.dropped];
        """,
    )
    assert dropped[0] < before[0]
    assert dropped[1] == 0
    deadline = time.monotonic() + 60
    while (found := within(page, HELD + "return held();")) != before and time.monotonic() < deadline:
        page.wait_for_timeout(50)
    assert found == before


def test_a_page_asked_for_from_elsewhere_is_not_kept(page: Page) -> None:
    """Another tab was quicker, another reading began, or the server went back in time: one of three is enough."""
    page.context.set_offline(True)
    kept = within(
        page,
        """
        const { keepPage } = await import("/storage/pulled.js");
        const { readFacts } = await import("/storage/meta.js");
        const [cursor, seen = 1, epoch, scope] = await readFacts(["cursor", "seen", "epoch", "scope"]);
        const here = { cursor, seen, epoch };
        const elsewhere = [{ cursor: cursor - 1 }, { seen: seen + 1 }, { epoch: "another" }, {}];
        const kept = [];
        const reached = { cursor, epoch, scope };
        for (const change of elsewhere) kept.push(await keepPage([], reached, { ...here, ...change }, "device"));
        return kept;
        """,
    )
    assert kept == [False, False, False, True]


def test_a_call_that_this_reading_has_not_shown_is_wanted_whole(page: Page) -> None:
    """What was made here stays when a call is read no more; the others' part of it may be gone."""
    lacked = within(
        page,
        """
        const { callsLacked } = await import("/storage/pulled.js");
        const { readFacts } = await import("/storage/meta.js");
        const [seen = 1] = await readFacts(["seen"]);
        const item = { id: crypto.randomUUID(), call };
        return [await callsLacked([item], seen), await callsLacked([item], seen + 1), [call]];
        """,
    )
    assert lacked[0] == []
    assert lacked[1] == lacked[2]


EARLY = [
    ("cursor !== asked.cursor || ", ""),
    (
        'write(["entries", "meta", "outbox"], async (tx) => {',
        'write(["meta"], (tx) => tx.objectStore("meta").put(reached.cursor, "cursor")).then(() =>'
        ' write(["entries", "meta", "outbox"], async (tx) => {',
    ),
    ("    return true;\n  }, HISTORIES);", "    return true;\n  }, HISTORIES));"),
]
FAILS_ONCE = """
    const real = IDBObjectStore.prototype.put;
    let failing = 1;
    IDBObjectStore.prototype.put = function (...wanted) {
        if (this.name === "entries" && failing-- > 0) throw new DOMException("it failed", "DataError");
        return real.apply(this, wanted);
    };
"""


@pytest.mark.parametrize("broken", [False, True], ids=["sound", "cursor early"])
def test_a_page_that_could_not_be_kept_is_read_again(demo: Server, phone: Phone, broken: bool) -> None:
    """The store fails in the middle of a pull. A phone whose cursor ran ahead never sees that page again."""
    if broken:
        phone.page.route("**/storage/pulled.js", lambda route: route.fulfill(body=cursor_early(route), headers=SCRIPT))
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.wait_until_sent()
    page = phone.page
    log = httpx.Client(base_url=f"{demo.url}/api/v1", trust_env=False, timeout=60)
    asked = {"name": LINDQVIST.name, "password": LINDQVIST.password, "device": "another phone"}
    told = log.post("/devices", json=asked).raise_for_status().json()
    log.headers["Authorization"] = f"Bearer {told['token']}"
    head = {"id": str(uuid.uuid4()), "schema": 1, "kind": "site", "call": None, "base": [], "body": {"name": "New"}}
    entry = head | {"made_at": "2026-10-14T21:40:00-05:00", "device": told["device"], "author": LINDQVIST.name}
    pushed = log.post("/entries", json={"device": told["device"], "epoch": None, "entries": [entry]}).json()
    assert pushed["results"][0]["status"] == "accepted"

    within(page, HELD + FAILS_ONCE + "dispatchEvent(new Event('online'));")
    expect(page.get_by_role("button", name="Send now")).to_be_visible(timeout=60_000)
    page.evaluate("dispatchEvent(new Event('online'))")
    deadline = time.monotonic() + 60
    while within(page, HELD + "return (await held())[1];") != pushed["cursor"] and time.monotonic() < deadline:
        page.wait_for_timeout(50)
    expect(page.locator(".send-line b")).to_have_text("all sent", timeout=60_000)
    assert within(page, HELD + "return (await held());") == [pushed["cursor"] - int(broken), pushed["cursor"]]


SCRIPT = {"Content-Type": "text/javascript"}


def cursor_early(route: Route) -> str:
    source = route.fetch().text()
    for sound, mutant in EARLY:
        assert sound in source
        source = source.replace(sound, mutant, 1)
    return source
