"""Do the three legs carry alike, and if not, is it the volts?"""

from ..balance import balance
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, WATCH, Limit, Source
from ..line_amps import line_amps
from ..own_limits import limits_for
from ..physics.three_phase import unbalance
from ..reading import Reading
from ..so_far import balance_so_far

TIGHT = Source("pump and motor practice: 5 % is good, beyond 10 % stop", "", "", COMMON_PRACTICE)
LIMITS = (Limit(WATCH, 5.0, None, "%", TIGHT), Limit(FAIL, 10.0, None, "%", TIGHT, "at half of rated current or more"))
# Below this share of rated current an unbalance says little: magnetising current rules. Source: CHECKS.md.
LIGHT_LOAD = 0.5
# Only from this voltage unbalance [%] on does the ratio of the two say anything. Source: CHECKS.md.
RATIO_FROM_PERCENT = 1.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the largest deviation of a leg's amps from the mean, beside the voltage unbalance of that minute."""
    if reading.state == "starting":
        return None
    spread = balance(line_amps(reading))
    if spread is None:
        return cannot_tell(CHECK.name, [reading], "running_current_unbalance.no_amps")
    measured = Measured(spread.percent, spread.uncertainty, spread.step_percent)
    rated = scene.machine.number("rated_load_current")
    light = rated is not None and spread.mean < LIGHT_LOAD * rated
    limits = limits_for(CHECK, scene, LIMITS[:1] if light else LIMITS)
    finding = decided(CHECK, measured, Scale("%", "%"), limits, [reading.id])
    finding.legs = spread.legs_json(finding.limits)
    finding.fits = not reading.number("roll")
    finding.said[0][1]["leg"] = spread.worst_leg
    if light and finding.verdict == WATCH:
        finding.say("running_current_unbalance.light_load")
    _beside_the_volts(finding, reading, scene)
    if scene.machine.word("start") == "drive" and reading.point.name == "running_current":
        _at_the_drives_input(finding)
    return finding


def _at_the_drives_input(finding: Finding) -> None:
    """A rectifier draws unevenly: what its input shows is no word about the motor."""
    if finding.verdict in (WATCH, FAIL):
        finding.verdict = CANNOT_TELL
        finding.missing = ["drive_output_current"]
    finding.say("running_current_unbalance.drive_input")


def _beside_the_volts(finding: Finding, reading: Reading, scene: Scene) -> None:
    volts = scene.nearest("line_voltage", reading, "running")
    if volts is None or volts.state != "running":
        return
    values = [quantity.value for quantity in volts.quantities()]
    if min(values) <= 0 or finding.value is None:
        return
    percent, _ = unbalance(values)
    finding.detail["voltage_unbalance_percent"] = percent
    finding.readings.append(volts.id)
    if percent < RATIO_FROM_PERCENT:
        if finding.verdict in (WATCH, FAIL):
            finding.say("running_current_unbalance.not_the_volts", {"volts": percent})
        return
    ratio = finding.value / percent
    finding.detail["ratio_to_voltage_unbalance"] = ratio
    if finding.verdict in (WATCH, FAIL):
        key = "follows_the_volts" if ratio <= 10.0 else "more_than_the_volts"
        finding.say("running_current_unbalance." + key, {"volts": percent, "ratio": ratio})


def so_far(reading: Reading, scene: Scene) -> "Finding | None":
    """Show the amps typed so far against their mean; what flows in the first moments is not judged here."""
    if reading.state == "starting":
        return None
    return balance_so_far(CHECK, line_amps(reading), LIMITS, reading, scene)


CHECK = Check(
    name="running_current_unbalance",
    reads=("running_current", "half_current", "drive_output_current", "line_voltage"),
    unit="%",
    formula="100 x largest deviation of a leg from the mean / mean",
    limits=LIMITS,
    sources=(TIGHT,),
    example={
        "readings": [
            {
                "point": "running_current",
                "legs": {"L1": "39.2", "L2": "35.4", "L3": "31.6"},
                "unit": "A",
                "state": "running",
            }
        ],
        "value": 10.734463276836157,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "definition as for voltage unbalance; the handbook's case F2 prints 10.7 %",
    },
    find=find,
    so_far=so_far,
    judges=("running_current", "half_current", "drive_output_current"),
)
