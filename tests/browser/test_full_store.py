"""A phone that is out of space: what goes for what, in which order, what never goes, and what the person is told."""

import time

import pytest
from playwright.sync_api import CDPSession, Page, expect

from tests.browser.alone import Run
from tests.browser.alone import run as run
from tests.browser.places import entries_of
from tests.browser.technician import Technician
from tests.browser.within import within
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

# A phone with something of every sort, whose store then has no room for the next `lacking` transactions that put.
FULL = """
    const { takeIn } = await import("/storage/carry.js");
    const { keepMachines } = await import("/storage/pulled.js");
    const { holdReserve } = await import("/storage/room.js");
    const own = make("call", {}), old = make("site", { name: "old" });
    const theirs = make("call", {}, { cursor: 5, device: "there" });
    const pulled = [{ ...theirs, call: theirs.id }, make("sign", {}, { call: theirs.id, cursor: 6, device: "there" })];
    const asked = { cursor: 0, seen: 1, epoch: null, scope: null };
    const reached = { cursor: 6, epoch: "first", scope: "all" };
    await keepPage(pulled, reached, asked, "here");
    await keep([{ ...own, call: own.id }, old]);
    await settle([{ id: old.id, status: "refused", code: "foreign_site" }], "first");
    await keepMachines([{ id: "M" }]);
    await holdReserve();
    const count = (store) => transact([store], "readonly", (tx) => tx.objectStore(store).count());
    const stands = async () => ({ reserve: Boolean(await caches.match("/rackside-reserve")),
        histories: await count("machines"), pulled: (await row(pulled[1].id)) !== undefined,
        cursor: await readMeta("cursor") ?? 0,
        outbox: await count("outbox"), refused: await count("refused") });
    const real = IDBObjectStore.prototype;
    const { put, add } = real;
    const failed = new WeakSet();
    let lacking = 0;
    const noRoom = (tx) => {
        if (!failed.has(tx) && lacking-- <= 0) return;
        failed.add(tx);
        throw new DOMException("full", "QuotaExceededError");
    };
    real.put = function (...wanted) { noRoom(this.transaction); return put.apply(this, wanted); };
    real.add = function (...wanted) { noRoom(this.transaction); return add.apply(this, wanted); };
    const full = async (times, work) => {
        lacking = times;
        const told = await work().then((answer) => answer ?? "", (error) => error.name);
        lacking = 0;
        return [told, await stands()];
    };
    const next = make("sign", {}, { call: own.id });
"""
BEFORE = {"reserve": True, "histories": 1, "pulled": True, "cursor": 6, "outbox": 1, "refused": 1}
KEPT_FOR_US = {
    "keep": ("keep([next]).then((rows) => rows.length)", 1, {"outbox": 2}),
    "settle": ('settle([{ id: own.id, status: "refused", code: "x" }], "first")', 1, {"outbox": 0, "refused": 2}),
    "send again": ('sendAgain(old.id, { name: "new" })', "", {"outbox": 2, "refused": 0}),
    "take in": ("takeIn([next], [])", 1, {"outbox": 2}),
}
STAGES = [{"reserve": False}, {"histories": 0}, {"pulled": False, "cursor": 0}]


@pytest.mark.parametrize("lacking", [1, 2, 3])
@pytest.mark.parametrize("work", KEPT_FOR_US)
def test_for_what_is_ours_goes_the_reserve_then_histories_then_what_was_pulled(
    run: Run, work: str, lacking: int
) -> None:
    script, answer, change = KEPT_FOR_US[work]
    gone = {name: value for stage in STAGES[:lacking] for name, value in stage.items()}
    told = run(FULL + f"return full({lacking}, () => {script});")
    assert told == [answer, BEFORE | gone | change]


@pytest.mark.parametrize("work", KEPT_FOR_US)
def test_what_can_not_be_kept_even_then_leaves_outbox_and_refused_as_they_were(run: Run, work: str) -> None:
    told = run(FULL + f"return full(4, () => {KEPT_FOR_US[work][0]});")
    assert told == ["QuotaExceededError", BEFORE | {name: value for stage in STAGES for name, value in stage.items()}]


def test_offering_all_to_a_restored_server_costs_nothing_that_it_may_lack(run: Run) -> None:
    """What was pulled from the log before is what this phone may have to give back."""
    told = run(
        FULL + 'const again = () => sendAllAgain("here", "second");return [await full(3, again), await full(1, again)];'
    )
    gone = STAGES[0] | STAGES[1]
    assert told[0] == ["QuotaExceededError", BEFORE | gone]
    offered = {"outbox": 4, "refused": 0, "cursor": 0}
    assert told[1] == ["", BEFORE | gone | offered]


PULLING = {
    "page": 'keepPage([later], { ...reached, cursor: 7 }, { cursor: 6, seen: 1, epoch: "first" }, "here")',
    "call": 'keepCall({ items: [later], epoch: "first" }, 1).then(() => true)',
}


@pytest.mark.parametrize("work", PULLING)
def test_for_what_the_server_sends_only_histories_go(run: Run, work: str) -> None:
    """Neither the reserve, which is for what is made here, nor what was pulled: that would be read for ever."""
    script = "const later = make('sign', {}, { call: theirs.id, cursor: 7, device: 'there' });"
    script += f"const pull = () => {PULLING[work]};"
    told = run(FULL + script + "return [await full(2, pull), await full(0, pull)];")
    gone = BEFORE | STAGES[1]
    assert told == [["QuotaExceededError", gone], [True, gone | ({"cursor": 7} if work == "page" else {})]]


def test_a_means_that_fails_is_not_the_last_one(run: Run) -> None:
    """A browser may fail to give up the reserve; what is kept does not hang on it."""
    script = """
        CacheStorage.prototype.open = () => Promise.reject(new DOMException("no", "UnknownError"));
        return full(2, () => keep([next]).then((rows) => rows.length));
    """
    told = run(FULL + script)
    assert told == [1, BEFORE | STAGES[1] | {"outbox": 2}]


def test_what_was_written_down_later_stands(run: Run) -> None:
    """The first of two drafts waits for room; the second does not."""
    script = """
        const both = () => Promise.all([writeFacts({ draft: "4" }), writeFacts({ draft: "47" })]);
        await full(1, both);
        const { forget } = await import("/storage/meta.js");
        const told = [await readMeta("draft")];
        await full(1, () => Promise.all([writeFacts({ draft: "479" }), forget("draft", () => true)]));
        return [...told, await readMeta("draft") ?? "none"];
    """
    assert run(FULL + script) == ["47", "none"]


def test_who_is_signed_in_can_be_written_on_a_full_phone(run: Run) -> None:
    told = run(FULL + 'return full(1, () => writeFacts({ session: "s" }).then(() => readMeta("session")));')
    assert told == ["s", BEFORE | STAGES[0]]


class Space:
    """How much room the browser lends this page, and how much of it is taken, in bytes."""

    def __init__(self, phone: Phone, address: str) -> None:
        self.phone, self.address = phone, address
        self.asked: CDPSession = phone.context.new_cdp_session(phone.page)

    def taken(self) -> int:
        return int(self.asked.send("Storage.getUsageAndQuota", {"origin": self.address})["usage"])

    def lend(self, size: int) -> None:
        """Holds as long as this object's session; a browser that has looked before remembers for a while."""
        self.asked.send("Storage.overrideQuotaForOrigin", {"origin": self.address, "quotaSize": size})

    def lend_freely(self) -> None:
        self.asked.send("Storage.overrideQuotaForOrigin", {"origin": self.address})


RESERVED = """() => caches.match("/rackside-reserve").then(Boolean)"""
WORDY = """
    const what = () => Array.from({ length: 100 }, () => crypto.randomUUID()).join("");
    const line = () => ({ ...sign({ kind: "part", what: what() }), kind: "line" });
"""
UNTIL = """
    for (let kept = 0; kept < 20000; ) {
        const trouble = await keep([line()]).then(() => "", (error) => error.name);
        kept += Number(!trouble);
        if (%s) return [kept, trouble];
    }
"""


def wait_for_reserve(page: Page) -> None:
    deadline = time.monotonic() + 30
    while not page.evaluate(RESERVED):
        assert time.monotonic() < deadline, "nothing is held in reserve"
        page.wait_for_timeout(50)


def test_on_a_phone_that_is_really_full_readings_are_kept_and_the_person_is_told(demo: Server, phone: Phone) -> None:
    """The browser's own accounts: what a store deletes is not free at once, what the reserve held is."""
    technician = Technician(phone, demo.url)
    technician.settle_in()
    call = technician.open_call("B3")
    technician.wait_until_sent()
    wait_for_reserve(phone.page)
    taken = Space(phone, demo.url).taken()
    phone.kill()

    page = phone.open()
    space = Space(phone, demo.url)
    space.lend(taken + 2_500_000)
    page.goto(f"{demo.url}/#/call/{call}/measure")
    expect(page.locator(".point-row").first).to_be_visible()
    page.context.set_offline(True)
    many, trouble = within(page, WORDY + UNTIL % 'trouble || !(await caches.match("/rackside-reserve"))')
    assert (many > 1, trouble) == (True, ""), "the store went full while entries were kept, and none of them failed"
    expect(page.get_by_text("Nothing of yours was dropped.")).to_be_visible()

    more, trouble = within(page, WORDY + UNTIL % "trouble")
    assert (more > 100, trouble) == (True, "QuotaExceededError"), "the reserve is as good as it is large"
    technician.open_point("as_found", "oil_level")
    technician.type_into("value", "0.5")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_text("Not kept: this phone is out of space. The digits are still here.")).to_be_in_viewport()
    technician.type_into("value", "2")
    page.wait_for_timeout(500)
    expect(page.get_by_text("Not kept: this phone is out of space.")).to_be_in_viewport()

    space.lend_freely()
    technician.keep()
    expect(page.get_by_text("Not kept")).to_have_count(0)
    page.context.set_offline(False)
    technician.wait_until_sent()
    assert len([entry for entry in entries_of(demo, call) if entry["kind"] == "line"]) == many + more
    expect(page.get_by_text("Nothing of yours was dropped.")).to_have_count(0, timeout=30_000)
    wait_for_reserve(page)
