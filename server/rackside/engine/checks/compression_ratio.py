"""How hard does the machine squeeze?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, Limit, Source, upper
from ..odd_units import crossed_gauges
from ..own_limits import has_own_limits, limits_for
from ..physics.pressure import compression_ratio, ratio_sensitivities
from ..reading import Quantity, Reading
from ..saturation import Saturation, application_of, not_running, tell_application, why_not_read
from ..uncertainty import expanded
from ..units import from_base

CEILING = Source("trade press and training: single stage, ceiling 10 to 12", "", "", COMMON_PRACTICE)
STAGE = Source("per stage of a two-stage or R-744 system", "", "", COMMON_PRACTICE)
BY_APPLICATION = (
    ("low", upper(11.5, None, "ratio", CEILING, "low")),
    ("medium", upper(6.0, None, "ratio", CEILING, "medium")),
    ("high", upper(4.5, None, "ratio", CEILING, "high")),
)
PER_STAGE = upper(4.0, None, "ratio", STAGE, "R-744 and two-stage, per stage")
STAGED = ("booster-low", "booster-high", "two-stage")
METRIC = ("kPa", "bar")
# Running with less than this between the pressures, it isn't pumping. Source: common practice, no source.
PUMPING = 1.1


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge absolute discharge over absolute suction pressure."""
    if not_running(reading):
        return None
    suction = scene.nearest("suction_pressure", reading, "running")
    if suction is None or suction.value is None or reading.value is None:
        key, values = why_not_read("suction_pressure", scene, "compression_ratio.no_suction")
        return cannot_tell(CHECK.name, [reading], key, values, ("suction_pressure",))
    discharge_psia = reading.value.value + scene.call.atmosphere
    suction_psia = suction.value.value + scene.call.atmosphere
    crossed = crossed_gauges(discharge_psia, suction_psia)
    if crossed or reading.value.bound or suction.value.bound:
        key = crossed or "saturation.only_a_bound"
        finding = cannot_tell(CHECK.name, [reading, suction], key, {"point": "suction_pressure"})
        finding.fits = False
        return finding
    measured = _ratio(reading.value, discharge_psia, suction.value, suction_psia)
    return _judged(measured, reading, suction, scene)


def _ratio(discharge: Quantity, discharge_psia: float, suction: Quantity, suction_psia: float) -> Measured:
    by_discharge, by_suction = ratio_sensitivities(discharge_psia, suction_psia)
    parts = [(by_discharge, discharge.value, discharge.doubt), (by_suction, suction.value, suction.doubt)]
    step = max(by_discharge * discharge.step, -by_suction * suction.step)
    return Measured(compression_ratio(discharge_psia, suction_psia), expanded(parts), step)


def _judged(measured: Measured, reading: Reading, suction: Reading, scene: Scene) -> Finding:
    saturated = Saturation(reading, "suction_pressure", "dew", scene).fahrenheit
    application, assumed = application_of(scene, saturated)
    defaults = _defaults(scene, application)
    limits = limits_for(CHECK, scene, defaults)
    readings = [reading.id, suction.id]
    finding = decided(CHECK, measured, Scale("ratio", "ratio"), limits, readings)
    if not limits:
        _unjudged(finding, "compression_ratio.no_application", ["machine application"])
    elif measured.value + measured.uncertainty < PUMPING:
        _unjudged(finding, "compression_ratio.not_pumping", [])
    elif defaults is not PER_STAGE and not has_own_limits(CHECK, scene) and saturated is not None:
        unit = "C" if suction.unit in METRIC else "F"
        tell_application(finding, application, assumed, from_base(saturated, unit), unit)
    return finding


def _defaults(scene: Scene, application: str) -> "tuple[Limit, ...]":
    if scene.machine.word("refrigerant") == "R-744" or scene.machine.word("stage") in STAGED:
        return PER_STAGE
    for name, limits in BY_APPLICATION:
        if name == application:
            return limits
    return ()


def _unjudged(finding: Finding, key: str, missing: "list[str]") -> None:
    finding.verdict = CANNOT_TELL
    finding.missing = missing
    finding.said = [(key, {"value": finding.value})]


EXAMPLE: Json = {
    "machine": {"refrigerant": "R-404A", "application": "low"},
    "readings": [
        {"point": "discharge_pressure", "value": "145", "unit": "psig", "state": "running"},
        {"point": "suction_pressure", "value": "5", "unit": "psig", "state": "running"},
    ],
    "value": 8.107,
    "tolerance": 0.005,
    "verdict": "pass",
    "source": "check values 9.1, trade press: 145 and 5 psig at 14.7 psi, printed 8.1",
}
CHECK = Check(
    name="compression_ratio",
    reads=("discharge_pressure", "suction_pressure"),
    unit="ratio",
    formula="(discharge + air pressure) / (suction + air pressure)",
    limits=BY_APPLICATION[0][1] + BY_APPLICATION[1][1] + BY_APPLICATION[2][1] + PER_STAGE,
    sources=(CEILING, STAGE),
    example=EXAMPLE,
    find=find,
)
