"""Phones of three people, an office and other software around the real server, and what each may do to the others."""

import json
from collections.abc import Callable
from datetime import timedelta
from random import Random
from typing import Any
from unittest.mock import patch

from sqlalchemy import Connection, select

from rackside.access import devices, people
from rackside.records import Database, Refused, clock, log
from rackside.sync import reviewing
from tests.faults import demands
from tests.faults.inside import ENTRY_LIMIT, Office, empty
from tests.faults.replica import Cut, Died, Replica, content
from tests.faults.writing import Writer

Json = dict[str, Any]
PEOPLE = ("T. Okafor", "R. Lindqvist", "S. Brandt")
KEY, PASSWORD = "meter gateway", "not asked for here"
YEARS = 30 * 365
# No chain of entries that lean on each other across sign-ins is longer than this.
MOST_ROUNDS = 60
REAL_NOW = clock.now


class Household:
    """`quiet` at the end demands that nothing was lost, doubled or changed. `close` gives the time back."""

    def __init__(self, database: Database, seed: int, at_restart: tuple[Callable[[], None], ...] = ()) -> None:
        empty(database)
        self.database, self.office = database, Office(database, at_restart)
        self.writer = Writer(Random(seed))
        self.gaps_allowed = False
        self.later = timedelta()
        self._calendar = patch.object(clock, "now", lambda: REAL_NOW() + self.later)
        self._calendar.start()
        self.tokens: dict[str, str] = {}
        self.backups: list[tuple[dict[str, list[Json]], frozenset[str]]] = []
        self.kept: dict[str, Json] = {}
        self.reviews: set[str] = set()
        self.doubtful: set[str] = set()
        self.phones = [self._phone(name) for name in PEOPLE] + [self._key()]
        with database.writing() as connection:
            people.add(connection, "M. Castellanos", PASSWORD, "office")
            self.reviewer = self._sign_in(connection, "M. Castellanos")[0]
        for phone in self.phones:
            self.keep(phone, self.writer.plant(phone))

    def close(self) -> None:
        self._calendar.stop()

    def _sign_in(self, connection: Connection, name: str) -> tuple[str, str]:
        person = connection.execute(people.PEOPLE.select().where(people.PEOPLE.c.name == name)).one()
        given = devices.sign_in(connection, person, "phone", YEARS)
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

    def caller(self, token: str) -> Any:
        with self.database.reading() as connection:
            return devices.caller_of(connection, token)

    def line(self, phone: Replica, fault: str = "none", after: int = 0) -> Any:
        return self.office.line(self.tokens[phone.device], fault, after)

    def exchange(self, phone: Replica, fault: str = "none", after: int = 0) -> None:
        try:
            phone.exchange(self.line(phone, fault, after))
        except (Cut, Died):
            pass

    def keep(self, phone: Replica, entries: list[Json]) -> None:
        phone.keep(*entries)
        self.kept |= {entry["id"]: entry for entry in entries}

    def keep_some(self, phone: Replica, count: int = 1) -> None:
        for _ in range(count):
            self.keep(phone, self.writer.some(phone))

    def change_hands(self, one: Replica, other: Replica) -> None:
        """Another person signs in on the same phone; what the first left waits for the first."""
        one.device, other.device = other.device, one.device
        one.author, other.author = other.author, one.author

    def review(self, seed: int, outcome: str) -> None:
        calls = sorted(entry["call"] for entry in self.office.whole_log() if entry["kind"] == "call")
        if calls:
            self.review_of(calls[seed % len(calls)], outcome)

    def review_of(self, call: str, outcome: str) -> None:
        """Ask for the same review twice, as after a lost answer."""
        told = {"id": self.writer.id(), "outcome": outcome, "seen": 1 << 40}
        for _ in range(2):
            try:
                reviewing.review(self.database, self.caller(self.reviewer), call, told, ENTRY_LIMIT)
            except Refused:
                return
        self.reviews.add(told["id"])

    def give_sites(self, name: str, chance: Random | None) -> None:
        """Say which sites a person sees from now on: some of them by chance, or all."""
        sites = sorted(entry["id"] for entry in self.office.whole_log() if entry["kind"] == "site")
        chosen = None if chance is None else [site for site in sites if chance.random() < 0.6]
        with self.database.writing() as connection:
            people.set_sites(connection, people.id_of(connection, name), chosen)

    def backup(self) -> None:
        self.backups.append((self.office.snapshot(), frozenset(self.reviews)))

    def restore(self, seed: int) -> None:
        """The server goes back in time. A review made since is only there again if a phone had read it."""
        rows, reviews = self.backups[seed % len(self.backups)]
        self.doubtful |= self.reviews - reviews
        self.reviews &= reviews
        self.office.restore(rows, self.writer.id())

    def empty_store(self, phone: Replica) -> None:
        """The browser empties a store; not one with unsent entries: only what was sent can come back."""
        self.exchange(phone)
        if not phone.store.outbox and not phone.store.refused:
            phone.evict()
            self.backups.clear()

    def quiet(self) -> None:
        """All lines whole, late requests in: first within the sites each person has, then with all sites for all."""
        while self.office.late:
            self.office.late.pop()()
        self._until_nothing_moves()
        for phone in self.phones:
            self._demand_scope(phone)
        for name in PEOPLE:
            self.give_sites(name, None)
        self._until_nothing_moves()
        while any(phone.store.refused.keys() - self.writer.bad_ids for phone in self.phones):
            self._send_again()
        self.demand()

    def _send_again(self) -> None:
        before = [set(phone.store.refused) for phone in self.phones]
        for phone in self.phones:
            phone.send_again()
        self._until_nothing_moves()
        assert [set(phone.store.refused) for phone in self.phones] != before, "what was refused stays refused"

    def _until_nothing_moves(self) -> None:
        """Every person signs in wherever they left something: what leans on another's entry goes after that one."""
        before = None
        for _ in range(MOST_ROUNDS):
            for phone in self.phones:
                self._sign_in_everybody(phone)
            with self.database.reading() as connection:
                state = log.state(connection)
            now = (state.cursor, state.epoch, [(list(one.store.outbox), set(one.store.refused)) for one in self.phones])
            if now == before:
                return
            before = now
        raise AssertionError("the phones go round in circles")

    def _sign_in_everybody(self, phone: Replica) -> None:
        own = phone.device
        for device in [*sorted({*phone.store.outbox.values()} - {own}), own]:
            phone.device = device
            phone.exchange(self.line(phone))

    def _demand_scope(self, phone: Replica) -> None:
        """A phone holds all that its person may see, and of other sites only what was made on it."""
        caller = self.caller(self.tokens[phone.device])
        if caller.sites is None:
            return
        sites = self._sites()
        rows = {name for name, row in phone.store.rows.items() if name in sites and name not in phone.store.own}
        foreign = {name for name in rows if sites[name] is not None and sites[name] not in caller.sites}
        assert not foreign, "what left a person's sites left the phone"
        assert self._seen_by(caller) <= phone.store.rows.keys(), "what joined a person's sites is on the phone"

    def _sites(self) -> dict[str, str | None]:
        with self.database.reading() as connection:
            rows = connection.execute(select(log.ENTRIES.c.id, log.ENTRIES.c.site_id)).all()
        return {row.id: row.site_id for row in rows}

    def _seen_by(self, caller: Any) -> set[str]:
        with self.database.reading() as connection:
            page = log.page(connection, caller.sites, 0, 1 << 30)
        return {json.loads(document)["id"] for document in page.documents}

    def demand(self) -> None:
        held = self.office.whole_log()
        demands.nothing_lost_doubled_or_changed(held, self.kept, self.reviews, self.doubtful)
        logged = {entry["id"]: (entry["cursor"], content(entry)) for entry in held}
        live = self._seen_by(self.caller(self.reviewer))
        for phone in self.phones:
            assert not phone.store.outbox, "everything was sent"
            rows = {
                name: (row.get("cursor"), content(row))
                for name, row in phone.store.rows.items()
                if name not in self.writer.bad_ids
            }
            assert live <= rows.keys(), "phone and server hold the same: all that is not long settled"
            assert all(logged.get(name) == row for name, row in rows.items()), (
                "phone and server hold the same, in the same order"
            )
        refused = {name for phone in self.phones for name in phone.store.refused}
        assert refused == self.writer.bad_ids, "what was refused is in sight, and nothing else was refused"
        if not self.gaps_allowed:
            demands.no_gap(held)
        demands.tables_follow_from_the_log(self.database)
