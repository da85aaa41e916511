"""Was the start that of a motor that turns?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..leg import from_mean, judged_leg, leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source, rank
from ..own_limits import limits_for
from ..physics.locked_rotor import kva_per_horsepower, locked_rotor_amps
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..so_far import undecided
from ..uncertainty import NO_DOUBT, Doubt, expanded, limit_doubt

START = Source(
    "locked-rotor current in proportion to the volts; a healthy start shows 60 to 100 % of it", "", "", COMMON_PRACTICE
)
LIMITS = (Limit(WATCH, None, 0.5, "ratio", START), Limit(WATCH, 1.1, None, "ratio", START))
# All from CHECKS.md, start_current (common practice, no source).
TOO_HIGH_ON_ALL = 1.25
LOCKED_FROM = 0.85
LOCKED_SECONDS = 2.0
SLOW_SECONDS = 1.0
EVEN_PERCENT = 10.0
LOST_LEG_SHARE = 0.2
TOO_HIGH = Limit(FAIL, TOO_HIGH_ON_ALL, None, "ratio", START, "all three legs of one start, or in two starts")
LOCKED = Limit(FAIL, LOCKED_FROM, None, "ratio", START, "three even legs for 2 s or more")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge each leg against the locked-rotor current at the volts of that start."""
    if reading.point.name == "half_current" and reading.state != "starting":
        return None
    lost = _lost_leg(reading)
    if lost:
        return _fail(reading, "start_current.lost_leg", {"leg": lost})
    if scene.machine.word("start") in ("soft", "drive"):
        return cannot_tell(CHECK.name, [reading], "start_current.shaped")
    if reading.option("capture") == "peak":
        return cannot_tell(CHECK.name, [reading], "start_current.peak")
    volts = scene.nearest("start_voltage", reading)
    locked = _locked_rotor(scene)
    rated = scene.machine.rated_voltage()
    missing = _missing(scene, volts, locked, rated)
    if missing or volts is None or locked is None or rated is None:
        return cannot_tell(CHECK.name, [reading], "start_current.missing", {"needs": list(missing)}, missing)
    return _judged(reading, scene, volts, locked, rated)


def _started(reading: Reading) -> "list[tuple[str, Quantity]]":
    """Return the legs that take the start: of a part-winding motor, those of the half that is switched first."""
    if reading.point.name != "half_current":
        return reading.legs
    return [(leg, amps) for leg, amps in reading.legs if leg.startswith("1-")]


class LockedRotor:
    """Locked-rotor current at plate volts [A], with what a code letter leaves open; by: "plate" or "code_letter"."""

    def __init__(self, amps: float, doubt: Doubt, by: str) -> None:
        self.amps = amps
        self.doubt = doubt
        self.by = by


def _locked_rotor(scene: Scene) -> "LockedRotor | None":
    half = scene.machine.word("start") == "part-winding"
    amps = scene.machine.number("locked_rotor_current_half" if half else "locked_rotor_current")
    if amps is not None:
        return LockedRotor(amps, NO_DOUBT, "plate")
    return None if half else _by_code_letter(scene)


def _by_code_letter(scene: Scene) -> "LockedRotor | None":
    """Return the middle of the letter's band, its half width as a rectangular limit."""
    horsepower, rated = scene.machine.number("horsepower"), scene.machine.rated_voltage()
    band = kva_per_horsepower(scene.machine.word("code_letter"))
    if band is None or horsepower is None or rated is None:
        return None
    low, high = [locked_rotor_amps(kva, horsepower, rated) for kva in band]
    return LockedRotor((low + high) / 2.0, Doubt(limit_doubt((high - low) / 2.0), 0.0, ""), "code_letter")


def _missing(
    scene: Scene, volts: "Reading | None", locked: "LockedRotor | None", rated: "float | None"
) -> "tuple[str, ...]":
    missing = []
    if volts is None or mean([quantity.value for quantity in volts.quantities()]) <= 0:
        missing.append("start_voltage")
    if locked is None:
        half = scene.machine.word("start") == "part-winding"
        missing.append("machine locked_rotor_current" + ("_half" if half else ""))
    if rated is None:
        missing.append("machine rated_voltage")
    return tuple(missing)


def _judged(reading: Reading, scene: Scene, volts: Reading, locked: LockedRotor, rated: float) -> Finding:
    expected = locked.amps / rated * mean([quantity.value for quantity in volts.quantities()])
    limits = limits_for(CHECK, scene, LIMITS)
    worst: "Finding | None" = None
    legs = []
    ratios = []
    for leg, amps in _started(reading):
        finding = _leg(reading, amps, volts, expected, locked, limits)
        finding.readings = [reading.id, volts.id]
        ratio = finding.value or 0.0
        ratios.append(ratio)
        told = leg_json(leg, amps, finding.verdict, 100.0 * (ratio - 1.0))
        legs.append(judged_leg(told, ratio, finding.uncertainty or 0.0))
        if worst is None or _worse(finding, worst):
            worst = finding
            worst.detail["leg"] = leg
            worst.said[0][1]["leg"] = leg
    assert worst is not None
    worst.legs = legs
    worst.detail["locked_rotor_by"] = locked.by
    worst.detail["expected"] = expected / (0.001 if reading.unit == "mA" else 1.0)
    _whole_start(worst, reading, scene, ratios)
    return worst


def _leg(
    reading: Reading,
    amps: Quantity,
    volts: Reading,
    expected: float,
    locked: LockedRotor,
    limits: "tuple[Limit, ...]",
) -> Finding:
    ratio = amps.value / expected
    parts = [(1.0 / expected, amps.value, amps.doubt), (-ratio / locked.amps, locked.amps, locked.doubt)]
    quantities = volts.quantities()
    total = len(quantities) * mean([quantity.value for quantity in quantities])
    for quantity in quantities:
        parts.append((-ratio / total, quantity.value, quantity.doubt))
    measured = Measured(ratio, expanded(parts), amps.step / expected)
    return decided(CHECK, measured, Scale("ratio", "ratio"), limits, [reading.id])


def _worse(one: Finding, other: Finding) -> bool:
    if rank(one.verdict) != rank(other.verdict):
        return rank(one.verdict) > rank(other.verdict)
    return abs((one.value or 0.0) - 0.8) > abs((other.value or 0.0) - 0.8)


def _whole_start(finding: Finding, reading: Reading, scene: Scene, ratios: "list[float]") -> None:
    """Judge the three legs together: locked, too high on all, or slow."""
    duration = reading.number("duration")
    even = max(ratios) - min(ratios) <= EVEN_PERCENT / 100.0 * max(ratios)
    high = min(ratios) >= LOCKED_FROM
    if duration is not None:
        finding.detail["duration"] = duration
    if even and high and duration is not None and duration >= LOCKED_SECONDS:
        _set(finding, FAIL, "start_current.locked", {"seconds": duration}, LOCKED)
    elif min(ratios) > TOO_HIGH_ON_ALL and (reading.option("same_start") or _high_twice(reading, scene)):
        _set(finding, FAIL, "start_current.too_high", {"value": min(ratios)}, TOO_HIGH)
    elif duration is not None and duration >= SLOW_SECONDS and finding.verdict == PASS:
        _set(finding, WATCH, "start_current.slow", {"seconds": duration})
    elif even and high and duration is None and finding.verdict == PASS:
        _set(finding, CANNOT_TELL, "start_current.no_duration", {})
        finding.missing = ["start_current duration"]


def _high_twice(reading: Reading, scene: Scene) -> bool:
    """Return whether another start of this round was above as well."""
    mine = [amps.value for _, amps in _started(reading)]
    for other in scene.all(reading.point.name):
        if other is reading or other.state not in ("", "starting"):
            continue
        theirs = [amps.value for _, amps in _started(other)]
        if min(theirs) >= 0.9 * min(mine):
            return True
    return False


def _set(finding: Finding, verdict: str, key: str, values: "dict[str, object]", limit: "Limit | None" = None) -> None:
    finding.verdict = verdict
    if limit is not None:
        finding.limits.append(limit.as_json())
    finding.said = [(key, values)]


def _lost_leg(reading: Reading) -> str:
    legs = _started(reading)
    amps = [quantity.value for _, quantity in legs]
    for index in range(len(amps)):
        others = [amps[i] for i in range(len(amps)) if i != index]
        if others and min(others) > 0 and amps[index] <= LOST_LEG_SHARE * mean(others):
            return legs[index][0]
    return ""


def _fail(reading: Reading, key: str, values: "dict[str, object]") -> Finding:
    finding = Finding(CHECK.name, FAIL, [reading.id])
    finding.detail["lost_leg"] = values.get("leg")
    legs = _started(reading)
    amps = [quantity.value for _, quantity in legs]
    finding.legs = [
        leg_json(leg, quantity, FAIL if leg == values.get("leg") else PASS, from_mean(quantity.value, amps))
        for leg, quantity in legs
    ]
    return finding.say(key, values)


def so_far(reading: Reading, scene: Scene) -> "Finding | None":
    """Show the legs typed so far against the start they belong to, once one of them takes it."""
    return undecided(find(reading, scene)) if _started(reading) else None


CHECK = Check(
    name="start_current",
    reads=("start_current", "half_current", "start_voltage"),
    judges=("start_current", "half_current"),
    unit="ratio",
    formula="leg amps / (locked-rotor current x mean of the three least volts / plate volts)",
    limits=LIMITS + (TOO_HIGH, LOCKED),
    sources=(START,),
    example={
        "machine": {"rated_voltage": 460, "locked_rotor_current": 214},
        "readings": [
            {
                "point": "start_current",
                "legs": {"L1": "120", "L2": "118", "L3": "125"},
                "unit": "A",
                "state": "starting",
                "duration": 0.3,
            },
            {
                "point": "start_voltage",
                "legs": {"T1-T2": "338", "T2-T3": "338", "T3-T1": "338"},
                "unit": "V",
                "state": "starting",
            },
        ],
        "value": 0.7504,
        "tolerance": 0.0002,
        "verdict": "pass",
        "source": "handbook, formula table: 214 A x 338/460 = 157 A expected; 118 A of it is 0.75",
    },
    find=find,
    so_far=so_far,
)
