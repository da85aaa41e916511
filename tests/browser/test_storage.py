"""The phone's own store when things go wrong: one transaction or nothing, a lost connection, no room, a refusal."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.technician import Technician
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

MAKE = """
    const { keep, rowsOfCall, waitingMarks } = await import("/storage/log.js");
    const { allMeta } = await import("/storage/meta.js");
    const { session } = await allMeta();
    const call = location.hash.split("/")[2];
    const sign = (body, id = crypto.randomUUID()) => ({ id, schema: 1, kind: "sign", call, base: [],
        made_at: new Date().toISOString(), device: session.device, author: session.person, body });
    const count = async () => [(await rowsOfCall(call)).length, (await waitingMarks()).length];
"""


@pytest.fixture
def page(demo: Server, phone: Phone) -> Page:
    technician = Technician(phone, demo.url)
    technician.sign_in()
    technician.open_call("B3")
    technician.wait_until_sent()
    technician.tab("measure")
    return phone.page


def within(page: Page, script: str) -> object:
    return page.evaluate(f"async () => {{ {MAKE} {script} }}")


def test_entry_and_outbox_mark_are_kept_together_or_not_at_all(page: Page) -> None:
    before, failed, after = within(
        page,
        """
        const before = await count();
        const twice = sign({ sign: "knock", present: true });
        const trying = keep([sign({ sign: "growl", present: true }), twice, twice]);
        return [before, await trying.then(() => "", (error) => error.name), await count()];
        """,
    )
    assert failed == "ConstraintError"
    assert before == after


def test_a_connection_the_browser_lost_is_opened_again_once(page: Page) -> None:
    kept = within(
        page,
        """
        const real = IDBDatabase.prototype.transaction;
        let lost = 1;
        IDBDatabase.prototype.transaction = function (...wanted) {
            if (lost-- > 0) throw new DOMException("connection is closing", "InvalidStateError");
            return real.apply(this, wanted);
        };
        const [row] = await keep([sign({ sign: "knock", present: true })]);
        return (await rowsOfCall(call)).some(({ id }) => id === row.id);
        """,
    )
    assert kept is True


def test_without_room_what_the_office_has_goes_and_the_outbox_stays(page: Page) -> None:
    page.context.set_offline(True)
    marks, machines = within(
        page,
        """
        await keep([sign({ sign: "growl", present: true })]);
        const real = IDBObjectStore.prototype.put;
        let full = 1;
        IDBObjectStore.prototype.put = function (...wanted) {
            if (this.name === "entries" && full-- > 0) throw new DOMException("full", "QuotaExceededError");
            return real.apply(this, wanted);
        };
        await keep([sign({ sign: "knock", present: true })]);
        const { transact } = await import("/storage/database.js");
        const machines = await transact(["machines"], "readonly", (tx) => tx.objectStore("machines").count());
        return [(await waitingMarks()).length, machines];
        """,
    )
    assert (marks, machines) == (2, 0)
    expect(page.get_by_text("This phone is out of space.")).to_be_visible()


def test_a_refused_entry_is_set_aside_in_sight_and_the_rest_goes_on(page: Page) -> None:
    within(page, 'await keep([sign({ sign: "no such sign", present: true }), sign({ sign: "knock", present: true })]);')
    page.reload()
    page.evaluate("location.hash = '#/'")
    expect(page.get_by_text("1 entry refused by the office")).to_be_visible(timeout=15_000)
    expect(page.locator(".send-line b")).to_have_text("all sent")
    page.get_by_text("1 entry refused by the office").click()
    expect(page.locator("article")).to_contain_text("invalid_body")
    expect(page.locator("article")).to_contain_text("no such sign")
    page.get_by_role("button", name="Send again").click()
    page.evaluate("location.hash = '#/'")
    expect(page.get_by_text("1 entry refused by the office")).to_be_visible(timeout=15_000)
