"""How much a measurement would tell: the expected fall of entropy over the causes, in bits."""

import math

from ..kinds import Any
from .facts import FACTS
from .model import Fact, Showing
from .weighing import Weighing, states_given

# Causes below this share are left out of the sum: together they change nothing a person would do.
WORTH_COUNTING = 0.004
# A test that shows several things is reckoned from the two that tell most: beyond that they mostly say it again.
SHOWN_TOGETHER = 2


class Field:
    """The causes still worth telling apart, with their shares, and for each fact the chance of its states."""

    def __init__(self, weighing: Weighing) -> None:
        pairs = zip(weighing.causes, weighing.probabilities)
        kept = [(cause, share) for cause, share in pairs if share >= WORTH_COUNTING]
        whole = 0.0
        for _, share in kept:
            whole += share
        self.causes = [cause for cause, _ in kept]
        self.shares = [share / whole for _, share in kept]
        self.masses = weighing.masses
        self.entropy = entropy(self.shares)
        self.states: "dict[str, list[list[float]]]" = {}

    def chances(self, fact: Fact, showing: Showing) -> "list[list[float]]":
        """Return, for each outcome, its chance under each cause, given all that was seen of the fact."""
        if fact.name not in self.states:
            self.states[fact.name] = [states_given(fact, cause, self.masses) for cause in self.causes]
        given = self.states[fact.name]
        found = []
        for row in showing.chances:
            chances = []
            for states in given:
                chance = 0.0
                for index in range(len(row)):
                    chance += states[index] * row[index]
                chances.append(chance)
            found.append(chances)
        return found


def entropy(shares: "list[float]") -> float:
    """Return the entropy of shares that add up to 1 [bit]."""
    total = 0.0
    for share in shares:
        if share > 0.0:
            total -= share * math.log(share)
    return total / math.log(2.0)


def expected(field: Field, outcomes: "list[list[float]]") -> float:
    """Return how many bits of entropy are expected to go when one of the outcomes is seen."""
    left = 0.0
    for chances in outcomes:
        joint = [share * chance for share, chance in zip(field.shares, chances)]
        whole = 0.0
        for one in joint:
            whole += one
        if whole > 0.0:
            left += whole * entropy([one / whole for one in joint])
    return max(0.0, field.entropy - left)


def together(one: "list[list[float]]", other: "list[list[float]]") -> "list[list[float]]":
    """Return the outcomes of two showings of different facts seen at once."""
    found = []
    for first in one:
        for second in other:
            found.append([a * b for a, b in zip(first, second)])
    return found


def topples(field: Field, outcomes: "list[list[float]]", rare: float) -> bool:
    """Return whether some outcome that is not rare would put another cause first."""
    leader = field.shares.index(max(field.shares))
    for chances in outcomes:
        joint = [share * chance for share, chance in zip(field.shares, chances)]
        whole = 0.0
        for one in joint:
            whole += one
        if whole >= rare and joint.index(max(joint)) != leader:
            return True
    return False


def unseen(shows: "tuple[str, ...]", seen: "list[Any]") -> "list[tuple[Fact, Showing]]":
    """Return what a measurement would newly show: its showings that nothing was seen of yet."""
    found = []
    for fact in FACTS:
        for showing in fact.showings:
            if showing.source in shows and not [one for one in seen if one.showing is showing]:
                found.append((fact, showing))
    return found


def outcomes_of(field: Field, shows: "tuple[str, ...]", seen: "list[Any]") -> "list[list[float]]":
    """Return the joint outcomes of the most telling showings of a measurement, [] when it shows nothing new."""
    rated: "list[tuple[float, int, str, list[list[float]]]]" = []
    for fact, showing in unseen(shows, seen):
        chances = field.chances(fact, showing)
        rated.append((-expected(field, chances), len(rated), fact.name, chances))
    chosen: "list[list[float]]" = []
    names: "list[str]" = []
    for _, _, name, chances in sorted(rated):
        if name not in names and len(names) < SHOWN_TOGETHER:
            chosen = together(chosen, chances) if chosen else chances
            names.append(name)
    return chosen
