"""Has the insulation fallen by more than temperature alone would do?"""

import math

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..insulation_reading import InsulationReading
from ..limits import COMMON_PRACTICE, FAIL, PUBLISHED, WATCH, Limit, Source
from ..own_limits import limits_for
from ..reading import Reading

TREND = Source(
    "halving against an earlier reading at like temperature is looked into, a fifth is a fault", "", "", COMMON_PRACTICE
)
HALVING = Source("IEEE 43", "6.3", "2013", PUBLISHED)
LIMITS = (
    Limit(WATCH, None, 0.5, "ratio", TREND),
    Limit(FAIL, None, 0.2, "ratio", TREND, "corrected below 100 Mohm"),
)
# From this on, corrected, a falling reading is watched, not failed. Source: common practice (100 Mohm is good).
STILL_GOOD_MOHM = 100.0
# Further apart than this the correction itself is doubted, and the bounds widen. Source: CHECKS.md.
APART_K = 30.0
WIDENED = 2.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge a reading, taken to 40 C, against the colder one of the round, else the last in history."""
    before = _colder(reading, scene) or _last_in_history(reading, scene)
    if before is None or _over_limit(reading):
        return None
    form = scene.machine.word("insulation_form")
    now, then = InsulationReading(reading, form), InsulationReading(before, form)
    both = [reading, before]
    if not (now.correctable() and then.correctable()):
        return cannot_tell(CHECK.name, both, "insulation_change.no_temperature", {}, ("winding_temperature",))
    later, earlier = now.corrected(), then.corrected()
    if earlier.value <= 0:
        return cannot_tell(CHECK.name, both, "insulation_change.nothing_before")
    measured = _ratio(later, earlier)
    limits = limits_for(CHECK, scene, _limits(now, then, later))
    finding = decided(CHECK, measured, Scale("ratio", "ratio"), limits, [one.id for one in both if one.id])
    finding.said[0][1].update({"mohm": later.value, "before": earlier.value})
    finding.detail.update({"at_40c": now.in_unit(later.value), "before_at_40c": now.in_unit(earlier.value)})
    finding.detail["leads"] = reading.option("leads") or "unstated"
    return finding


def _colder(reading: Reading, scene: Scene) -> "Reading | None":
    """Return the coldest other reading of the round, when that is colder than this one."""
    coldest, coldest_c = None, InsulationReading(reading).winding_c
    for other in scene.all(CHECK.reads[0]):
        other_c = InsulationReading(other).winding_c
        if other is reading or other_c is None or _over_limit(other) or not _alike(reading, other):
            continue
        if coldest_c is not None and other_c < coldest_c:
            coldest, coldest_c = other, other_c
    return coldest


def _last_in_history(reading: Reading, scene: Scene) -> "Reading | None":
    """Return the newest earlier reading taken with the leads alike."""
    chosen, chosen_at = None, 0.0
    for past in scene.call.history:
        for other in past.readings:
            if other.point.name != reading.point.name or not other.sound() or _over_limit(other):
                continue
            if not _alike(reading, other):
                continue
            at = other.at or past.at or 0.0
            if chosen is None or at >= chosen_at:
                chosen, chosen_at = other, at
    return chosen


def _over_limit(reading: Reading) -> bool:
    return reading.value is None or reading.value.over_limit()


def _alike(one: Reading, other: Reading) -> bool:
    """Return whether motor alone is held against motor alone; an unstated one is taken as the other."""
    leads = (one.option("leads"), other.option("leads"))
    return leads[0] == leads[1] or None in leads


def _ratio(later: Measured, earlier: Measured) -> Measured:
    ratio = later.value / earlier.value
    relative = (earlier.uncertainty / earlier.value) ** 2
    if later.value > 0:
        relative += (later.uncertainty / later.value) ** 2
    measured = Measured(ratio, ratio * math.sqrt(relative))
    if later.bound or earlier.bound:
        up, down = later.bound == ">" or earlier.bound == "<", later.bound == "<" or earlier.bound == ">"
        measured.high = None if up else measured.high
        measured.low = None if down else measured.low
        measured.bound = ">" if up else "<"
    return measured


def _limits(now: InsulationReading, then: InsulationReading, later: Measured) -> "tuple[Limit, ...]":
    assert now.winding_c is not None and then.winding_c is not None
    widened = WIDENED if abs(now.winding_c - then.winding_c) > APART_K else 1.0
    watch = Limit(WATCH, None, 0.5 / widened, "ratio", TREND)
    if later.value >= STILL_GOOD_MOHM:
        return (watch,)
    return (watch, Limit(FAIL, None, 0.2 / widened, "ratio", TREND, "corrected below 100 Mohm"))


CHECK = Check(
    name="insulation_change",
    reads=("insulation_resistance",),
    unit="ratio",
    formula="now at 40 C / (the colder one of the round, else the last in history) at 40 C",
    limits=LIMITS,
    sources=(TREND, HALVING),
    example={
        "readings": [
            {
                "point": "insulation_resistance",
                "value": "15",
                "unit": "Mohm",
                "state": "isolated",
                "leads": "off",
                "winding_temperature": 40,
                "winding_temperature_unit": "C",
            }
        ],
        "history": [
            {
                "at": "2026-01-10T10:00:00-06:00",
                "readings": [
                    {
                        "point": "insulation_resistance",
                        "value": "400",
                        "unit": "Mohm",
                        "state": "isolated",
                        "leads": "off",
                        "winding_temperature": 20,
                        "winding_temperature_unit": "C",
                    }
                ],
            }
        ],
        "value": 0.15,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "IEEE 43-2013, 6.3: 400 Mohm at 20 C is 100 at 40 C; 15 / 100",
    },
    find=find,
)
