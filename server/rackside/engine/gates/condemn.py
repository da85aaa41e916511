"""Before condemning: what each cause needs, a second test, a plate and an approver. Source: CHECKS.md, condemn."""

from ..causes.ranking import LIKELY, NOT_SHOWN
from ..kinds import Any
from ..limits import CANNOT_TELL
from ..reading import Reading
from . import condemn_needs
from .gate import Block, Need
from .known import Known, name_of, reading_of

# Cause, the check that shows it, the point that is measured twice.
CONDEMNABLE = (
    ("grounded_winding", "insulation", "insulation_resistance"),
    ("shorted_turns", "winding_balance", "winding_resistance"),
    ("open_winding", "winding_balance", "winding_resistance"),
    ("seized", "start_current", "start_current"),
    ("worn_bearings", "net_oil_pressure", "pump_pressure"),
)
# A cause that is a repair never condemns the machine. Source: CHECKS.md, Gates.
REPAIRABLE = (
    "valve_failure cable_fault control_circuit_open oil_control_fault contactor_pole contactor_chatter "
    "contactor_underrated joint_fault head_fan low_voltage voltage_unbalance supply_leg_lost breaker_weak "
    "overload_setting oil_regulator unloader_stuck injection_fault oil_pump_fault part_winding_fault never_ran"
).split(" ")
APART_SECONDS = 3600.0


def condemned_for(known: Known, causes: Any) -> "str | None":
    """Return the cause a condemnation would name: the decision's, else the most probable one that is shown at all."""
    decision = known.call.decision or {}
    names = [name for name, _, _ in CONDEMNABLE]
    if decision.get("decision") == "condemn" and decision.get("cause"):
        return str(decision["cause"])
    for told in causes.list:
        if told["cause"] in names and told["word"] != NOT_SHOWN:
            return str(told["cause"])
    return None


def condemn_gate_needs(known: Known, cause: "str | None") -> "list[Need]":
    if cause is None:
        return [Need("condemnable_cause", "", None)]
    needs = condemn_needs.needs_for(known, cause)
    point = _point_of(cause)
    needs.append(Need("second_test", point, _second_test(known, point)))
    plates = [photo for photo in known.call.photos if photo["shows"] == "plate"]
    needs.append(Need("plate_photo", "", "photo:" + str(plates[0].get("id") or "plate") if plates else None))
    approver = (known.call.decision or {}).get("approver")
    needs.append(Need("approver", "", "decision" if approver else None))
    return needs


def _point_of(cause: str) -> str:
    points = [point for name, _, point in CONDEMNABLE if name == cause]
    return points[0] if points else ""


def _second_test(known: Known, point: str) -> "str | None":
    """Return a later reading by another meter, another person, or an hour after the first."""
    readings = known.readings(point) if point else []
    for second in reversed(readings[1:]):
        if _another(known, readings[0], second):
            return name_of(second)
    return None


def _another(known: Known, one: Reading, other: Reading) -> bool:
    for name in ("meter", "by"):
        if one.option(name) and other.option(name) and one.option(name) != other.option(name):
            return True
    first, second = known.when(one), known.when(other)
    return first is not None and second is not None and second - first >= APART_SECONDS


def condemn_blocks(known: Known, causes: Any, cause: "str | None") -> "list[Block]":
    blocks = []
    for name, check, _ in CONDEMNABLE:
        finding = known.standing.get(check)
        if name == cause and finding is not None and finding.verdict == CANNOT_TELL:
            blocks.append(Block("meter_cannot_decide", reading_of(finding)))
    leader = causes.leading if causes.word == LIKELY else ""
    named = cause if cause in REPAIRABLE else leader
    if named in REPAIRABLE:
        blocks.append(Block("cause_is_a_repair", "cause:" + str(named)))
    return blocks
