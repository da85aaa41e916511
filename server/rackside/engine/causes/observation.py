"""One thing seen that speaks for a state of a fact, with where it came from."""

from ..kinds import Json
from .model import Fact, Showing

# Source: judgement.
SPEAKS_FROM = 0.4
AGREES_FROM = 0.15


class Observation:
    """An outcome of a showing. origin: "sign:…", "event:…", "finding:…" or "reading:…". said: its sentence."""

    def __init__(self, fact: Fact, showing: Showing, outcome: int, origin: str, said: "tuple[str, Json]") -> None:
        self.fact = fact
        self.showing = showing
        self.outcome = outcome
        self.origin = origin
        self.said = said
        self.reading = ""

    def row(self) -> "list[float]":
        """Return the chance of this outcome in each state of the fact."""
        return self.showing.chances[self.outcome]

    def states(self) -> "list[str]":
        """Return the states it speaks for: those that make this outcome about as likely as any does, two at most."""
        row = self.row()
        edge = SPEAKS_FROM * max(row)
        spoken = sorted([(-row[index], index) for index in range(len(row)) if row[index] >= edge])
        return [self.fact.states[index] for index in sorted([index for _, index in spoken[:2]])]

    def contradicts(self, other: "Observation") -> bool:
        """Return whether no state of their fact makes both outcomes likely."""
        mine, theirs = self.row(), other.row()
        agreed = [mine[i] / max(mine) * theirs[i] / max(theirs) for i in range(len(mine))]
        return max(agreed) < AGREES_FROM
