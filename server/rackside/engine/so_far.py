"""What can be told of a reading while its legs are still being typed: the legs there are, never a pass of the whole."""

from .balance import balance
from .call import Scene
from .check import Check
from .finding import Finding
from .kinds import Json
from .leg import leg_json
from .limits import CANNOT_TELL, PASS, Limit
from .own_limits import limits_for
from .reading import Quantity, Reading


def begun(reading: Reading) -> "Reading | None":
    """Return a reading made of the legs typed so far, None when it is whole, not taken or not believable."""
    if reading.not_taken or reading.problems or not reading.legs or not reading.missing_legs:
        return None
    part = Reading(reading.raw, reading.point)
    part.legs = reading.legs
    return part


def unfinished(finding: Finding, reading: Reading) -> Finding:
    """Say how many legs are still to come and keep their places; what is already beyond a limit stays told."""
    to_go = reading.missing_legs
    finding.missing = [reading.point.name + " " + leg for leg in to_go] + finding.missing
    if finding.verdict in (PASS, CANNOT_TELL):
        finding.verdict = CANNOT_TELL
        finding.said = []
    finding.say("reading.one_leg_to_go" if len(to_go) == 1 else "reading.legs_to_go", _told(to_go))
    _keep_places(finding, reading)
    return finding


def _told(to_go: "list[str]") -> "dict[str, object]":
    return {"legs": list(to_go), "count": len(to_go)}


def _keep_places(finding: Finding, reading: Reading) -> None:
    keys = reading.point.keys
    typed: "dict[str, Json]" = {leg["leg"]: leg for leg in finding.legs}
    if [name for name in typed if name not in keys]:
        return
    waiting: Json = {"value": None, "unit": reading.unit, "verdict": CANNOT_TELL}
    finding.legs = []
    for key in keys:
        told: Json = {"leg": key}
        told.update(typed.get(key) or waiting)
        finding.legs.append(told)


def undecided(finding: "Finding | None") -> "Finding | None":
    """Take the verdicts off a comparison of legs that may still turn with the next one."""
    if finding is not None:
        finding.verdict = CANNOT_TELL
        for leg in finding.legs:
            leg["verdict"] = CANNOT_TELL
    return finding


def balance_so_far(
    check: Check, legs: "list[tuple[str, Quantity]]", limits: "tuple[Limit, ...]", reading: Reading, scene: Scene
) -> "Finding | None":
    """Return how far the legs stand off the mean of those that are there, beside the limits of the whole."""
    spread = balance(legs)
    if spread is None:
        return None
    finding = Finding(check.name, CANNOT_TELL, [reading.id])
    finding.unit, finding.uncertainty = "%", spread.uncertainty
    finding.limits = [limit.as_json() for limit in limits_for(check, scene, limits)]
    finding.legs = [leg_json(leg, quantity, CANNOT_TELL, spread.deviation(quantity)) for leg, quantity in legs]
    return finding
