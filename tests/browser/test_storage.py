"""The phone's own store when things go wrong: one transaction or nothing, a lost connection, no room, a refusal."""

import time

from playwright.sync_api import Page, expect

from tests.browser.within import page as page
from tests.browser.within import within
from tests.fixtures.browsers import Phone


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
        let full = 2;
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
    expect(page.get_by_text("This phone is out of space. Nothing of yours")).to_be_visible()


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


NO_DAYS = """
    const get = () => { throw new Error("no words for days"); };
    Object.defineProperty(Intl.DateTimeFormat.prototype, "format", { get });
"""


def test_two_transactions_that_lose_one_connection_share_the_next(page: Page) -> None:
    """The second to notice must not close what the first has opened."""
    page.context.set_offline(True)
    kept, opened = within(
        page,
        """
        await count();
        const { transaction } = IDBDatabase.prototype;
        const { open } = IDBFactory.prototype;
        let opened = 0;
        IDBFactory.prototype.open = function (...wanted) { opened += 1; return open.apply(this, wanted); };
        let lost = 3;
        IDBDatabase.prototype.transaction = function (...wanted) {
            if (lost-- > 0) throw new DOMException("connection is closing", "InvalidStateError");
            return transaction.apply(this, wanted);
        };
        const signs = ["knock", "growl", "burnt_smell"].map((one) => sign({ sign: one, present: true }));
        const howMany = (keeping) => keeping.then((rows) => rows.length, (error) => error.name);
        const kept = await Promise.all(signs.map((one) => howMany(keep([one]))));
        return [kept, opened];
        """,
    )
    assert kept == [1, 1, 1]
    assert opened == 1


def test_a_store_that_closes_under_the_line_is_told_until_it_can_be_read_again(page: Page) -> None:
    """No error of the page either: the phone's fixture demands that there was none."""
    within(
        page,
        """
        const real = IDBDatabase.prototype.transaction;
        window.closing = true;
        IDBDatabase.prototype.transaction = function (stores, ...rest) {
            if (window.closing && String(stores) === "refused") throw new DOMException("closed", "AbortError");
            return real.call(this, stores, ...rest);
        };
        dispatchEvent(new Event("online"));
        """,
    )
    told = page.get_by_text("The browser closed this phone's store.")
    expect(told).to_be_visible(timeout=60_000)
    page.evaluate("() => { window.closing = false; dispatchEvent(new Event('online')); }")
    expect(told).to_be_hidden(timeout=60_000)


def test_a_screen_that_cannot_be_drawn_stops_no_sending(page: Page, phone: Phone) -> None:
    page.add_init_script(NO_DAYS)
    address = page.url
    page.goto("about:blank")
    page.goto(address.split("#")[0])
    expect(page.locator("#page")).to_be_empty()
    page.evaluate("address => history.replaceState(null, '', address)", address)
    within(page, 'await keep([sign({ sign: "knock", present: true })]); dispatchEvent(new Event("online"));')
    deadline = time.monotonic() + 60
    while within(page, "return (await waitingMarks()).length;") and time.monotonic() < deadline:
        page.wait_for_timeout(50)
    assert within(page, "return (await waitingMarks()).length;") == 0
    assert set(phone.faults) == {"page error: no words for days"}
    phone.faults.clear()


# The phone broken on purpose: it writes down how far it has read before it has what it read.


def test_what_the_server_fails_on_is_told_although_all_else_is_in_step(page: Page) -> None:
    failure = '{"code": "server_failed", "detail": "It failed here.", "remedy": "r"}'
    page.route(
        "**/api/v1/entries", lambda route: route.fulfill(status=500, body=failure, content_type="application/json")
    )
    within(page, 'await keep([sign({ sign: "knock", present: true })]); dispatchEvent(new Event("online"));')
    page.evaluate("location.hash = '#/'")
    expect(page.get_by_text("It failed here.")).to_be_visible(timeout=30_000)
    page.unroute("**/api/v1/entries")
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.get_by_text("It failed here.")).to_have_count(0, timeout=30_000)
    expect(page.locator(".send-line b")).to_have_text("all sent")
