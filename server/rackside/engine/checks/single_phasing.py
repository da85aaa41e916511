"""Has a leg been lost?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import judged_leg, leg_json
from ..limits import COMMON_PRACTICE, PASS, WATCH, Source, lower
from ..line_amps import line_amps
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..uncertainty import expanded

TRADE = Source("a leg that carries half of its fellows or less is lost or burning", "", "", COMMON_PRACTICE)
LIMITS = lower(0.8, 0.5, "ratio", TRADE)
# One leg this many times each of two alike: a leg lost above a transformer. Source: circuit theory (2:1:1).
LOST_ABOVE = 1.6
ALIKE = 0.1


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the least leg against the mean of the other two."""
    if reading.state == "starting":
        return None
    amps = line_amps(reading)
    if len(amps) != 3 or [leg for leg, quantity in amps if quantity.bound]:
        return cannot_tell(CHECK.name, [reading], "reading.only_a_bound", {"point": reading.point.name})
    ranked = sorted(amps, key=lambda leg: (leg[1].value, leg[0]))
    least_leg, least = ranked[0]
    others = [quantity for _, quantity in ranked[1:]]
    if mean([quantity.value for quantity in others]) <= 0:
        return cannot_tell(CHECK.name, [reading], "single_phasing.no_amps")
    measured = _ratio(least, others)
    finding = decided(CHECK, measured, Scale("ratio", "ratio"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.legs = [_leg_json(leg, amps, finding.verdict if leg == least_leg else PASS) for leg, _ in amps]
    finding.said[0][1].update({"leg": least_leg, "percent": 100.0 * measured.value})
    finding.detail["leg"] = least_leg
    finding.fits = not reading.number("roll")
    _above_the_transformer(finding, ranked)
    if scene.machine.word("start") == "drive" and reading.point.name == "running_current":
        finding.say("single_phasing.drive_input")
    return finding


def _leg_json(leg: str, amps: "list[tuple[str, Quantity]]", verdict: str) -> Json:
    """Return a leg with how it stands to the mean of its fellows; without that when they carry nothing."""
    own = [quantity for name, quantity in amps if name == leg][0]
    others = [quantity for name, quantity in amps if name != leg]
    if mean([quantity.value for quantity in others]) <= 0:
        return leg_json(leg, own, verdict)
    measured = _ratio(own, others)
    told = leg_json(leg, own, verdict, 100.0 * (measured.value - 1.0))
    return judged_leg(told, measured.value, measured.uncertainty)


def _ratio(least: Quantity, others: "list[Quantity]") -> Measured:
    middle = mean([quantity.value for quantity in others])
    ratio = least.value / middle
    parts = [(1.0 / middle, least.value, least.doubt)]
    for quantity in others:
        parts.append((-ratio / (middle * len(others)), quantity.value, quantity.doubt))
    return Measured(ratio, expanded(parts), least.step / middle)


def _above_the_transformer(finding: Finding, ranked: "list[tuple[str, Quantity]]") -> None:
    low, middle, high = [quantity.value for _, quantity in ranked]
    if low <= 0 or middle - low > ALIKE * middle or high < LOST_ABOVE * middle:
        return
    finding.detail["pattern"] = "lost_above_transformer"
    if finding.verdict in (PASS, WATCH):
        finding.verdict = WATCH
        finding.said = [("single_phasing.above", {"leg": ranked[2][0]})]


CHECK = Check(
    name="single_phasing",
    reads=("running_current", "half_current", "drive_output_current"),
    unit="ratio",
    formula="least leg / mean of the other two",
    limits=LIMITS,
    sources=(TRADE,),
    example={
        "readings": [
            {
                "point": "running_current",
                "legs": {"L1": "34.6", "L2": "34.6", "L3": "0.3"},
                "unit": "A",
                "state": "running",
            }
        ],
        "value": 0.008670520231213872,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "circuit theory: a 20 A motor that lost a leg draws about 20 x sqrt(3) = 34.6 A in the two left",
    },
    find=find,
    judges=("running_current", "half_current", "drive_output_current"),
)
