"""Does it draw what its map, or the like machine beside it, says it should?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..expected_amps import Expected, by_map, by_twin
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FAIL, FROM_MEMORY, WATCH, Limit, Source
from ..line_amps import line_amps
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..uncertainty import expanded

AHRI = Source("AHRI 540", "5 (ten-coefficient map)", "2020", FROM_MEMORY)
BASELINE = Source(
    "within 10 % of the map or of the machine's like, beyond 15 % find the reason", "", "", COMMON_PRACTICE
)
LIMITS = (
    Limit(WATCH, 10.0, None, "%", BASELINE),
    Limit(WATCH, None, -10.0, "%", BASELINE),
    Limit(FAIL, 15.0, None, "%", BASELINE),
    Limit(FAIL, None, -15.0, "%", BASELINE),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the mean of the three legs against the map, or without one against a like twin."""
    if reading.state == "starting":
        return None
    amps = line_amps(reading)
    level = mean([quantity.value for _, quantity in amps]) if amps else 0.0
    if level <= 0 or [leg for leg, quantity in amps if quantity.bound]:
        return cannot_tell(CHECK.name, [reading], "current_against_expected.no_amps")
    expected = by_map(reading, scene)
    if not isinstance(expected, Expected):
        twin = by_twin(reading, scene)
        if twin is None:
            finding = cannot_tell(CHECK.name, [reading], expected.key, expected.values, expected.missing)
            finding.fits = not reading.number("roll")
            return finding
        expected = twin
    finding = _judged(reading, scene, amps, level, expected)
    finding.fits = not reading.number("roll")
    return finding


def _judged(
    reading: Reading, scene: Scene, amps: "list[tuple[str, Quantity]]", level: float, expected: Expected
) -> Finding:
    percent = 100.0 * (level / expected.amps - 1.0)
    parts = [(100.0 / (len(amps) * expected.amps), quantity.value, quantity.doubt) for _, quantity in amps]
    for sensitivity, value, doubt in expected.parts:
        parts.append((-100.0 * level / (expected.amps * expected.amps) * sensitivity, value, doubt))
    step = max([quantity.step for _, quantity in amps])
    measured = Measured(percent, expanded(parts), 100.0 * step / expected.amps)
    ids = [reading.id] + [one for one in expected.readings if one]
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), ids)
    finding.detail.update(expected.detail)
    finding.detail.update({"expected": expected.amps, "mean": level, "unit": "A", "by": expected.by})
    finding.said[0][1].update({"expected": expected.amps, "mean": level, "size": abs(percent)})
    if finding.verdict in (WATCH, FAIL) and abs(percent) > 10.0:
        side = "high" if percent > 0 else "low"
        finding.said[0] = ("current_against_expected." + finding.verdict + "_" + side, finding.said[0][1])
    finding.say("current_against_expected.by_" + expected.by)
    if expected.detail.get("envelope_known") is False:
        finding.say("current_against_expected.no_envelope")
    return finding


CHECK = Check(
    name="current_against_expected",
    reads=(
        "running_current",
        "half_current",
        "suction_pressure",
        "discharge_pressure",
        "line_voltage",
    ),
    unit="%",
    formula="100 x (mean amps / expected - 1); expected: the map at the dew temperatures x map volts / actual volts, "
    "else the like twin's mean",
    limits=LIMITS,
    sources=(AHRI, BASELINE),
    example={
        "readings": [
            {
                "point": "running_current",
                "legs": {"L1": "39.2", "L2": "35.4", "L3": "31.6"},
                "unit": "A",
                "state": "running",
            },
            {
                "point": "running_current",
                "legs": {"L1": "38.4", "L2": "35.0", "L3": "31.5"},
                "unit": "A",
                "state": "running",
                "twin": True,
            },
        ],
        "value": 1.2392755004766444,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, case F2: B2 draws 106.2 A in all, its twin B3 104.9 A in the same minute",
    },
    find=find,
    judges=("running_current", "half_current"),
)
