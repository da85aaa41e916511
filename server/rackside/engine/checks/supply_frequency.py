"""Do volts and hertz stand in the ratio the motor is made for?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import CANNOT_TELL, FAIL, PASS, PUBLISHED, WATCH, Decision, Limit, Source, decide, rank
from ..own_limits import limits_for
from ..physics.three_phase import mean
from ..reading import Quantity, Reading
from ..uncertainty import expanded

MG1 = Source("NEMA MG 1", "12.44.1 (frequency within 5 %; volts and frequency together within 10 %)", "2016", PUBLISHED)
FLUX = "volts per hertz"
HERTZ_ALONE = "hertz alone"
LIMITS = (
    Limit(WATCH, 5.0, None, "%", MG1, FLUX),
    Limit(WATCH, None, -5.0, "%", MG1, FLUX),
    Limit(FAIL, 10.0, None, "%", MG1, FLUX),
    Limit(FAIL, None, -10.0, "%", MG1, FLUX),
)
HERTZ = (
    Limit(WATCH, 1.0, None, "%", MG1, HERTZ_ALONE),
    Limit(WATCH, None, -1.0, "%", MG1, HERTZ_ALONE),
    Limit(FAIL, 5.0, None, "%", MG1, HERTZ_ALONE),
    Limit(FAIL, None, -5.0, "%", MG1, HERTZ_ALONE),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge volts per hertz against the plate's, and the hertz alone."""
    hertz, rated = reading.value, scene.machine.number("rated_frequency")
    if hertz is None or hertz.bound:
        return cannot_tell(CHECK.name, [reading], "reading.only_a_bound", {"point": reading.point.name})
    if rated is None:
        return cannot_tell(CHECK.name, [reading], "supply_frequency.no_plate", {}, ("machine rated_frequency",))
    percent = 100.0 * (hertz.value - rated) / rated
    doubt = expanded([(100.0 / rated, hertz.value, hertz.doubt)])
    alone = decide(percent - doubt, percent + doubt, HERTZ)
    finding = _volts_per_hertz(reading, hertz, rated, scene)
    finding.detail["hertz_percent"] = percent
    if finding.value is None and alone.verdict == FAIL:
        finding.value, finding.unit, finding.uncertainty = percent, "%", doubt
    _take_the_worse(finding, alone, hertz.value)
    if finding.value is not None:
        finding.limits = finding.limits + [limit.as_json() for limit in HERTZ]
    if scene.machine.word("start") == "drive":
        finding.say("supply_frequency.drive_fed")
    return finding


def _volts_per_hertz(reading: Reading, hertz: Quantity, rated: float, scene: Scene) -> Finding:
    volts = scene.nearest("line_voltage", reading)
    plate = scene.machine.rated_voltages()
    if volts is None or not plate:
        missing = ("machine rated_voltage",) if not plate else ("line_voltage",)
        return cannot_tell(CHECK.name, [reading], "supply_frequency.no_volts", {"needs": list(missing)}, missing)
    legs = volts.quantities()
    ratio = mean([quantity.value for quantity in legs]) / hertz.value
    low, high = plate[0] / rated, plate[-1] / rated
    base = low if ratio < low else high
    percent = 0.0 if low <= ratio <= high else 100.0 * (ratio / base - 1.0)
    scale = 100.0 / base
    parts = [(-scale * ratio / hertz.value, hertz.value, hertz.doubt)]
    for quantity in legs:
        parts.append((scale / (len(legs) * hertz.value), quantity.value, quantity.doubt))
    measured = Measured(percent, expanded(parts), scale * ratio * hertz.step / hertz.value)
    finding = decided(CHECK, measured, Scale("%", "%"), limits_for(CHECK, scene, LIMITS), [reading.id, volts.id])
    finding.detail["volts_per_hertz"] = ratio
    return finding


def _take_the_worse(finding: Finding, alone: Decision, hertz: float) -> None:
    """Let the hertz alone decide when they are worse; without volts only a fail of the hertz can be told."""
    unknown = "volts_per_hertz" not in finding.detail
    if alone.verdict == PASS or (unknown and alone.verdict != FAIL):
        return
    if unknown or rank(alone.verdict) > rank(finding.verdict):
        finding.verdict = alone.verdict
        key = "hertz_cannot_tell" if alone.verdict == CANNOT_TELL else "hertz_off"
        finding.said = [("supply_frequency." + key, {"hertz": hertz, "percent": finding.detail["hertz_percent"]})]


CHECK = Check(
    name="supply_frequency",
    reads=("line_frequency", "line_voltage"),
    unit="%",
    formula="100 x ((mean volts / hertz) / (plate volts / plate hertz) - 1); 100 x (hertz / plate hertz - 1)",
    limits=LIMITS + HERTZ,
    sources=(MG1,),
    example={
        "machine": {"rated_voltage": 460, "rated_frequency": 60},
        "readings": [
            {"point": "line_frequency", "value": "57.5", "unit": "Hz", "state": "running"},
            {
                "point": "line_voltage",
                "legs": {"L1-L2": "460", "L2-L3": "460", "L3-L1": "460"},
                "unit": "V",
                "state": "running",
            },
        ],
        "value": 4.3478260869565215,
        "tolerance": 1e-9,
        "verdict": "watch",
        "source": "460/60 = 7.67 V/Hz on the plate, 460/57.5 = 8.00 read: 4.35 % over; hertz 4.2 % low is within 5 %",
    },
    find=find,
)
