"""How far do the volts at the motor fall while it starts?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..leg import leg_json
from ..limits import COMMON_PRACTICE, PASS, Limit, Source, lower
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..uncertainty import expanded

TRADE = Source(
    "least volts of a start within 15 % of the plate are usual, beyond 20 % torque fails", "", "", COMMON_PRACTICE
)
LIMITS = lower(-15.0, -20.0, "%", TRADE)
# A motor pair below this share of the plate during a start has lost a leg. Source: common practice, no source.
LOST_SHARE = 0.3
SHAPED = ("soft", "drive")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the least pair of a start against the plate's volts."""
    if scene.machine.word("start") in SHAPED:
        return cannot_tell(CHECK.name, [reading], "start_voltage_sag.shaped")
    rated = scene.machine.rated_voltages()
    if not rated:
        return cannot_tell(CHECK.name, [reading], "start_voltage_sag.no_plate", {}, ("machine rated_voltage",))
    limits = limits_for(CHECK, scene, LIMITS)
    worst: "Finding | None" = None
    legs = []
    for leg, quantity in reading.legs:
        finding = _leg(reading, leg, quantity, rated[0], limits)
        legs.append(leg_json(leg, quantity, finding.verdict, finding.value))
        if worst is None or (finding.value or 0.0) < (worst.value or 0.0):
            worst = finding
    assert worst is not None
    worst.legs = legs
    lowest = rated[0] * (1.0 + (worst.value or 0.0) / 100.0)
    worst.detail["torque_share"] = (lowest / rated[0]) ** 2
    if lowest < LOST_SHARE * rated[0]:
        worst.said = [("start_voltage_sag.lost", {"leg": worst.detail["leg"]})]
    _from_where(worst, reading, scene)
    return worst


def _leg(reading: Reading, leg: str, quantity: Quantity, rated: float, limits: "tuple[Limit, ...]") -> Finding:
    percent = 100.0 * (quantity.value / rated - 1.0)
    uncertainty = expanded([(100.0 / rated, quantity.value, quantity.doubt)])
    measured = Measured(percent, uncertainty, 100.0 * quantity.step / rated)
    finding = decided(CHECK, measured, Scale("%", "%"), limits, [reading.id])
    finding.detail["leg"] = leg
    finding.said[0][1].update({"leg": leg, "below": -percent})
    return finding


def _from_where(finding: Finding, reading: Reading, scene: Scene) -> None:
    """Tell the dip from the standing volts, and whether it is lost at the source or in this branch."""
    standing = _standing(reading, scene)
    if standing is None:
        return
    volts = mean([quantity.value for quantity in standing.quantities()])
    least = min([quantity.value for quantity in reading.quantities()])
    if volts <= 0:
        return
    finding.readings.append(standing.id)
    finding.detail["dip_percent"] = 100.0 * (volts - least) / volts
    line = scene.nearest("start_line_voltage", reading)
    if line is None:
        return
    held = min([quantity.value for quantity in line.quantities()])
    finding.readings.append(line.id)
    finding.detail["dip_source_percent"] = 100.0 * (volts - held) / volts
    finding.detail["dip_branch_percent"] = 100.0 * (held - least) / volts
    finding.detail["lost_in"] = "source" if volts - held >= held - least else "branch"
    if finding.verdict != PASS:
        finding.say("start_voltage_sag." + finding.detail["lost_in"])


def _standing(reading: Reading, scene: Scene) -> "Reading | None":
    """Return the standing volts nearest in time to the start."""
    chosen: "Reading | None" = None
    for line in scene.all("line_voltage"):
        if line.state not in ("", "stopped"):
            continue
        if chosen is None or _apart(line, reading) <= _apart(chosen, reading):
            chosen = line
    return chosen


def _apart(one: Reading, other: Reading) -> float:
    return abs(one.at - other.at) if one.at is not None and other.at is not None else 0.0


CHECK = Check(
    name="start_voltage_sag",
    reads=("start_voltage", "line_voltage", "start_line_voltage"),
    unit="%",
    formula="100 x (least volts of the start / plate volts - 1)",
    limits=LIMITS,
    sources=(TRADE,),
    example={
        "machine": {"rated_voltage": 460},
        "readings": [
            {
                "point": "start_voltage",
                "legs": {"T1-T2": "338", "T2-T3": "341", "T3-T1": "340"},
                "unit": "V",
                "state": "starting",
            }
        ],
        "value": -26.52173913043478,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "handbook, formula table: 338 V of 460 V leaves 0.54 of the torque; 338/460 is 26.5 % below",
    },
    find=find,
    so_far=find,
)
