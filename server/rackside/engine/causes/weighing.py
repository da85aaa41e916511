"""The posterior over the causes: priors times, for each fact, the chance of all that shows it.

With one cause C, facts F and showings S:  P(C | S) ~ P(C) x product over facts of [ sum over its states f of
P(f | C) x product over what was seen of it of P(s | f) ].  Exact for the model as stated; order plays no part.
"""

from ..kinds import Any, Json
from ..vocabulary import CAUSES
from .facts import FACTS
from .model import NOTHING_FOUND, UNKNOWN, Fact
from .priors import (
    ELSEWHERE_SHARE,
    METER_ERROR_SHARE,
    NOTHING_FOUND_SHARE,
    PRIORS,
    RULED_OUT,
    TABLE_SHARE,
    UNKNOWN_SHARE,
)

Observation = "tuple[Fact, Showing, int]"


def possible_causes(machine: Json) -> "list[str]":
    """Return the causes this kind of machine can have; what is not known rules nothing out."""
    out = [cause for cause, key, words in RULED_OUT if (machine.get(key) or "") in words]
    return [cause for cause in CAUSES if cause not in out]


def table_of(complaint: str) -> "tuple[tuple[str, int], ...]":
    """Return the complaint's own table of causes, empty for a complaint that is not known."""
    for name, rows in PRIORS:
        if name == complaint:
            return rows
    return ()


def priors(complaint: str, machine: Json) -> "list[tuple[str, float]]":
    """Return (cause, share) for every cause of the contract, adding up to 1; without a complaint all weigh alike."""
    able = possible_causes(machine)
    rows = [(cause, float(share)) for cause, share in table_of(complaint) if cause in able]
    weights = dict.fromkeys(CAUSES, 0.0)
    for cause, share in rows:
        weights[cause] = TABLE_SHARE * share / _total([share for _, share in rows])
    fixed = ((UNKNOWN, UNKNOWN_SHARE), (NOTHING_FOUND, NOTHING_FOUND_SHARE), ("meter_error", METER_ERROR_SHARE))
    for cause, share in fixed:
        if weights[cause] == 0.0:
            weights[cause] = share
    others = [cause for cause in able if weights[cause] == 0.0]
    left = ELSEWHERE_SHARE if rows else TABLE_SHARE + ELSEWHERE_SHARE
    for cause in others:
        weights[cause] = left / len(others)
    whole = _total([weights[cause] for cause in CAUSES])
    return [(cause, weights[cause] / whole) for cause in CAUSES]


def _total(values: "list[float]") -> float:
    total = 0.0
    for value in values:
        total += value
    return total


class Weighing:
    """Causes with their probabilities, and what each fact's state was made of.

    masses[fact name]: for each state, the product of the chances of what was seen of it.
    """

    def __init__(self, prior: "list[tuple[str, float]]", seen: "list[Any]") -> None:
        self.prior = prior
        self.seen = seen
        self.masses = masses(seen)
        self.causes = [cause for cause, _ in prior]
        self.probabilities = posterior(prior, self.masses)

    def of(self, cause: str) -> float:
        return self.probabilities[self.causes.index(cause)]

    def chance(self, name: str, state: str) -> float:
        """Return the probability that a fact stands in a state, given all that was seen."""
        fact = fact_named(name)
        index = fact.states.index(state)
        found = 0.0
        for cause, probability in zip(self.causes, self.probabilities):
            found += probability * states_given(fact, cause, self.masses)[index]
        return found


def fact_named(name: str) -> Fact:
    """Return the fact of that name."""
    return [fact for fact in FACTS if fact.name == name][0]


def masses(seen: "list[Any]") -> "dict[str, list[float]]":
    """Return for each fact seen, by state, the product of the chances of what was seen of it."""
    found: "dict[str, list[float]]" = {}
    for fact, showing, outcome in seen:
        row = showing.chances[outcome]
        before = found.get(fact.name)
        found[fact.name] = row if before is None else [before[i] * row[i] for i in range(len(row))]
    return found


def states_given(fact: Fact, cause: str, seen: "dict[str, list[float]]") -> "list[float]":
    """Return the chance of each state of a fact under a cause and what was seen of it."""
    chances = fact.chances(cause)
    mass = seen.get(fact.name)
    if mass is None:
        return chances
    joint = [chances[i] * mass[i] for i in range(len(chances))]
    whole = _total(joint)
    return [one / whole for one in joint]


def posterior(prior: "list[tuple[str, float]]", seen: "dict[str, list[float]]") -> "list[float]":
    """Return the probability of each cause of the prior, in its order."""
    weights = [share for _, share in prior]
    for fact in FACTS:
        mass = seen.get(fact.name)
        if mass is not None:
            _weigh(weights, prior, fact, mass)
    return weights if seen else [share for _, share in prior]


def _weigh(weights: "list[float]", prior: "list[tuple[str, float]]", fact: Fact, mass: "list[float]") -> None:
    """Multiply in one fact and bring the weights back to a sum of 1."""
    base = _dot(fact.base, mass)
    whole = 0.0
    for index in range(len(weights)):
        row = fact.given.get(prior[index][0])
        weights[index] *= base if row is None else _dot(row, mass)
        whole += weights[index]
    for index in range(len(weights)):
        weights[index] /= whole


def _dot(chances: "list[float]", mass: "list[float]") -> float:
    total = 0.0
    for index in range(len(mass)):
        total += chances[index] * mass[index]
    return total
