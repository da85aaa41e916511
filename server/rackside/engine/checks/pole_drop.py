"""Does the contactor pass the current without heating?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..leg import from_mean, judged_leg, leg_json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, PUBLISHED, WATCH, Limit, Source, decide, worse
from ..line_amps import amps_beside, rated_share
from ..own_limits import limits_for
from ..physics.contact import SPREAD as NETA_SPREAD
from ..physics.contact import drop_at, milliohms, watts
from ..reading import Quantity, Reading
from ..uncertainty import expanded

LEVEL = Source("live millivolt drop at rated current: 100 mV is good, above 250 mV replace", "", "", COMMON_PRACTICE)
SPREAD = Source("ANSI/NETA ATS/MTS", "7.6.1.1 (investigate a pole more than 50 % above the lowest)", "2019", PUBLISHED)
LIMITS = (
    Limit(WATCH, 100.0, None, "mV", LEVEL, "at rated load current"),
    Limit(FAIL, 250.0, None, "mV", LEVEL, "at rated load current"),
)
RATIO_LIMIT = (Limit(WATCH, NETA_SPREAD, None, "ratio", SPREAD),)
BURNING_LIMIT = (Limit(FAIL, 500.0, None, "mV", LEVEL, "as read"),)
# Below this at rated current, unequal poles are of no account. Source: CHECKS.md (common practice, no source).
COMPARED_FROM_MV = 40.0
PAIR_OF_POLE = {"L1-T1": "L1", "L2-T2": "L2", "L3-T3": "L3"}


class Pole:
    """One pole: drop [mV], amps through it, and where it would stand at rated current [mV]."""

    def __init__(self, leg: str, drop: Quantity, amps: Quantity, rated: float) -> None:
        self.leg = leg
        self.drop = drop
        self.amps = amps
        self.millivolts = drop.value * 1000.0
        self.milliohms = milliohms(drop.value, amps.value)
        self.at_rated = drop_at(self.milliohms, rated)
        per_volt, per_amp = 1000.0 * rated / amps.value, -self.at_rated / amps.value
        self.uncertainty = expanded([(per_volt, drop.value, drop.doubt), (per_amp, amps.value, amps.doubt)])


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the worst pole at rated current, and the poles against each other."""
    rated = scene.machine.number("rated_load_current")
    amps, through = amps_beside(reading, scene)
    poles = _poles(reading, through, rated)
    if poles is None or amps is None:
        return _without_amps(reading, rated)
    worst = poles[0]
    for pole in poles[1:]:
        if pole.at_rated > worst.at_rated:
            worst = pole
    least = min([pole.milliohms for pole in poles])
    measured = Measured(
        worst.at_rated, worst.uncertainty, worst.drop.step * 1000.0 * worst.at_rated / (worst.millivolts or 1.0)
    )
    finding = decided(
        CHECK, measured, Scale("mV", reading.unit), limits_for(CHECK, scene, LIMITS), [reading.id, amps.id]
    )
    finding.detail.update({"pole": worst.leg, "at_rated_current": finding.value, "at_rated_unit": reading.unit})
    finding.said[0][1].update({"leg": worst.leg, "rated": rated})
    _compare_poles(finding, worst, least)
    if _burns(worst.drop):
        finding.limits.append(Scale("mV", reading.unit).limit(BURNING_LIMIT[0]))
        _burning(finding, worst.drop, worst.leg)
    finding.value = worst.drop.as_read
    finding.uncertainty = expanded([(1.0, worst.drop.value, worst.drop.doubt)]) * (
        1000.0 if reading.unit == "mV" else 1.0
    )
    finding.legs = [_leg_json(pole, poles, finding) for pole in poles]
    return finding


def _poles(reading: Reading, through: "list[tuple[str, Quantity]]", rated: "float | None") -> "list[Pole] | None":
    """Return the poles, None when the rated current or the amps of a leg are not known."""
    if rated is None:
        return None
    amps = dict(through)
    poles = []
    for leg, drop in reading.legs:
        current = amps.get(PAIR_OF_POLE[leg])
        if current is None or current.value <= 0:
            return None
        poles.append(Pole(leg, drop, current, rated * rated_share(reading)))
    return poles


def _without_amps(reading: Reading, rated: "float | None") -> Finding:
    """Tell what is missing; a pole above 500 mV as read has failed without it."""
    missing = ("machine rated_load_current",) if rated is None else ("running_current",)
    key = "pole_drop.no_rated_current" if rated is None else "pole_drop.no_amps"
    finding = cannot_tell(CHECK.name, [reading], key, {}, missing)
    worst_leg, worst = reading.legs[0]
    for leg, drop in reading.legs:
        if drop.value > worst.value:
            worst_leg, worst = leg, drop
    finding.value, finding.unit = worst.as_read, reading.unit
    finding.limits = [Scale("mV", reading.unit).limit(BURNING_LIMIT[0])]
    drops = [drop.value for drop in reading.quantities()]
    finding.legs = [
        leg_json(leg, drop, FAIL if _burns(drop) else CANNOT_TELL, from_mean(drop.value, drops))
        for leg, drop in reading.legs
    ]
    _burning(finding, worst, worst_leg)
    return finding


def _burns(drop: Quantity) -> bool:
    uncertainty = 1000.0 * expanded([(1.0, drop.value, drop.doubt)])
    millivolts = drop.value * 1000.0
    return decide(millivolts - uncertainty, millivolts + uncertainty, BURNING_LIMIT).verdict == FAIL


def _burning(finding: Finding, drop: Quantity, leg: str) -> None:
    if _burns(drop):
        finding.verdict = FAIL
        finding.said = [("pole_drop.burning", {"leg": leg, "value": drop.as_read, "unit": drop.unit})]


def _compare_poles(finding: Finding, worst: Pole, least: float) -> None:
    finding.detail["ratio"] = worst.milliohms / least if least > 0 else None
    if worst.at_rated < COMPARED_FROM_MV or least <= 0:
        return
    ratio = worst.milliohms / least
    spread = ratio * worst.uncertainty / worst.at_rated
    verdict = decide(ratio - spread, ratio + spread, RATIO_LIMIT).verdict
    if verdict != PASS and worse(verdict, finding.verdict) != finding.verdict:
        finding.verdict = verdict
        finding.said = [("pole_drop.unequal", {"leg": worst.leg, "ratio": ratio})]
    finding.limits.append(_spread_limit(finding, worst, ratio))


def _spread_limit(finding: Finding, worst: Pole, ratio: float) -> Json:
    """Return the limit of the spread as what it comes to on the worst pole, in the unit of the reading."""
    edge = NETA_SPREAD * worst.at_rated / ratio
    limit = Limit(WATCH, edge, None, "mV", SPREAD, "1.5 times the least pole, at rated load current")
    return Scale("mV", finding.unit).limit(limit)


def _leg_json(pole: Pole, poles: "list[Pole]", finding: Finding) -> Json:
    decision = decide(pole.at_rated - pole.uncertainty, pole.at_rated + pole.uncertainty, LIMITS)
    verdict = finding.verdict if pole.leg == finding.detail["pole"] else decision.verdict
    deviation = from_mean(pole.milliohms, [other.milliohms for other in poles])
    told = leg_json(pole.leg, pole.drop, verdict, deviation)
    told["mohm"] = pole.milliohms
    told["watts"] = watts(pole.milliohms, pole.amps.value)
    told["amps"] = pole.amps.value
    scale = Scale("mV", finding.unit)
    return judged_leg(told, scale.value(pole.at_rated), scale.span(pole.uncertainty))


CHECK = Check(
    name="pole_drop",
    reads=("pole_drop", "running_current", "half_current"),
    unit="mV",
    formula="mV x rated load current / amps of that leg; worst milliohms / least milliohms",
    limits=LIMITS + BURNING_LIMIT + RATIO_LIMIT,
    sources=(LEVEL, SPREAD),
    example={
        "machine": {"rated_load_current": 34.0},
        "readings": [
            {
                "point": "pole_drop",
                "legs": {"L1-T1": "36", "L2-T2": "39", "L3-T3": "37"},
                "unit": "mV",
                "state": "running",
            },
            {
                "point": "running_current",
                "legs": {"L1": "24.8", "L2": "25.1", "L3": "24.6"},
                "unit": "A",
                "state": "running",
            },
        ],
        "value": 39.0,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "Ohm's law on the readings of the handbook's case F1: 39 mV at 25.1 A is 1.55 mohm, 53 mV at 34 A",
    },
    find=find,
    so_far=find,
)
