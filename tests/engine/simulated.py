"""Cases drawn from the model of causes itself, or from one bent away from it."""

import math
import random
from typing import Any

from rackside.engine.causes.facts import FACTS
from rackside.engine.causes.information import Field
from rackside.engine.causes.model import Fact, Showing
from rackside.engine.causes.next_test import Access, ranked_steps
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
        self.states = {(fact.name, cause): bent(fact.chances(cause), spread, rng) for fact in FACTS for cause in causes}
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
        found.append((step.name, shows))
    return found


def observed(shows: list[tuple[Fact, Showing]], outcomes: dict[int, int]) -> list[Seen]:
    return [(fact, showing, outcomes[id(showing)]) for fact, showing in shows]


class Told:
    """What the engine calls an observation, as far as choosing the next test needs it."""

    def __init__(self, seen: Seen) -> None:
        self.fact, self.showing, self.outcome = seen


def told(seen: list[Seen]) -> list[Any]:
    return [Told(one) for one in seen]


class Settled:
    """The question whether the motor turned, when it does not come first."""

    def unsettled(self) -> bool:
        return False


RUNNING = Access(held=False, running=True, startable=True)
SIGNS = [(source, shows) for source, shows in tests_available() if source.startswith("sign:")]
POINTS = [(point, shows) for point, shows in tests_available() if not point.startswith("sign:")]


def looked_at(outcomes: dict[int, int]) -> list[Seen]:
    """Return what eyes and ears see before any meter comes out."""
    return [one for _, shows in SIGNS for one in observed(shows, outcomes)]


def chosen(weighing: Weighing, seen: list[Seen], taken: list[str]) -> str | None:
    """Return the measurement the engine would ask for, None when none would change the answer."""
    field = Field(weighing)
    steps = ranked_steps(field, told(seen), MACHINE, taken, RUNNING, Settled())  # type: ignore[arg-type]
    return steps[0].name if steps else None


def in_order(weighing: Weighing, seen: list[Seen], taken: list[str]) -> str | None:
    """Return the next measurement of a fixed checklist: the order of work, whatever was found."""
    left = [point for point, _ in POINTS if point not in taken]
    return left[0] if left else None


def measured(
    complaint: str, outcomes: dict[int, int], pick: Any, most: int, enough: float = 2.0
) -> tuple[Weighing, int]:
    """Measure until the leader has `enough` or `most` readings are taken; return the weighing and how many it took."""
    seen, taken = looked_at(outcomes), [source for source, _ in SIGNS]
    weighing = weighed(complaint, seen)
    for count in range(most):
        if max(weighing.probabilities) >= enough:
            return weighing, count
        point = pick(weighing, seen, taken)
        if point is None:
            return weighing, count if enough > 1.0 else most
        taken.append(point)
        seen = seen + observed(dict(POINTS)[point], outcomes)
        weighing = weighed(complaint, seen)
    return weighing, most


def leader(weighing: Weighing) -> str:
    return weighing.causes[weighing.probabilities.index(max(weighing.probabilities))]


def share_right(cases: int, spread: float, seed: int) -> float:
    """Return how often ten readings put the true cause first, each case from its own bent model."""
    rng = random.Random(seed)
    right = 0
    for _ in range(cases):
        complaint = rng.choice(COMPLAINTS)
        cause, outcomes = World(rng, spread).case(complaint, without=("unknown",))
        weighing, _ = measured(complaint, outcomes, chosen, 10)
        right += leader(weighing) == cause
    return right / cases


def readings_needed(cases: int, enough: float, seed: int) -> tuple[list[int], list[int]]:
    """Return how many readings each case took to reach `enough`: chosen by the engine, and by the fixed checklist."""
    rng = random.Random(seed)
    world = World(rng)
    by_choice, by_list = [], []
    for _ in range(cases):
        complaint = rng.choice(COMPLAINTS)
        _, outcomes = world.case(complaint, without=("unknown",))
        by_choice.append(measured(complaint, outcomes, chosen, len(POINTS), enough)[1])
        by_list.append(measured(complaint, outcomes, in_order, len(POINTS), enough)[1])
    return by_choice, by_list
