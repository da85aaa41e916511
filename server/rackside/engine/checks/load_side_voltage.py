"""Do the volts that go into the contactor come out of it?"""

from ..call import Scene
from ..check import AT_LIMIT, Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source, decide, upper
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..uncertainty import expanded

TRADE = Source("line minus load side, contactor in and loaded: 0.5 % is usual, 1 % is not", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, 2.4, None, "V", TRADE, "480 V: 0.5 % of the line volts, at least 1.5 V"),
    Limit(FAIL, 4.8, None, "V", TRADE, "480 V: 1 % of the line volts, at least 3 V"),
)
PAIRS = (("L1-L2", "T1-T2"), ("L2-L3", "T2-T3"), ("L3-L1", "T3-T1"))
SAME_MINUTE_SECONDS = 60.0
# A load pair below this share of its line pair has lost a leg. Source: common practice, no source.
LOST_SHARE = 0.5
ELSEWHERE = ("source", "disconnect")
NEAR_THE_CONTACTOR = (None, "", "contactor")


class Pair:
    """One pair: how far the load side stands below the line side [V]."""

    def __init__(self, leg: str, line: Quantity, load: Quantity) -> None:
        self.leg = leg
        self.load = load
        self.step = max(line.step, load.step)
        self.drop = line.value - load.value
        self.lost = load.value < LOST_SHARE * line.value
        self.uncertainty = expanded([(1.0, line.value, line.doubt), (-1.0, load.value, load.doubt)])

    def risen(self) -> bool:
        """Return whether the load side reads above its line side by more than one count of the meter."""
        return -self.drop > self.step * (1.0 + AT_LIMIT)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the largest drop from line to load side of one pair, read in the same minute, running."""
    line = _line_beside(reading, scene)
    if reading.state == "stopped":
        return cannot_tell(CHECK.name, [reading], "load_side_voltage.contactor_out")
    if line is None:
        return cannot_tell(CHECK.name, [reading], "load_side_voltage.no_line", {}, ("line_voltage",))
    if line.at is not None and reading.at is not None and abs(line.at - reading.at) > SAME_MINUTE_SECONDS:
        return cannot_tell(CHECK.name, [reading, line], "load_side_voltage.not_the_same_minute")
    volts = mean([quantity.value for quantity in line.quantities()])
    if volts <= 0:
        return cannot_tell(CHECK.name, [reading, line], "load_side_voltage.no_volts")
    pairs = _pairs(line, reading)
    limits = limits_for(CHECK, scene, _limits(volts))
    finding = _judged(pairs, limits, reading, line)
    if finding.verdict in (WATCH, FAIL) and finding.said[0][0] != "decide.not_clear_of":
        _say_where_to_look(finding, reading, scene)
    elif finding.verdict == WATCH and _one_count(pairs):
        _by_the_poles(finding, reading, scene, pairs)
    return finding


def _one_count(pairs: "list[Pair]") -> bool:
    """Return whether no pair differs by more than one count of the meter: what two readings of one voltage may do."""
    return max([pair.drop / pair.step for pair in pairs if pair.step > 0] or [2.0]) <= 1.0 + AT_LIMIT


def _by_the_poles(finding: Finding, reading: Reading, scene: Scene, pairs: "list[Pair]") -> None:
    """Let the poles decide what a whole-volt meter can't.

    One count apart on a 1 V meter, two roundings leave the drop anywhere from 0 to 2 V: within 1.5 V for 7 in 8, which
    is no pass by JCGM 106 and nothing to send anybody after. The poles in millivolts are that same drop, read finer.
    """
    drops = scene.nearest("pole_drop", reading)
    settled = drops is not None and reading.option("where") in NEAR_THE_CONTACTOR
    passes = settled and drops is not None and scene.verdict_of("pole_drop", drops) == PASS
    finding.verdict = PASS if passes else CANNOT_TELL
    values = finding.said[0][1]
    values["step"] = Scale("V", reading.unit).span(max([pair.step for pair in pairs]))
    finding.said = [("load_side_voltage.one_count_poles" if passes else "load_side_voltage.one_count", values)]
    if passes and drops is not None:
        finding.readings.append(drops.id)
    else:
        finding.missing = ["pole_drop"]
    for leg in finding.legs:
        if leg["verdict"] == WATCH:
            leg["verdict"] = finding.verdict


def _line_beside(reading: Reading, scene: Scene) -> "Reading | None":
    """Return the running volts read on the line side of the contactor, not at the source."""
    chosen: "Reading | None" = None
    for line in scene.all("line_voltage"):
        if line.state not in ("", "running") or line.option("where") in ELSEWHERE:
            continue
        if chosen is None or _apart(line, reading) <= _apart(chosen, reading):
            chosen = line
    return chosen


def _apart(one: Reading, other: Reading) -> float:
    return abs(one.at - other.at) if one.at is not None and other.at is not None else 0.0


def _limits(volts: float) -> "tuple[Limit, ...]":
    return upper(max(1.5, 0.005 * volts), max(3.0, 0.01 * volts), "V", TRADE)


def _pairs(line: Reading, load: Reading) -> "list[Pair]":
    pairs = []
    for line_leg, load_leg in PAIRS:
        above, below = line.leg(line_leg), load.leg(load_leg)
        if above is not None and below is not None:
            pairs.append(Pair(load_leg, above, below))
    return pairs


def _judged(pairs: "list[Pair]", limits: "tuple[Limit, ...]", reading: Reading, line: Reading) -> Finding:
    worst = pairs[0]
    for pair in pairs[1:]:
        if pair.drop > worst.drop:
            worst = pair
    scale = Scale("V", reading.unit)
    measured = Measured(worst.drop, worst.uncertainty, worst.load.step)
    finding = decided(CHECK, measured, scale, limits, [reading.id, line.id])
    finding.legs = [_leg_json(pair, limits, scale) for pair in pairs]
    finding.detail["leg"] = worst.leg
    finding.said[0][1]["leg"] = worst.leg
    if worst.lost:
        finding.said = [("load_side_voltage.lost", {"legs": [pair.leg for pair in pairs if pair.lost]})]
    risen = [pair.leg for pair in pairs if pair.risen() and _verdict(-pair.drop, pair.uncertainty, limits) != PASS]
    if risen and finding.verdict != FAIL:
        return cannot_tell(CHECK.name, [reading, line], "load_side_voltage.risen", {"legs": risen})
    return finding


def _verdict(drop: float, uncertainty: float, limits: "tuple[Limit, ...]") -> str:
    return decide(drop - uncertainty, drop + uncertainty, limits).verdict


def _leg_json(pair: Pair, limits: "tuple[Limit, ...]", scale: Scale) -> Json:
    verdict = _verdict(pair.drop, pair.uncertainty, limits)
    return leg_json(pair.leg, pair.load, verdict, scale.span(-pair.drop), pair.load.unit)


def _say_where_to_look(finding: Finding, reading: Reading, scene: Scene) -> None:
    """Name the contactor only when its own drop says so."""
    drops = scene.nearest("pole_drop", reading)
    poles = scene.verdict_of("pole_drop", drops) if drops is not None else ""
    if drops is None or not poles:
        finding.say("load_side_voltage.measure_poles")
        return
    finding.readings.append(drops.id)
    finding.say("load_side_voltage." + ("not_the_poles" if poles == PASS else "see_the_poles"))


CHECK = Check(
    name="load_side_voltage",
    reads=("load_voltage", "line_voltage", "pole_drop", "running_current"),
    unit="V",
    formula="largest of L1-L2 minus T1-T2, L2-L3 minus T2-T3, L3-L1 minus T3-T1",
    limits=LIMITS,
    sources=(TRADE,),
    example={
        "readings": [
            {
                "point": "line_voltage",
                "legs": {"L1-L2": "478.0", "L2-L3": "476.0", "L3-L1": "477.0"},
                "unit": "V",
                "state": "running",
            },
            {
                "point": "load_voltage",
                "legs": {"T1-T2": "477.8", "T2-T3": "471.1", "T3-T1": "472.2"},
                "unit": "V",
                "state": "running",
            },
        ],
        "value": 4.9,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "handbook, formula table: a burning pole drops 4.9 V; 1 % of 477 V is 4.77 V",
    },
    find=find,
    so_far=find,
)
