"""Does a leg carry more than the machine may?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import judged_leg, leg_json
from ..limits import COMMON_PRACTICE, FAIL, FROM_MEMORY, PUBLISHED, WATCH, Limit, Source, decide
from ..line_amps import line_amps
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..uncertainty import expanded

PLATE = Source("this machine's plate: rated load current", "", "", PUBLISHED)
CEILING = Source("this machine's plate: maximum continuous current", "", "", PUBLISHED)
NEC = Source(
    "NEC (NFPA 70)", "440.52(A)(1): 140 % of rated load current, maximum continuous unknown", "2020", FROM_MEMORY
)
TWO_HALVES = Source("each half of a part-winding motor carries about half, within 10 %", "", "", COMMON_PRACTICE)
RATED_PERCENT = 100.0
UNKNOWN_CEILING = 140.0
LIMITS = (
    Limit(WATCH, RATED_PERCENT, None, "%", PLATE),
    Limit(FAIL, UNKNOWN_CEILING, None, "%", NEC, "maximum continuous current unknown"),
)
HALVES_APART = 10.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the highest leg in percent of rated load current; the halves of a part-winding motor add up."""
    if reading.state == "starting":
        return None
    amps = line_amps(reading)
    if not amps or [leg for leg, quantity in amps if quantity.bound == "<"]:
        return cannot_tell(CHECK.name, [reading], "reading.only_a_bound", {"point": reading.point.name})
    rated = scene.machine.number("rated_load_current")
    if rated is None:
        return cannot_tell(CHECK.name, [reading], "running_current_level.no_plate", {}, ("machine rated_load_current",))
    limits = limits_for(CHECK, scene, _limits(scene, rated))
    worst_leg, worst = amps[0]
    for leg, quantity in amps[1:]:
        if quantity.value > worst.value:
            worst_leg, worst = leg, quantity
    if worst.value <= 0 and not worst.bound:
        return cannot_tell(CHECK.name, [reading], "running_current_level.no_amps")
    finding = decided(CHECK, _measured(worst, rated), Scale("%", "%"), limits, [reading.id])
    finding.legs = [_leg_json(leg, quantity, rated, limits) for leg, quantity in amps]
    finding.detail["leg"] = worst_leg
    finding.said[0][1].update({"leg": worst_leg, "amps": worst.as_read, "amps_unit": worst.unit})
    finding.fits = not reading.number("roll")
    _compare_halves(finding, reading)
    if scene.machine.word("start") == "drive" and reading.point.name == "running_current":
        finding.say("running_current_level.drive_input")
    return finding


def _limits(scene: Scene, rated: float) -> "tuple[Limit, ...]":
    most = scene.machine.number("max_continuous_current")
    if most is None:
        return LIMITS
    return (LIMITS[0], Limit(FAIL, 100.0 * most / rated, None, "%", CEILING))


def _measured(quantity: Quantity, rated: float) -> Measured:
    percent = 100.0 * quantity.value / rated
    uncertainty = expanded([(100.0 / rated, quantity.value, quantity.doubt)])
    measured = Measured(percent, uncertainty, 100.0 * quantity.step / rated)
    measured.low, measured.high = quantity.interval(uncertainty, percent)
    measured.bound = quantity.bound
    return measured


def _leg_json(leg: str, quantity: Quantity, rated: float, limits: "tuple[Limit, ...]") -> Json:
    measured = _measured(quantity, rated)
    verdict = decide(measured.low, measured.high, limits).verdict
    return judged_leg(leg_json(leg, quantity, verdict, measured.value - 100.0), measured.value, measured.uncertainty)


def _compare_halves(finding: Finding, reading: Reading) -> None:
    """Tell how far the two halves of a part-winding motor stand apart, by their means."""
    if reading.point.name != "half_current":
        return
    halves = []
    for half in ("1-", "2-"):
        halves.append(mean([quantity.value for leg, quantity in reading.legs if leg.startswith(half)]))
    if mean(halves) <= 0:
        return
    apart = 100.0 * abs(halves[0] - halves[1]) / mean(halves)
    finding.detail["halves_apart_percent"] = apart
    if apart > HALVES_APART:
        finding.say("running_current_level.halves_apart", {"apart": apart})


CHECK = Check(
    name="running_current_level",
    reads=("running_current", "half_current", "drive_output_current"),
    unit="%",
    formula="100 x highest leg / rated load current; part-winding: the two halves of a line add up",
    limits=LIMITS,
    sources=(PLATE, CEILING, NEC, TWO_HALVES),
    example={
        "machine": {"rated_load_current": 34.0, "max_continuous_current": 47.6},
        "readings": [
            {
                "point": "running_current",
                "legs": {"L1": "29.3", "L2": "29.6", "L3": "29.1"},
                "unit": "A",
                "state": "running",
            }
        ],
        "value": 87.05882352941177,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, case F1: 29.6 A at pull-down, 34.0 A rated",
    },
    find=find,
    so_far=find,
    judges=("running_current", "half_current", "drive_output_current"),
)
