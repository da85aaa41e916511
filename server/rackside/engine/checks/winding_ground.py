"""Is there a dead ground that even an ohmmeter sees?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale
from ..kinds import Json
from ..leg import from_mean, leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source, decide
from ..own_limits import limits_for
from ..reading import Quantity, Reading
from ..uncertainty import expanded

TRADE = Source(
    "an ohmmeter's few volts find a dead ground only; below 0.5 Mohm the winding is grounded", "", "", COMMON_PRACTICE
)
LIMITS = (
    Limit(WATCH, None, 20.0, "Mohm", TRADE),
    Limit(FAIL, None, 0.5, "Mohm", TRADE),
)
MOHM = 1.0e6


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the least leg to ground; a good reading clears nothing."""
    limits = limits_for(CHECK, scene, LIMITS)
    least_leg, least = reading.legs[0]
    for leg, quantity in reading.legs[1:]:
        if _order(quantity) < _order(least):
            least_leg, least = leg, quantity
    measured = _measured(least)
    finding = decided(CHECK, measured, Scale("Mohm", reading.unit), limits, [reading.id])
    finding.said[0][1]["leg"] = least_leg
    finding.legs = [_leg_json(leg, quantity, reading, limits) for leg, quantity in reading.legs]
    finding.detail.update({"leg": least_leg, "leads": reading.option("leads") or "unstated"})
    finding.fits = reading.option("leads") != "on"
    if finding.verdict == PASS:
        finding.verdict = CANNOT_TELL
        finding.said = [("winding_ground.no_dead_ground", {})]
        if scene.newest("insulation_resistance") is None:
            finding.missing = ["insulation_resistance"]
            finding.say("winding_ground.test_insulation")
    elif finding.verdict in (WATCH, FAIL) and reading.option("leads") != "off":
        finding.say("winding_ground.names_neither")
    if least.over_limit():
        finding.value = finding.uncertainty = None
    return finding


def _order(quantity: Quantity) -> float:
    """Return a leg's place from the lowest: a leg over the range is above all others."""
    return 1.0e30 if quantity.over_limit() else quantity.value


def _measured(quantity: Quantity) -> Measured:
    uncertainty = expanded([(1.0 / MOHM, quantity.value, quantity.doubt)])
    measured = Measured(quantity.value / MOHM, uncertainty, quantity.step / MOHM)
    measured.low, measured.high = quantity.interval(uncertainty, quantity.value / MOHM)
    if quantity.over_limit():
        measured.low = 1.0e30
    measured.bound = quantity.bound
    return measured


def _leg_json(leg: str, quantity: Quantity, reading: Reading, limits: "tuple[Limit, ...]") -> Json:
    """Return a leg; it stands off the mean of the three only where the meter showed three numbers."""
    measured = _measured(quantity)
    verdict = decide(measured.low, measured.high, limits).verdict
    bounds = [other.bound for other in reading.quantities() if other.bound]
    deviation = None if bounds else from_mean(quantity.value, [other.value for other in reading.quantities()])
    told = leg_json(leg, quantity, CANNOT_TELL if verdict == PASS else verdict, deviation)
    told["bound"] = quantity.bound
    return told


CHECK = Check(
    name="winding_ground",
    reads=("winding_ground_resistance",),
    unit="Mohm",
    formula="least of T1, T2, T3 to ground",
    limits=LIMITS,
    sources=(TRADE,),
    example={
        "readings": [
            {
                "point": "winding_ground_resistance",
                "legs": {"T1-G": "0.31", "T2-G": "0.30", "T3-G": "0.31"},
                "unit": "Mohm",
                "state": "isolated",
                "leads": "off",
            }
        ],
        "value": 0.30,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "handbook A8.2: below 0.5 Mohm a winding is grounded; least of the three as read",
    },
    find=find,
    so_far=find,
)
