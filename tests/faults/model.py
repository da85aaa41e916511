"""A household in any order of events that chance thinks of; at the end of each run all must be quiet and whole."""

from collections.abc import Callable
from datetime import timedelta
from functools import wraps
from random import Random
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from rackside.records import Database
from tests.faults import races
from tests.faults.household import PEOPLE, Household
from tests.faults.inside import FAULTS

PHONES = st.integers(0, 3)
SEEDS = st.integers(0, 2**32)
LONGER_THAN_PHONES_KEEP = timedelta(days=100)


def step(**chances: Any) -> Any:
    """A rule that counts."""

    def counted(act: Any) -> Any:
        @wraps(act)
        def taken(self: Any, **drawn: Any) -> None:
            type(self).steps += 1
            act(self, **drawn)

        return rule(**chances)(taken)

    return counted


class HouseModel(RuleBasedStateMachine):
    """Three phones of three people, one key, an office."""

    database: Database
    at_restart: tuple[Callable[[], None], ...] = ()
    gaps_allowed = False
    steps = 0
    entries = 0

    @initialize(seed=SEEDS)
    def begin(self, seed: int) -> None:
        self.house = Household(self.database, seed, self.at_restart)
        self.house.gaps_allowed = self.gaps_allowed
        self.phones = self.house.phones

    @step(which=PHONES, count=st.integers(1, 6))
    def keep(self, which: int, count: int) -> None:
        self.house.keep_some(self.phones[which], count)

    @step(which=PHONES, count=st.integers(1, 6), fault=st.sampled_from(FAULTS), after=st.integers(0, 2))
    def work(self, which: int, count: int, fault: str, after: int) -> None:
        """What a day is made of: something kept, then sent, over whatever line there is."""
        self.house.keep_some(self.phones[which], count)
        self.house.exchange(self.phones[which], fault, after)

    @step(which=PHONES)
    def keep_something_bad(self, which: int) -> None:
        self.phones[which].keep(self.house.writer.bad(self.phones[which]))

    @step(which=PHONES, fault=st.sampled_from(FAULTS), after=st.integers(0, 2))
    def exchange(self, which: int, fault: str, after: int) -> None:
        self.house.exchange(self.phones[which], fault, after)

    @step(which=PHONES, after=st.integers(0, 3))
    def battery_dies(self, which: int, after: int) -> None:
        phone = self.phones[which]
        phone.dies_after = after
        self.house.exchange(phone)
        phone.dies_after = None

    @step(which=PHONES, full=st.booleans())
    def two_tabs(self, which: int, full: bool) -> None:
        races.two_tabs(self.house, self.phones[which], full)

    @precondition(lambda self: self.house.office.late)
    @step()
    def a_late_request_arrives(self) -> None:
        """What a network held back comes after everything that was sent later."""
        self.house.office.late.pop(0)()

    @step(slow=PHONES, ahead=st.integers(1, 3))
    def one_push_overtakes_another(self, slow: int, ahead: int) -> None:
        races.overtake(
            self.house, *(self.phones[(slow + step) % 4] for step in (0, ahead, 4 - ahead if ahead != 2 else 1))
        )

    @step(first=PHONES, second=PHONES)
    def people_change_phones(self, first: int, second: int) -> None:
        self.house.change_hands(self.phones[first], self.phones[second])

    @step(who=st.sampled_from(PEOPLE), seed=SEEDS, everywhere=st.booleans())
    def a_person_gets_other_sites(self, who: str, seed: int, everywhere: bool) -> None:
        self.house.give_sites(who, None if everywhere else Random(seed))

    @step(which=PHONES)
    def a_person_sends_again_what_was_refused(self, which: int) -> None:
        self.phones[which].send_again()

    @step(seed=SEEDS, outcome=st.sampled_from(("accepted", "accepted", "returned")))
    def office_reviews(self, seed: int, outcome: str) -> None:
        self.house.review(seed, outcome)

    @step()
    def months_pass(self) -> None:
        """Calls settled before are read no more, unless one comes to life again."""
        self.house.later += LONGER_THAN_PHONES_KEEP

    @step(which=PHONES)
    def room_runs_out(self, which: int) -> None:
        self.phones[which].make_room()

    @step(which=PHONES)
    def browser_empties_the_store(self, which: int) -> None:
        self.house.empty_store(self.phones[which])

    @step()
    def backup(self) -> None:
        self.house.backup()

    @precondition(lambda self: self.house.backups)
    @step(seed=SEEDS)
    def restore(self, seed: int) -> None:
        self.house.restore(seed)

    @step()
    def server_restarts(self) -> None:
        """The process ends; what it had not committed is gone."""
        self.house.office.end()

    def teardown(self) -> None:
        if not hasattr(self, "house"):
            return
        try:
            self.house.quiet()
            type(self).entries += len(self.house.kept)
        finally:
            self.house.close()
