"""Any order of keeping, sending, breaking and restoring ends with every entry present once, on both databases."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from random import Random
from typing import Any

import pytest

from rackside.access import people
from rackside.records import Database
from tests.faults import mutants, races
from tests.faults.household import Household
from tests.faults.replica import Replica
from tests.faults.running import examples, run_model


class NoHash:
    """Nobody signs in with a password here; hashing one is slow on purpose."""

    def hash(self, password: str) -> str:
        return "no hash"


@pytest.fixture(autouse=True)
def no_passwords(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(people, "_hasher", NoHash)


@contextmanager
def opened(url: str) -> Iterator[Database]:
    database = Database(url)
    database.migrate()
    yield database
    database.close()


def test_nothing_is_lost_doubled_or_changed(database_url: str) -> None:
    with opened(database_url) as database:
        done = run_model(database, examples(quick=15, thorough=150))
    print(f"\n{done}")
    assert done.entries > 0


@contextmanager
def household(url: str) -> Iterator[Household]:
    with opened(url) as database:
        house = Household(database, 1)
        yield house
        house.quiet()
        house.close()


@pytest.mark.parametrize("number", [944773])
def test_a_seed_that_once_failed(sqlite_url: str, monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    """944773: two people's entries on one phone leaned on each other in turn for longer than anybody signed in."""
    monkeypatch.setenv("RACKSIDE_SEED", str(number))
    with opened(sqlite_url) as database:
        run_model(database, 15)


def test_entries_of_two_people_on_one_phone_lean_on_each_other_in_turn(database_url: str) -> None:
    """Each waits for the other's sign-in, eight times over."""
    with household(database_url) as house:
        phone, other = house.phones[0], house.phones[1]
        house.exchange(phone)
        last = house.writer.call(phone, machine_on(phone))[0]
        house.keep(phone, [last])
        for _ in range(8):
            house.change_hands(phone, other)
            last = house.writer.entry(phone, "retraction", {"of": last["id"], "why": "twice"}, last["call"])
            house.keep(phone, [last])


def machine_on(phone: Replica) -> str:
    return next(row["id"] for row in phone.store.rows.values() if row["kind"] == "machine")


def test_room_is_made_while_a_page_is_on_its_way(database_url: str) -> None:
    """The page's cursor lies beyond what was dropped meanwhile: the page is asked for anew."""
    with household(database_url) as house:
        for phone in house.phones:
            house.exchange(phone)
        house.exchange(house.phones[0])
        races.two_tabs(house, house.phones[0], full=True)


def test_what_left_a_persons_sites_leaves_the_phone_also_after_a_restore(database_url: str) -> None:
    with household(database_url) as house:
        for phone in house.phones:
            house.exchange(phone)
        house.exchange(house.phones[0])
        house.backup()
        house.restore(0)
        house.give_sites("T. Okafor", Random(7))


def test_a_call_shown_in_part_is_fetched_whole(database_url: str) -> None:
    """Settled long ago it is read no more, but what was made here stays; back to life, the rest is wanted again."""
    with household(database_url) as house:
        phone, other = house.phones[0], house.phones[1]
        call, _ = house.writer.call(phone, machine_on(phone))
        done = house.writer.entry(phone, "submission", {"note": "done"}, call["id"])
        house.keep(phone, [call, done])
        house.exchange(phone)
        house.exchange(other)
        house.keep(other, [house.writer.entry(other, "sign", {"sign": "knock", "present": True}, call["id"])])
        house.exchange(other)
        house.exchange(phone)
        house.review_of(call["id"], "accepted")
        house.later += timedelta(days=100)
        house.give_sites("T. Okafor", Random(3))
        house.exchange(phone)
        house.give_sites("T. Okafor", None)
        house.exchange(phone)
        house.keep(phone, [house.writer.entry(phone, "retraction", {"of": done["id"], "why": "too early"}, call["id"])])


def test_what_came_to_a_call_long_settled_is_read_when_it_comes_back_to_life(database_url: str) -> None:
    """A phone reads no more of it meanwhile, and its cursor passes what others bring late."""
    with household(database_url) as house:
        phone, other = house.phones[0], house.phones[1]
        call, _ = house.writer.call(phone, machine_on(phone))
        done = house.writer.entry(phone, "submission", {"note": "done"}, call["id"])
        house.keep(phone, [call, done])
        house.exchange(phone)
        house.review_of(call["id"], "accepted")
        house.exchange(phone)
        house.exchange(other)
        house.later += timedelta(days=100)
        house.keep(other, [house.writer.entry(other, "sign", {"sign": "knock", "present": True}, call["id"])])
        house.exchange(other)
        house.exchange(phone)
        house.keep(phone, [house.writer.entry(phone, "retraction", {"of": done["id"], "why": "too early"}, call["id"])])


BROKEN = [
    (mutants.drops_operation_ids, "no entry is there twice"),
    # Who misses an entry says so at the end, or as soon as somebody's sites have changed.
    (
        mutants.takes_cursors_from_a_sequence,
        "phone and server hold the same|what joined a person's sites is on the phone",
    ),
    # What leaned on an entry that was acknowledged and lost is refused for ever.
    (mutants.acknowledges_before_commit, "lost|phone and server hold the same|what was refused stays refused"),
    (mutants.advances_the_cursor_early, "phone and server hold the same"),
]


@pytest.mark.parametrize(("mutant", "told"), BROKEN, ids=[mutant.__name__ for mutant, _ in BROKEN])
@pytest.mark.parametrize("url", ["sqlite_url", "postgres_url"][: examples(quick=1, thorough=2)])
def test_a_broken_one_is_found_out(request: pytest.FixtureRequest, url: str, mutant: Any, told: str) -> None:
    """The same runs, with one promise of the server or the phone broken on purpose."""
    with (
        opened(request.getfixturevalue(url)) as database,
        mutant(database) as end,
        pytest.raises(AssertionError, match=told),
    ):
        run_model(database, 300, at_restart=end, gaps_allowed=True)
