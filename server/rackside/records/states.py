"""The state of a call: computed from its entries and the time, never written. Pure."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any, NamedTuple

from rackside.records import clock

STATES = ("open", "submitted", "returned", "watching", "accepted", "closed")
KEPT_AFTER_CLOSING = timedelta(days=90)


class Progress(NamedTuple):
    """How far a call has come: everything its state needs but the time."""

    phase: str = "open"
    decision: str | None = None
    cause: str | None = None
    watch_until: str | None = None
    settled_at: str | None = None


class Step(NamedTuple):
    """A submission, review or decision that stands."""

    kind: str
    body: dict[str, Any]
    received_at: str


def progress_of(steps: Iterable[Step]) -> Progress:
    """Return how far a call has come from its submissions, reviews and decisions, in the server's order."""
    phase, accepted_at = "open", None
    decision: dict[str, Any] = {}
    for kind, body, received_at in steps:
        if kind == "decision":
            decision = body
        elif phase == "accepted":
            continue
        elif kind == "submission":
            phase = "submitted"
        elif kind == "review" and phase != "open":
            phase = body["outcome"]
            accepted_at = received_at if phase == "accepted" else None
    watch_until = clock.sortable(decision.get("watch_until"))
    settled_at = max(accepted_at, watch_until or accepted_at) if accepted_at else None
    return Progress(phase, decision.get("decision"), decision.get("cause"), watch_until, settled_at)


def state_of(phase: str, watch_until: str | None, now: datetime) -> str:
    """Return the state of a call as of now."""
    if phase != "accepted" or watch_until is None:
        return phase
    return "watching" if watch_until > clock.written(now) else "closed"
