"""Cases drawn from the model of causes itself, or from one bent away from it, without a line of the engine's formulas."""

import math
import random
from typing import Any

from rackside.engine.causes.facts import FACTS
from rackside.engine.causes.model import Fact, Showing
from rackside.engine.causes.priors import PRIORS
from rackside.engine.causes.steps import STEPS
from rackside.engine.causes.weighing import Weighing, priors

MACHINE = {"type": "semi-hermetic-reciprocating", "start": "across-the-line", "oil_pump": "reversible"}
COMPLAINTS = [complaint for complaint, _ in PRIORS if complaint != "routine"]
SHOWINGS = [(fact, showing) for fact in FACTS for showing in fact.showings]
Seen = tuple[Fact, Showing, int]


def drawn(chances: list[float], rng: random.Random) -> int:
    return rng.choices(range(len(chances)), weights=chances)[0]


def bent(chances: list[float], spread: float, rng: random.Random) -> list[float]:
    """Return chances with every log-odds moved by a normal error of that spread."""
    if not spread:
        return chances
    moved = []
    for chance in chances:
        odds = math.log(chance / (1.0 - chance)) + rng.gauss(0.0, spread)
        moved.append(1.0 / (1.0 + math.exp(-odds)))
    return [chance / sum(moved) for chance in moved]


class World:
    """The truth that cases are drawn from: the model, bent by `spread` in log-odds."""

    def __init__(self, rng: random.Random, spread: float = 0.0) -> None:
        self.rng = rng
        causes = [cause for cause, _ in priors("", {})]
        self.states = {
            (fact.name, cause): bent(fact.chances(cause), spread, rng) for fact in FACTS for cause in causes
        }
        self.outcomes = {}
        for fact, showing in SHOWINGS:
            for state in range(len(fact.states)):
                column = [row[state] for row in showing.chances]
                self.outcomes[(id(showing), state)] = bent(column, spread, rng)

    def case(self, complaint: str, without: tuple[str, ...] = ()) -> tuple[str, dict[int, int]]:
        """Return the true cause and, for every showing, the outcome it would have."""
        shares = [(cause, share) for cause, share in priors(complaint, MACHINE) if cause not in without]
        cause = shares[drawn([share for _, share in shares], self.rng)][0]
        seen = {}
        for fact in FACTS:
            state = drawn(self.states[(fact.name, cause)], self.rng)
            for showing in fact.showings:
                seen[id(showing)] = drawn(self.outcomes[(id(showing), state)], self.rng)
        return cause, seen


def weighed(complaint: str, seen: list[Seen]) -> Weighing:
    return Weighing(priors(complaint, MACHINE), seen)


def tests_available() -> list[tuple[str, list[tuple[Fact, Showing]]]]:
    """Return every sign and every measurement, with what it shows, in the order of work."""
    found: list[tuple[str, list[tuple[Fact, Showing]]]] = []
    for fact, showing in SHOWINGS:
        if showing.source.startswith("sign:"):
            found.append((showing.source, [(fact, showing)]))
    for step in STEPS:
        shows = [(fact, showing) for fact, showing in SHOWINGS if showing.source in step.shows]
        found.append((step.point, shows))
    return found


def observed(shows: list[tuple[Fact, Showing]], outcomes: dict[int, int]) -> list[Seen]:
    return [(fact, showing, outcomes[id(showing)]) for fact, showing in shows]


class Told:
    """What the engine calls an observation, as far as choosing the next test needs it."""

    def __init__(self, seen: Seen) -> None:
        self.fact, self.showing, self.outcome = seen


def told(seen: list[Seen]) -> list[Any]:
    return [Told(one) for one in seen]
