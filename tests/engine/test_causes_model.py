"""The model's data hold together: every row adds up, every number has its mark, every word exists."""

import pytest

from rackside.engine.causes.facts import FACTS
from rackside.engine.causes.model import JUDGEMENT, Fact
from rackside.engine.causes.priors import PRIORS, RULED_OUT, SAID_BY_COMPLAINT
from rackside.engine.causes.steps import ONLY_FOR, STEPS
from rackside.engine.causes.weighing import priors
from rackside.engine.points import known_point
from rackside.engine.say import words_of
from rackside.engine.vocabulary import CAUSES, COMPLAINTS, SIGNS
from tests.engine.judging import CHECKS

# Showings taken from readings or other machines rather than from one point's own name.
DERIVED = {"ran_as_found", "like_machine"}
MARKS = {"C", "B", "T", "J"}


@pytest.mark.parametrize("fact", FACTS, ids=[fact.name for fact in FACTS])
class TestFact:
    def test_states_add_up_under_every_cause(self, fact: Fact) -> None:
        for cause in CAUSES:
            chances = fact.chances(cause)
            assert len(chances) == len(fact.states)
            assert sum(chances) == pytest.approx(1.0, abs=1e-12)
            assert min(chances) > 0.0, cause

    def test_outcomes_add_up_in_every_state(self, fact: Fact) -> None:
        for showing in fact.showings:
            assert len(showing.chances) == len(showing.outcomes)
            for state in range(len(fact.states)):
                column = [row[state] for row in showing.chances]
                assert sum(column) == pytest.approx(1.0, abs=1e-12), showing.source
                assert min(column) > 0.0, (showing.source, state)

    def test_every_number_carries_a_trust_mark(self, fact: Fact) -> None:
        assert set(fact.marks) <= MARKS
        assert {showing.mark for showing in fact.showings} <= MARKS

    def test_it_names_only_what_exists(self, fact: Fact) -> None:
        assert set(fact.given) <= set(CAUSES)
        for showing in fact.showings:
            kind, _, name = showing.source.partition(":")
            known = {"sign": name in SIGNS, "finding": name in CHECKS}
            assert known.get(kind, name in DERIVED or known_point(name) is not None), showing.source

    def test_each_state_can_be_said(self, fact: Fact) -> None:
        for state in fact.states:
            assert f"fact.{fact.name}.{state}" in words_of("en").SENTENCES


@pytest.mark.parametrize("complaint", COMPLAINTS)
def test_every_complaint_has_priors_that_add_up(complaint: str) -> None:
    shares = dict(priors(complaint, {}))
    assert list(shares) == list(CAUSES)
    assert sum(shares.values()) == pytest.approx(1.0, abs=1e-12)
    assert min(shares.values()) > 0.0


def test_the_handbooks_rows_keep_their_share() -> None:
    """Oil trip, B1: liquid 30, oil away 22, never ran 15, control 10 of 100 in the table."""
    shares = dict(priors("oil_trip", {}))
    liquid = shares["floodback"] + shares["migration"]
    away = shares["oil_away"] + shares["oil_regulator"]
    assert liquid / shares["never_ran"] == pytest.approx(30 / 15)
    assert away / shares["oil_control_fault"] == pytest.approx(22 / 10)


@pytest.mark.parametrize(("complaint", "rows"), PRIORS)
def test_a_complaints_table_is_a_hundred(complaint: str, rows: tuple[tuple[str, int], ...]) -> None:
    """B9 keeps 5 for dust and vibration, which is no cause of the contract and stays with `unknown`."""
    assert sum(share for _, share in rows) == (95 if complaint == "repeated_contactor_failure" else 100)
    assert {cause for cause, _ in rows} <= set(CAUSES)


def test_what_a_machine_cannot_have_has_no_share() -> None:
    shares = dict(priors("low_current", {"type": "semi-hermetic-reciprocating", "start": "across-the-line"}))
    assert shares["reverse_rotation"] == shares["slide_valve"] == shares["part_winding_fault"] == 0.0
    assert sum(shares.values()) == pytest.approx(1.0, abs=1e-12)


def test_the_other_tables_name_only_what_exists() -> None:
    assert {cause for cause, _, _ in RULED_OUT} <= set(CAUSES)
    assert {complaint for complaint, _ in SAID_BY_COMPLAINT} <= set(COMPLAINTS)
    assert all(known_point(step.point) is not None for step in STEPS)
    assert {point for point, _, _ in ONLY_FOR} <= {step.point for step in STEPS}
    assert JUDGEMENT in MARKS
