"""Do the volts to ground stand as this grounding makes them?"""

import math

from ..balance import balance
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import judged_leg, leg_json
from ..limits import COMMON_PRACTICE, FAIL, PASS, Limit, Source, decide
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..so_far import balance_so_far
from ..uncertainty import Doubt, expanded

ALIKE = Source("volts to ground within 5 % of what the grounding makes them", "", "", COMMON_PRACTICE)
FLOATING = Source("one leg near ground on a system without a solid ground: a ground exists", "", "", COMMON_PRACTICE)
NAMED = "grounded wye, corner-grounded delta, high-leg delta"
FREE = "ungrounded or impedance-grounded: least leg against the mean"
LIMITS = (Limit(FAIL, 5.0, None, "%", ALIKE, NAMED),)
FREE_LIMITS = (Limit(FAIL, None, 15.0, "%", FLOATING, FREE),)
# Less than this to ground on every leg is no supply at all. Source: common practice, no source.
NO_VOLTS = 10.0
CORNER = (0.0, 1.0, 1.0)
HIGH_LEG = (0.5, 0.5, math.sqrt(3.0) / 2.0)
# What the line-to-line volts are made of when they were not read, by rank of the legs to ground, lowest first.
CORNER_LINE = (0.0, 0.5, 0.5)
HIGH_LEG_LINE = (1.0, 1.0, 0.0)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the three legs to ground by the grounding of the supply."""
    grounding = scene.machine.part("supply", "grounding") or "unknown"
    if grounding == "unknown":
        return cannot_tell(CHECK.name, [reading], "line_ground_symmetry.unknown", {}, ("machine supply.grounding",))
    if mean([quantity.value for quantity in reading.quantities()]) < NO_VOLTS:
        return cannot_tell(CHECK.name, [reading], "line_ground_symmetry.no_volts")
    if grounding == "grounded-wye":
        finding = _alike(reading, scene)
    elif grounding == "corner-grounded-delta":
        finding = _patterned(reading, scene, CORNER, CORNER_LINE)
    elif grounding == "high-leg-delta":
        finding = _patterned(reading, scene, HIGH_LEG, HIGH_LEG_LINE)
    else:
        finding = _floating(reading, scene)
    finding.detail["grounding"] = grounding
    return finding


def _alike(reading: Reading, scene: Scene) -> Finding:
    spread = balance(reading.legs)
    if spread is None:
        return cannot_tell(CHECK.name, [reading], "reading.only_a_bound", {"point": reading.point.name})
    measured = Measured(spread.percent, spread.uncertainty, spread.step_percent)
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.legs = spread.legs_json(finding.limits)
    finding.said[0][1]["leg"] = spread.worst_leg
    return finding


def _ranked(reading: Reading) -> "list[tuple[str, Quantity]]":
    """Return the legs from the lowest to the highest."""
    return sorted(reading.legs, key=lambda leg: (leg[1].value, leg[0]))


def _patterned(
    reading: Reading, scene: Scene, shares: "tuple[float, ...]", line_weights: "tuple[float, ...]"
) -> Finding:
    """Judge the legs, lowest first, against their shares of the line-to-line volts."""
    ranked = _ranked(reading)
    beside = scene.nearest("line_voltage", reading)
    if beside is not None and mean([quantity.value for quantity in beside.quantities()]) < NO_VOLTS:
        beside = None
    line = beside.quantities() if beside is not None else [quantity for _, quantity in ranked]
    weights = (1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0) if beside is not None else line_weights
    volts = 0.0
    for weight, quantity in zip(weights, line):
        volts += weight * quantity.value
    worst: "Measured | None" = None
    told = []
    for share, (leg, quantity) in zip(shares, ranked):
        measured = _deviation(quantity, share, volts, weights, line)
        told.append((leg, quantity, measured))
        if worst is None or abs(measured.value) > abs(worst.value):
            worst, worst_leg = measured, leg
    assert worst is not None
    size = Measured(abs(worst.value), worst.uncertainty, worst.step)
    ids = [reading.id] if beside is None else [reading.id, beside.id]
    finding = decided(CHECK, size, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), ids)
    finding.legs = [_leg_json(*row) for row in sorted(told, key=lambda row: row[0])]
    finding.said[0][1]["leg"] = worst_leg
    return finding


def _deviation(
    quantity: Quantity, share: float, volts: float, weights: "tuple[float, ...]", line: "list[Quantity]"
) -> Measured:
    """Return how far a leg stands from its share of the line-to-line volts, in % of what it should be."""
    base = share if share > 0 else 1.0
    percent = 100.0 * (quantity.value / (base * volts) - (1.0 if share > 0 else 0.0))
    parts = [(100.0 / (base * volts), quantity.value, quantity.doubt)]
    for weight, other in zip(weights, line):
        parts.append((-100.0 * quantity.value * weight / (base * volts * volts), other.value, other.doubt))
    return Measured(percent, expanded(parts), 100.0 * quantity.step / (base * volts))


def _leg_json(leg: str, quantity: Quantity, measured: Measured) -> Json:
    size = abs(measured.value)
    verdict = decide(size - measured.uncertainty, size + measured.uncertainty, LIMITS).verdict
    return leg_json(leg, quantity, verdict, measured.value)


def _floating(reading: Reading, scene: Scene) -> Finding:
    """Judge the least leg of a system without a solid ground against the mean of the three."""
    legs = reading.legs
    middle = mean([quantity.value for _, quantity in legs])
    least_leg, least = _ranked(reading)[0]
    share = 100.0 * least.value / middle
    parts: "list[tuple[float, float, Doubt]]" = []
    for leg, quantity in legs:
        own = 100.0 / middle if leg == least_leg else 0.0
        parts.append((own - share / (len(legs) * middle), quantity.value, quantity.doubt))
    measured = Measured(share, expanded(parts), 100.0 * least.step / middle)
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, FREE_LIMITS), [reading.id])
    for leg, quantity in legs:
        percent = 100.0 * quantity.value / middle
        told = leg_json(leg, quantity, finding.verdict if leg == least_leg else PASS, percent - 100.0)
        finding.legs.append(judged_leg(told, percent, measured.uncertainty))
    finding.said = [("line_ground_symmetry.floating_" + finding.verdict, {"leg": least_leg, "value": least.as_read})]
    return finding


def so_far(reading: Reading, scene: Scene) -> "Finding | None":
    """Show the volts typed so far against their mean, where the grounding makes all three alike."""
    if scene.machine.part("supply", "grounding") != "grounded-wye":
        return None
    return balance_so_far(CHECK, reading.legs, LIMITS, reading, scene)


CHECK = Check(
    name="line_ground_symmetry",
    reads=("line_ground_voltage", "line_voltage"),
    unit="%",
    formula="grounded wye: 100 x largest deviation from the mean / mean; corner-grounded and high-leg delta: against "
    "0, LL, LL and 0.5, 0.87, 0.5 LL; ungrounded: 100 x least leg / mean",
    limits=LIMITS + FREE_LIMITS,
    sources=(ALIKE, FLOATING),
    example={
        "machine": {"supply": {"nominal_voltage": 480, "grounding": "ungrounded"}},
        "readings": [
            {
                "point": "line_ground_voltage",
                "legs": {"L1-G": "3", "L2-G": "478", "L3-G": "479"},
                "unit": "V",
                "state": "stopped",
            }
        ],
        "value": 0.9375,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "handbook A5: one leg near 0 and two near 480 V on an ungrounded system; 3 / 320 V is 0.94 %",
    },
    find=find,
    so_far=so_far,
)
