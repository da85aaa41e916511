"""Do the fuses of the three legs drop alike?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import from_mean, judged_leg, leg_json
from ..limits import COMMON_PRACTICE, FAIL, PASS, Limit, Source, decide, upper
from ..line_amps import amps_beside
from ..own_limits import limits_for
from ..physics.contact import milliohms
from ..reading import Quantity, Reading
from ..so_far import undecided
from ..uncertainty import expanded

ALIKE = Source("like fuses at like current drop alike: more than twice the least, replace", "", "", COMMON_PRACTICE)
LIMITS = upper(1.5, 2.0, "ratio", ALIKE)
# No fuse of the sizes met here drops a volt while it conducts. Source: common practice, no source.
OPEN_VOLTS = 1.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the worst fuse against the least."""
    worst_leg, worst = reading.legs[0]
    least = worst
    for leg, quantity in reading.legs:
        if quantity.value > worst.value:
            worst_leg, worst = leg, quantity
        if quantity.value < least.value:
            least = quantity
    if worst.value >= OPEN_VOLTS and worst.value > 2.0 * least.value:
        return _open(reading, worst_leg, worst, least)
    if least.value <= 0:
        return cannot_tell(CHECK.name, [reading], "fuse_drop.nothing", {"point": reading.point.name})
    limits = limits_for(CHECK, scene, LIMITS)
    measured = _ratio(worst, least)
    finding = decided(CHECK, measured, Scale("ratio", "ratio"), limits, [reading.id])
    finding.said[0][1].update({"leg": worst_leg, "drop": worst.as_read, "drop_unit": worst.unit})
    finding.legs = [_leg_json(leg, quantity, least, reading, limits) for leg, quantity in reading.legs]
    _add_milliohms(finding, reading, scene)
    return finding


def _ratio(quantity: Quantity, least: Quantity) -> Measured:
    ratio = quantity.value / least.value
    if quantity is least:
        return Measured(1.0, 0.0)
    parts = [
        (1.0 / least.value, quantity.value, quantity.doubt),
        (-ratio / least.value, least.value, least.doubt),
    ]
    return Measured(ratio, expanded(parts), quantity.step / least.value)


def _leg_json(leg: str, quantity: Quantity, least: Quantity, reading: Reading, limits: "tuple[Limit, ...]") -> Json:
    measured = _ratio(quantity, least)
    verdict = decide(measured.low, measured.high, limits).verdict
    told = leg_json(leg, quantity, verdict, _deviation(quantity, reading))
    return judged_leg(told, measured.value, measured.uncertainty)


def _deviation(quantity: Quantity, reading: Reading) -> "float | None":
    return from_mean(quantity.value, [other.value for other in reading.quantities()])


def _add_milliohms(finding: Finding, reading: Reading, scene: Scene) -> None:
    beside, amps = amps_beside(reading, scene)
    if beside is None:
        return
    finding.readings.append(beside.id)
    through = {line: quantity.value for line, quantity in amps}
    for told, (leg, quantity) in zip(finding.legs, reading.legs):
        if through.get(leg, 0.0) > 0:
            told["mohm"] = milliohms(quantity.value, through[leg])


def _open(reading: Reading, leg: str, worst: Quantity, least: Quantity) -> Finding:
    """Tell of a fuse with volts across it: that is an open one, whatever the others drop."""
    finding = Finding(CHECK.name, FAIL, [reading.id])
    finding.detail["open"] = leg
    finding.legs = [
        leg_json(name, drop, FAIL if drop.value >= OPEN_VOLTS else PASS, _deviation(drop, reading))
        for name, drop in reading.legs
    ]
    if least.value > 0:
        finding.value, finding.unit = worst.value / least.value, "ratio"
        finding.limits = [limit.as_json() for limit in LIMITS]
        for told, (_, drop) in zip(finding.legs, reading.legs):
            judged_leg(told, drop.value / least.value, 0.0)
    return finding.say("fuse_drop.open", {"leg": leg, "drop": worst.as_read, "drop_unit": worst.unit})


CHECK = Check(
    name="fuse_drop",
    reads=("fuse_drop", "running_current", "half_current"),
    unit="ratio",
    formula="worst fuse drop / least fuse drop",
    limits=LIMITS,
    sources=(ALIKE,),
    example={
        "readings": [
            {"point": "fuse_drop", "legs": {"L1": "28", "L2": "31", "L3": "27"}, "unit": "mV", "state": "running"}
        ],
        "value": 1.1481481481481481,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, case F2: 28, 31, 27 mV across the main fuses; 31/27",
    },
    find=find,
    so_far=lambda reading, scene: undecided(find(reading, scene)),
)
