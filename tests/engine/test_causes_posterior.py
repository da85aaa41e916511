"""The posterior against brute force over every joint state, and against an independent implementation in numpy."""

import itertools
import random

import numpy as np
import pytest

from rackside.engine.causes.facts import FACTS
from rackside.engine.causes.weighing import Weighing, priors
from tests.engine.simulated import COMPLAINTS, MACHINE, SHOWINGS, Seen, World, weighed


def enumerated(complaint: str, seen: list[Seen]) -> dict[str, float]:
    """Return the posterior by adding up every joint state of cause and facts, one by one."""
    facts = sorted({fact.name for fact, _, _ in seen})
    by_name = {fact.name: fact for fact in FACTS}
    weights: dict[str, float] = {}
    for cause, share in priors(complaint, MACHINE):
        for states in itertools.product(*(range(len(by_name[name].states)) for name in facts)):
            weight = share
            for name, state in zip(facts, states, strict=True):
                weight *= by_name[name].chances(cause)[state]
            for fact, showing, outcome in seen:
                weight *= showing.chances[outcome][states[facts.index(fact.name)]]
            weights[cause] = weights.get(cause, 0.0) + weight
    whole = sum(weights.values())
    return {cause: weight / whole for cause, weight in weights.items()}


def by_numpy(complaint: str, seen: list[Seen]) -> dict[str, float]:
    """Return the posterior from matrices in logarithms."""
    pairs = priors(complaint, MACHINE)
    with np.errstate(divide="ignore"):
        logs = np.log(np.array([share for _, share in pairs]))
    for fact in FACTS:
        rows = [np.log(np.array(showing.chances))[outcome] for f, showing, outcome in seen if f is fact]
        if rows:
            given = np.log(np.array([fact.chances(cause) for cause, _ in pairs]))
            logs = logs + np.logaddexp.reduce(given + np.sum(rows, axis=0), axis=1)
    shares = np.exp(logs - np.max(logs))
    return dict(zip([cause for cause, _ in pairs], (shares / shares.sum()).tolist(), strict=True))


def some_evidence(seed: int, facts: int, showings: int) -> tuple[str, list[Seen]]:
    rng = random.Random(seed)
    complaint = rng.choice(COMPLAINTS)
    _, outcomes = World(rng).case(complaint)
    names = {fact.name for fact in rng.sample(FACTS, facts)}
    able = [(fact, showing) for fact, showing in SHOWINGS if fact.name in names]
    chosen = rng.sample(able, min(showings, len(able)))
    return complaint, [(fact, showing, outcomes[id(showing)]) for fact, showing in chosen]


@pytest.mark.parametrize("seed", range(12))
def test_it_is_what_adding_up_every_joint_state_gives(seed: int) -> None:
    complaint, seen = some_evidence(seed, facts=5, showings=9)
    expected = enumerated(complaint, seen)
    found = weighed(complaint, seen)
    for cause, probability in zip(found.causes, found.probabilities, strict=True):
        assert probability == pytest.approx(expected[cause], rel=1e-9, abs=1e-15)


@pytest.mark.parametrize("seed", range(100, 160))
def test_it_is_what_numpy_gives_with_everything_seen(seed: int) -> None:
    complaint, seen = some_evidence(seed, facts=len(FACTS), showings=60)
    expected = by_numpy(complaint, seen)
    found = weighed(complaint, seen)
    assert sum(found.probabilities) == pytest.approx(1.0, abs=1e-12)
    for cause, probability in zip(found.causes, found.probabilities, strict=True):
        assert probability == pytest.approx(expected[cause], rel=1e-9, abs=1e-15)


def test_the_order_of_what_was_seen_changes_nothing_that_counts() -> None:
    complaint, seen = some_evidence(7, facts=len(FACTS), showings=40)
    first = weighed(complaint, seen).probabilities
    for seed in range(10):
        shuffled = random.Random(seed).sample(seen, len(seen))
        assert weighed(complaint, shuffled).probabilities == pytest.approx(first, rel=1e-12)


def test_many_signs_of_one_fact_tell_no_more_than_the_fact() -> None:
    """However many signs of liquid there are, floodback gains no more than certainty of liquid would give."""
    fact = next(fact for fact in FACTS if fact.name == "crankcase")
    showings = {showing.source: showing for showing in fact.showings}
    seen = [
        (fact, showings["sign:oil_foam"], 1),
        (fact, showings["finding:sump_superheat"], 2),
        (fact, showings["reading:sump_temperature"], 1),
    ]
    shares = dict(priors("oil_trip", MACHINE))
    certain = {cause: share * fact.chances(cause)[1] for cause, share in shares.items()}
    most = certain["floodback"] / sum(certain.values())
    one, three = Weighing(priors("oil_trip", MACHINE), seen[:1]), Weighing(priors("oil_trip", MACHINE), seen)
    assert one.of("floodback") < three.of("floodback") < most
