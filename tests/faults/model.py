"""A house of phones, an office and other software in any order of events, and what must hold once all is quiet."""

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from random import Random
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule
from sqlalchemy import Connection

from rackside.access import devices, people
from rackside.records import Database, Refused, projection
from rackside.sync import reviewing
from tests.faults.inside import ENTRY_LIMIT, FAULTS, Office, empty
from tests.faults.replica import Cut, Died, Replica, content
from tests.faults.writing import Writer

Json = dict[str, Any]
PEOPLE = ("T. Okafor", "R. Lindqvist", "S. Brandt")
KEY, PASSWORD = "meter gateway", "not asked for here"
PHONES = st.integers(0, 3)
SEEDS = st.integers(0, 2**32)
# Seconds in which a push comes to its end, unless it waits for another.
OVERTAKEN_WITHIN = 0.15


class SlowDatabase:
    """A database whose writer stands still where another writer could overtake: before SQLite's one lock, or with
    PostgreSQL before the commit."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self.reading = database.reading
        self.reached, self.go_on = threading.Event(), threading.Event()

    def _wait(self) -> None:
        self.reached.set()
        self.go_on.wait(10)

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        if self._database.sqlite:
            self._wait()
        with self._database.writing() as connection:
            yield connection
            if not self._database.sqlite:
                self._wait()


class HouseModel(RuleBasedStateMachine):
    """Three phones of three people, one key; `quiet` at the end demands that nothing was lost, doubled or changed."""

    database: Database
    at_restart: tuple[Callable[[], None], ...] = ()
    gaps_allowed = False
    steps = 0
    entries = 0

    @initialize(seed=SEEDS)
    def begin(self, seed: int) -> None:
        empty(self.database)
        self.office = Office(self.database, self.at_restart)
        self.writer = Writer(Random(seed))
        self.tokens: dict[str, str] = {}
        self.backups: list[tuple[dict[str, list[Json]], frozenset[str]]] = []
        self.kept: dict[str, Json] = {}
        self.reviews: set[str] = set()
        self.doubtful: set[str] = set()
        self.phones = [self._phone(name) for name in PEOPLE] + [self._key()]
        with self.database.writing() as connection:
            people.add(connection, "M. Castellanos", PASSWORD, "office")
            self.reviewer = self._sign_in(connection, "M. Castellanos")[0]
        for phone in self.phones:
            self._keep(phone, self.writer.plant(phone))

    def _sign_in(self, connection: Connection, name: str) -> tuple[str, str]:
        person = connection.execute(people.PEOPLE.select().where(people.PEOPLE.c.name == name)).one()
        given = devices.sign_in(connection, person, "phone", 30)
        return given["token"], given["device"]

    def _phone(self, name: str) -> Replica:
        with self.database.writing() as connection:
            people.add(connection, name, PASSWORD, "technician")
            token, device = self._sign_in(connection, name)
        self.tokens[device] = token
        return Replica(device, name)

    def _key(self) -> Replica:
        with self.database.writing() as connection:
            made = devices.add_key(connection, KEY, ["read", "write"], None, None)
        self.tokens[made["id"]] = made["token"]
        return Replica(made["id"], KEY)

    def _line(self, phone: Replica, fault: str = "none", after: int = 0) -> Any:
        return self.office.line(self.tokens[phone.device], fault, after)

    def _exchange(self, phone: Replica, fault: str = "none", after: int = 0) -> None:
        try:
            phone.exchange(self._line(phone, fault, after))
        except (Cut, Died):
            pass

    @rule(which=PHONES, count=st.integers(1, 6))
    def keep(self, which: int, count: int) -> None:
        phone = self.phones[which]
        for _ in range(count):
            self._keep(phone, self.writer.some(phone))
        type(self).steps += 1

    def _keep(self, phone: Replica, entries: list[Json]) -> None:
        phone.keep(*entries)
        self.kept |= {entry["id"]: entry for entry in entries}

    @rule(which=PHONES, count=st.integers(1, 6), fault=st.sampled_from(FAULTS), after=st.integers(0, 2))
    def work(self, which: int, count: int, fault: str, after: int) -> None:
        """What a day is made of: something kept, then sent, over whatever line there is."""
        self.keep(which, count)
        self.exchange(which, fault, after)

    @rule(which=PHONES)
    def keep_something_bad(self, which: int) -> None:
        entry = self.writer.bad(self.phones[which])
        self.phones[which].keep(entry)
        type(self).steps += 1

    @rule(which=PHONES, fault=st.sampled_from(FAULTS), after=st.integers(0, 2))
    def exchange(self, which: int, fault: str, after: int) -> None:
        self._exchange(self.phones[which], fault, after)
        type(self).steps += 1

    @rule(which=PHONES, after=st.integers(0, 3))
    def battery_dies(self, which: int, after: int) -> None:
        phone = self.phones[which]
        phone.dies_after = after
        self._exchange(phone)
        phone.dies_after = None
        type(self).steps += 1

    @rule(which=PHONES)
    def two_tabs(self, which: int) -> None:
        """A slower tab answers last: with an older page, and with the answer to a batch sent before."""
        phone = self.phones[which]
        line, before, batch = self._line(phone), phone.store, phone.waiting()
        page = line.pull(before.cursor, before.scope, before.epoch)
        answer = line.push(phone.device, before.epoch, batch)
        self._exchange(phone)
        if "items" in page and phone.store.epoch == page["epoch"]:
            phone.keep_page(page)
        if "results" in answer and phone.store.epoch == answer["epoch"]:
            phone.settle(answer)
        type(self).steps += 1

    @precondition(lambda self: self.office.late)
    @rule()
    def a_late_request_arrives(self) -> None:
        """What a network held back comes after everything that was sent later."""
        self.office.late.pop(0)()
        type(self).steps += 1

    @rule(slow=PHONES, ahead=st.integers(1, 3))
    def one_push_overtakes_another(self, slow: int, ahead: int) -> None:
        """While one phone's push hangs in the server, another's arrives, and a third phone reads."""
        first, second, third = (self.phones[(slow + step) % 4] for step in (0, ahead, 4 - ahead if ahead != 2 else 1))
        self._keep(first, self.writer.some(first))
        self._keep(second, self.writer.some(second))
        hanging, batch, line = SlowDatabase(self.database), first.waiting(), self._line(first)
        pushing = threading.Thread(target=lambda: line._push(hanging, first.store.epoch, batch))
        pushing.start()
        while pushing.is_alive() and not hanging.reached.wait(0.01):
            pass
        overtaking = threading.Thread(target=self._exchange, args=(second,))
        overtaking.start()
        overtaking.join(OVERTAKEN_WITHIN)
        self._read_only(third)
        hanging.go_on.set()
        pushing.join()
        overtaking.join()
        type(self).steps += 1

    def _read_only(self, phone: Replica) -> None:
        page = self._line(phone).pull(phone.store.cursor, phone.store.scope, phone.store.epoch)
        if "items" in page:
            phone.keep_page(page)

    @rule(first=PHONES, second=PHONES)
    def people_change_phones(self, first: int, second: int) -> None:
        """Another person signs in on the same phone; what the first left waits for the first."""
        one, other = self.phones[first], self.phones[second]
        one.device, other.device = other.device, one.device
        one.author, other.author = other.author, one.author
        type(self).steps += 1

    @rule(seed=SEEDS, outcome=st.sampled_from(("accepted", "returned")))
    def office_reviews(self, seed: int, outcome: str) -> None:
        calls = [entry for entry in self.office.whole_log() if entry["kind"] == "call"]
        if not calls:
            return
        call = calls[seed % len(calls)]["id"]
        told = {"id": self.writer.id(), "outcome": outcome, "seen": 1 << 40}
        with self.database.reading() as connection:
            caller = devices.caller_of(connection, self.reviewer)
        for _ in range(2):
            try:
                reviewing.review(self.database, caller, call, told, ENTRY_LIMIT)
            except Refused:
                return
        self.reviews.add(told["id"])
        type(self).steps += 1

    @rule(which=PHONES)
    def room_runs_out(self, which: int) -> None:
        self.phones[which].make_room()
        type(self).steps += 1

    @rule(which=PHONES)
    def browser_empties_the_store(self, which: int) -> None:
        """Only what was sent can come back: a store with unsent entries is not emptied here."""
        phone = self.phones[which]
        self._exchange(phone)
        if not phone.store.outbox and not phone.store.refused:
            phone.evict()
            self.backups.clear()
        type(self).steps += 1

    @rule()
    def backup(self) -> None:
        self.backups.append((self.office.snapshot(), frozenset(self.reviews)))
        type(self).steps += 1

    @precondition(lambda self: self.backups)
    @rule(seed=SEEDS)
    def restore(self, seed: int) -> None:
        """The server goes back in time. A review made since is only there again if a phone had read it."""
        rows, reviews = self.backups[seed % len(self.backups)]
        self.doubtful |= self.reviews - reviews
        self.reviews &= reviews
        self.office.restore(rows, self.writer.id())
        type(self).steps += 1

    @rule()
    def server_restarts(self) -> None:
        """The process ends; what it had not committed is gone."""
        self.office.end()
        type(self).steps += 1

    def teardown(self) -> None:
        if hasattr(self, "office"):
            self.quiet()

    def quiet(self) -> None:
        """All lines whole: exchange until nothing moves, every person signing in where they left something."""
        while self.office.late:
            self.office.late.pop()()
        for _ in range(3):
            for phone in self.phones:
                self._sign_in_everybody(phone)
        self.demand()

    def _sign_in_everybody(self, phone: Replica) -> None:
        at = phone.device
        for device in self.tokens:
            phone.device = device
            phone.exchange(self._line(phone))
        phone.device = at

    def demand(self) -> None:
        held = self.office.whole_log()
        ids = [entry["id"] for entry in held]
        assert len(ids) == len(set(ids)), "no entry is there twice"
        lost = self.kept.keys() - set(ids)
        assert not lost, f"{len(lost)} entries acknowledged to a person are lost"
        assert self.reviews <= set(ids), "a review is lost"
        assert set(ids) <= self.kept.keys() | self.reviews | self.doubtful, "nobody made this entry"
        changed = [entry["id"] for entry in held if entry["id"] in self.kept and not self._as_made(entry)]
        assert not changed, "an entry was changed on the way"
        for phone in self.phones:
            assert not phone.store.outbox, "everything was sent"
            assert {
                name: content(row) for name, row in phone.store.rows.items() if name not in self.writer.bad_ids
            } == {entry["id"]: content(entry) for entry in held}, "phone and server hold the same"
            cursors = {
                name: row.get("cursor") for name, row in phone.store.rows.items() if name not in self.writer.bad_ids
            }
            assert cursors == {entry["id"]: entry["cursor"] for entry in held}, "in the same order"
        refused = {name for phone in self.phones for name in phone.store.refused}
        assert refused == self.writer.bad_ids, "what was refused is in sight, and nothing else was refused"
        numbers = [entry["cursor"] for entry in held]
        assert self.gaps_allowed or numbers == list(range(1, len(held) + 1)), "the log has no gap"
        self._demand_projections()
        type(self).entries += len(held)

    def _as_made(self, entry: Json) -> bool:
        return content(entry) == content(self.kept[entry["id"]])

    def _demand_projections(self) -> None:
        with self.database.writing() as connection:
            before = projection.fingerprint(connection)
            projection.rebuild(connection)
            assert projection.fingerprint(connection) == before, "the tables rebuilt from the log are the same"
