"""What the gates say about the next test: what comes first, what is open at all, what a start still needs."""

from .causes.next_test import Access
from .gates.answer import Gates
from .gates.gate import Gate
from .gates.known import Known
from .kinds import Json
from .points import known_point
from .points.point import ISOLATED, RUNNING
from .say import say

# Blocks after which nothing is energised any more.
HELD_BY = ("insulation", "cable_insulation", "winding_ground", "terminal_leak", "vacuum")


def access_of(known: Known, gates: Gates) -> Access:
    """Return what may be measured now."""
    unmet = [need.name for need in gates.reset.unmet]
    shut = [block.name for block in gates.restart.shut]
    held = "insulation" in unmet or "insulation_hot" in unmet or bool([name for name in shut if name in HELD_BY])
    attempts = [need for need in gates.restart.unmet if need.name == "attempts"]
    return Access(held, _runs(known), not shut and not attempts)


def _runs(known: Known) -> bool:
    """Return whether the newest reading that tells a state was taken with the machine running."""
    newest, state = None, ""
    for round_, _ in known.judged:
        for reading in round_.readings:
            at = reading.at if reading.at is not None else round_.at
            if not reading.sound() or not reading.state or reading.option("twin"):
                continue
            if newest is None or at is None or at >= newest:
                newest, state = at if at is not None else newest, reading.state
    return state == RUNNING


def asked_first(gates: Gates, language: str) -> "list[Json]":
    """Return what comes before everything else: insulation, while a reset waits for it; its halves, when it is low."""
    points = [need.point for need in gates.reset.unmet if need.name.startswith(("insulation", "cable"))]
    found = [{"point": point, "because": say("next.insulation_first", {}, language)} for point in points[:1]]
    low = [block.name for block in gates.reset.shut]
    for name, point in (("insulation", "cable_insulation_resistance"), ("cable_insulation", "insulation_resistance")):
        if name in low and not found and gates.known.verdict(point[: -len("_resistance")]) == "":
            found.append({"point": point, "because": say("next.other_half", {}, language)})
    return found


def asked_last(known: Known, gates: Gates, language: str) -> "list[Json]":
    """Return the measurements that the next shut gate still needs, in the order of work."""
    gate = gates.service if _runs(known) else gates.restart
    if gate is gates.service and not known.actions(("part_fitted", "cleaned", "setting_changed")):
        return []
    points = [need.point for need in gate.unmet if need.point]
    if access_of(known, gates).held:
        points = [point for point in points if _without_power(point)]
    return [_needed(point, gate, language) for point in points]


def _without_power(point: str) -> bool:
    """Return whether a point can be read with the machine locked out."""
    record = known_point(point)
    return record is not None and ISOLATED in record.states


def _needed(point: str, gate: Gate, language: str) -> Json:
    return {"point": point, "because": say("next.for_gate", {"gate": gate.name}, language)}


def nothing_more(language: str) -> str:
    return say("next.nothing", {}, language)
