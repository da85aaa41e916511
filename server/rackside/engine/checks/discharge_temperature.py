"""Is the discharge line hot enough to break down the oil?"""

from .. import units
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, Limit, Source, upper
from ..own_limits import limits_for
from ..reading import Reading
from ..saturation import Saturation, application_of, impossible, infrared, not_running
from ..uncertainty import expanded

LINE = Source(
    "trade press: 225 F on the line, where the valve is about 75 F hotter and oil breaks down", "", "", COMMON_PRACTICE
)
CO2 = Source("R-744 high stage practice", "", "", COMMON_PRACTICE)
LIMITS = upper(225.0, 250.0, "F", LINE)
SETTLED_SECONDS = 600.0
USUAL_OVER_F = (25.0, 160.0)
R744_HIGH = upper(275.0, 300.0, "F", CO2, "R-744 high stage")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the discharge line at the compressor."""
    if not_running(reading) or reading.value is None:
        return None
    if reading.option("probe") == "infrared":
        return infrared(CHECK.name, reading)
    wrong = _colder_than_suction(reading, scene) or _colder_than_condensing(reading, scene)
    if wrong is not None:
        return wrong
    uncertainty = expanded([(1.0, reading.value.value, reading.value.doubt)])
    measured = Measured(reading.value.value, uncertainty, reading.value.step)
    measured.low, measured.high = reading.value.interval(uncertainty, reading.value.value)
    measured.bound = reading.value.bound
    finding = _decided(measured, reading, scene, _limits(reading, scene) or LIMITS)
    if _limits(reading, scene) or _decided(measured, reading, scene, R744_HIGH).verdict == finding.verdict:
        return finding
    return cannot_tell(CHECK.name, [reading], "discharge_temperature.no_stage", {}, ("machine stage",))


def _decided(measured: Measured, reading: Reading, scene: Scene, defaults: "tuple[Limit, ...]") -> Finding:
    return decided(CHECK, measured, Scale("F", reading.unit), limits_for(CHECK, scene, defaults), [reading.id])


def _colder_than_suction(reading: Reading, scene: Scene) -> "Finding | None":
    suction = scene.nearest("suction_temperature", reading, "running")
    if suction is None or suction.value is None or reading.value is None or suction.option("probe") == "infrared":
        return None
    if reading.value.value >= suction.value.value:
        return None
    told = {"value": reading.value.as_read, "unit": reading.unit}
    told["suction"] = units.from_base(suction.value.value, reading.unit)
    finding = cannot_tell(CHECK.name, [reading, suction], "suspicion.discharge_colder", told)
    finding.fits = False
    return finding


def _colder_than_condensing(reading: Reading, scene: Scene) -> "Finding | None":
    """Look at the discharge pressure too, once the line has had 10 min to warm through."""
    saturation = Saturation(reading, "discharge_pressure", "dew", scene)
    early = (reading.number("since_start") or SETTLED_SECONDS) < SETTLED_SECONDS
    if early or saturation.fahrenheit is None or reading.value is None or reading.value.bound:
        return None
    over = saturation.over(reading.value)
    return impossible(CHECK.name, over, reading, saturation, USUAL_OVER_F, "discharge_superheat.impossible")


def _limits(reading: Reading, scene: Scene) -> "tuple[Limit, ...]":
    """Return the limits of the machine's place: R-744 runs hotter where it rejects heat; () when that is unknown."""
    if scene.machine.word("refrigerant") != "R-744" or scene.machine.word("stage") == "booster-low":
        return LIMITS
    if scene.machine.word("stage") == "booster-high":
        return R744_HIGH
    application, _ = application_of(scene, Saturation(reading, "suction_pressure", "dew", scene).fahrenheit)
    if not application:
        return ()
    return LIMITS if application == "low" else R744_HIGH


CHECK = Check(
    name="discharge_temperature",
    reads=("discharge_temperature", "discharge_pressure", "suction_temperature", "suction_pressure"),
    unit="F",
    formula="discharge line, 6 in from the compressor",
    limits=LIMITS + R744_HIGH,
    sources=(LINE, CO2),
    example={
        "machine": {"refrigerant": "R-448A"},
        "readings": [{"point": "discharge_temperature", "value": "246", "unit": "F", "state": "running"}],
        "value": 246.0,
        "tolerance": 1e-9,
        "verdict": "watch",
        "source": "handbook case F10: 246 F with a failing head fan, between 225 and 250 F",
    },
    find=find,
)
