"""What did the tester find, between two proofs that it works?"""

from .. import units
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale
from ..kinds import Json
from ..leg import leg_json
from ..limits import CANNOT_TELL, FAIL, FROM_MEMORY, PASS, PUBLISHED, WATCH, Limit, Source
from ..number import read_number
from ..own_limits import limits_for
from ..reading import Quantity, Reading
from ..uncertainty import expanded

PROVED = Source("DOE-HDBK-1092", "2.13.2.1 (tester checked immediately before and after)", "2013", PUBLISHED)
BOUNDS = Source(
    "5 V and 50 V: what a tester shows of induction, and what may hurt; common practice, no source", "", "", FROM_MEMORY
)
LIMITS = (Limit(WATCH, 5.0, None, "V", BOUNDS, "between the two: cannot tell"), Limit(FAIL, 50.0, None, "V", BOUNDS))
SOURCE_SHARE = 0.8
SOURCE_LEAST_V = 90.0


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge six readings between two on a known live source; a step left out fails the test."""
    left_out = [key for key in reading.point.keys if reading.leg(key) is None]
    before, after = _known(reading, "known_source_before"), _known(reading, "known_source_after")
    if before is None:
        left_out.append("known_source_before")
    if after is None:
        left_out.append("known_source_after")
    if left_out or before is None or after is None:
        return _failed(reading, "absence_test.left_out", {"steps": left_out}, left_out)
    if min(before, after) < max(SOURCE_LEAST_V, SOURCE_SHARE * max(before, after)):
        return _failed(reading, "absence_test.source_low", {"before": before, "after": after}, [])
    if _two_testers(reading):
        return _failed(reading, "absence_test.two_testers", {}, [])
    return _judged(reading, scene, before, after)


def _known(reading: Reading, name: str) -> "float | None":
    number = read_number(reading.raw.get(name))
    if number is None or number.bound == "OL":
        return None
    return units.to_base(number.value, reading.unit)


def _two_testers(reading: Reading) -> bool:
    meter = reading.raw.get("meter")
    return isinstance(meter, dict) and len({str(meter[leg]) for leg in meter}) > 1


def _judged(reading: Reading, scene: Scene, before: float, after: float) -> Finding:
    worst = reading.legs[0]
    for leg in reading.legs:
        if leg[1].value > worst[1].value:
            worst = leg
    quantity = worst[1]
    uncertainty = expanded([(1.0, quantity.value, quantity.doubt)])
    measured = Measured(quantity.value, uncertainty, quantity.step)
    measured.low, measured.high = quantity.interval(uncertainty, quantity.value)
    finding = decided(CHECK, measured, Scale("V", reading.unit), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.legs = [_leg_json(leg, volts) for leg, volts in reading.legs]
    finding.detail.update({"known_source_before": before, "known_source_after": after, "leg": worst[0]})
    values = {"before": before, "after": after, "value": finding.value, "unit": reading.unit, "leg": worst[0]}
    values["at"] = reading.raw.get("at")
    if finding.verdict == WATCH:
        finding.verdict = CANNOT_TELL
    key = "absence_test." + finding.verdict
    finding.said = [(key + "_at" if values["at"] and finding.verdict == PASS else key, values)]
    finding.say("absence_test.others")
    return finding


def _leg_json(leg: str, volts: Quantity) -> Json:
    verdict = PASS if volts.value <= 5.0 else (FAIL if volts.value > 50.0 else CANNOT_TELL)
    return leg_json(leg, volts, verdict)


def _failed(reading: Reading, key: str, values: "dict[str, object]", missing: "list[str]") -> Finding:
    finding = Finding(CHECK.name, FAIL, [reading.id])
    finding.missing = missing
    finding.legs = [leg_json(leg, volts, CANNOT_TELL) for leg, volts in reading.legs]
    return finding.say(key, values)


CHECK = Check(
    name="absence_test",
    reads=("absence_test",),
    unit="V",
    formula="the highest of six readings, between two on a known live source",
    limits=LIMITS,
    sources=(PROVED, BOUNDS),
    example={
        "readings": [
            {
                "point": "absence_test",
                "known_source_before": "478",
                "known_source_after": "478",
                "legs": {"L1-L2": "0.1", "L2-L3": "0.2", "L3-L1": "0.1", "L1-G": "0.3", "L2-G": "0.2", "L3-G": "0.1"},
                "unit": "V",
                "state": "isolated",
            }
        ],
        "value": 0.3,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "CHECKS.md, absence_test: the wording's own figures",
    },
    find=find,
)
