"""Tabs of one phone: turns at the line by Web Locks; nothing lost where there are none or a tab sleeps."""

import time
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, Route

from tests.browser.places import entries_of
from tests.browser.technician import Technician
from tests.browser.within import within
from tests.faults.pocket import NO_LOCKS
from tests.fixtures.browsers import Phone
from tests.fixtures.servers import Server

# The wait for another tab's exchange, some thirty times shorter; all other deadlines stay.
IMPATIENT = """
    const real = AbortSignal.timeout;
    AbortSignal.timeout = (wait) => real.call(AbortSignal, wait === 30_000 ? 1_000 : wait);
"""
SIGNS = 'const rows = await keep(Array.from({ length: 30 }, () => sign({ sign: "knock", present: true })));'
TURNS = "navigator.locks.query().then(({ held, pending }) => [held.length, pending.length])"
HOLDER = "navigator.locks.query().then(({ held }) => held[0]?.clientId)"


@pytest.fixture
def technician(demo: Server, phone: Phone) -> Technician:
    return in_a_call(demo, phone)


def in_a_call(demo: Server, phone: Phone) -> Technician:
    person = Technician(phone, demo.url)
    person.settle_in()
    person.open_call("B3")
    person.wait_until_sent()
    person.tab("measure")
    return person


def other_tab(technician: Technician) -> Page:
    page = technician.phone.context.new_page()
    page.goto(f"{technician.address}/#/call/{technician.call}/measure")
    page.locator(".point-row").first.wait_for()
    return page


class Door:
    """Holds every push back until it is opened."""

    def __init__(self, phone: Phone) -> None:
        self.held: list[Route] = []
        self.shut = True
        phone.context.route("**/api/v1/entries", self._knock)

    def _knock(self, route: Route) -> None:
        if self.shut:
            self.held.append(route)
        else:
            route.continue_()

    def open(self) -> None:
        self.shut = False
        for route in reversed(self.held):
            route.continue_()


def wait_until(page: Page, holds: Callable[[], bool]) -> None:
    deadline = time.monotonic() + 30
    while not holds():
        assert time.monotonic() < deadline, "it never came to that"
        page.wait_for_timeout(20)


def ids_at(server: Server, call: str) -> list[str]:
    return [entry["id"] for entry in entries_of(server, call)]


def test_without_web_locks_two_tabs_send_at_once_and_each_entry_is_there_once(demo: Server, phone: Phone) -> None:
    phone.context.add_init_script(NO_LOCKS)
    technician = in_a_call(demo, phone)
    tabs = [technician.page, other_tab(technician)]
    assert [tab.evaluate("navigator.locks === undefined") for tab in tabs] == [True, True]
    before = ids_at(demo, technician.call)

    door = Door(phone)
    mine = [name for tab in tabs for name in within(tab, SIGNS + "return rows.map(({ id }) => id);")]
    for tab in tabs:
        tab.evaluate("dispatchEvent(new Event('online'))")
    wait_until(technician.page, lambda: len(door.held) == 2)
    sent = [{entry["id"] for entry in route.request.post_data_json["entries"]} for route in door.held]
    assert sent[0] & sent[1], "both have the same entries under way"
    door.open()
    wait_until(technician.page, lambda: within(tabs[0], "return (await count())[1];") == 0)
    assert sorted(ids_at(demo, technician.call)) == sorted(before + mine)
    for tab in tabs:
        assert within(tab, 'return (await (await import("/storage/log.js")).refusedEntries()).length;') == 0


def test_tabs_take_turns(technician: Technician, demo: Server) -> None:
    """With Web Locks the second tab's exchange waits for the first one's end."""
    tabs = [technician.page, other_tab(technician)]
    before = ids_at(demo, technician.call)
    door = Door(technician.phone)
    mine = within(tabs[0], SIGNS + "return rows.map(({ id }) => id);")
    for tab in tabs:
        tab.evaluate("dispatchEvent(new Event('online'))")
    wait_until(technician.page, lambda: bool(door.held) and tabs[0].evaluate(TURNS) == [1, 1])
    assert len(door.held) == 1
    door.open()
    wait_until(technician.page, lambda: within(tabs[0], "return (await count())[1];") == 0)
    assert sorted(ids_at(demo, technician.call)) == sorted(before + mine)


def test_a_sleeping_tab_that_holds_the_turn_stops_no_other(technician: Technician, demo: Server) -> None:
    """A phone may freeze a tab in the middle of its exchange; its lock stays held."""
    technician.phone.context.add_init_script(IMPATIENT)
    sleeper = other_tab(technician)
    sleeper.evaluate("() => { navigator.locks.request('rackside-line', () => new Promise(() => {})); }")
    wait_until(technician.page, lambda: sleeper.evaluate(TURNS)[0] == 1)
    holder = sleeper.evaluate(HOLDER)
    asked = technician.phone.context.new_cdp_session(sleeper)
    asked.send("Page.setWebLifecycleState", {"state": "frozen"})
    technician.page.reload()
    technician.page.locator(".point-row").first.wait_for()
    assert technician.page.evaluate(HOLDER) == holder, "asleep, and it holds the turn"
    [name] = within(
        technician.page, 'return (await keep([sign({ sign: "growl", present: true })])).map(({ id }) => id);'
    )
    technician.page.evaluate("dispatchEvent(new Event('online'))")
    wait_until(technician.page, lambda: name in ids_at(demo, technician.call))
    assert technician.page.evaluate(HOLDER) == holder
