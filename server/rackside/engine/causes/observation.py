"""One thing seen that speaks for a state of a fact, with where it came from."""

from ..kinds import Json
from .model import Fact, Showing


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

    def state(self) -> str:
        """Return the state it speaks for most."""
        row = self.row()
        return self.fact.states[row.index(max(row))]
