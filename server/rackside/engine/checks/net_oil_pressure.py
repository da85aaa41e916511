"""Does the pump feed the bearings?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source
from ..own_limits import limits_for
from ..points.point import RUNNING
from ..reading import Quantity, Reading
from ..uncertainty import expanded

NET = Source("semi-hermetic practice: 20 to 40 psi net, up to 60 on some designs", "", "", COMMON_PRACTICE)
CUT_OUT = Source("the oil control's own cut-out plus 3 psi", "", "", COMMON_PRACTICE)
USUAL_CUT_OUT_PSI = 9.0
MARGIN_PSI = 3.0
GOOD_PSI = 20.0
HIGH_PSI = 60.0
SETTLED_SECONDS = 180.0
SLOW_HZ = 45.0
BESIDE = (("oil_level", "oil_level", "level"), ("sump_temperature", "sump_superheat", "sump"))
LIMITS = (
    Limit(WATCH, None, GOOD_PSI, "psi", NET),
    Limit(WATCH, HIGH_PSI, None, "psi", NET),
    Limit(FAIL, None, USUAL_CUT_OUT_PSI + MARGIN_PSI, "psi", CUT_OUT),
)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge pump minus crankcase pressure once the oil has settled; earlier readings make the trend."""
    if scene.machine.word("oil_pump") == "none" or reading.state == "stopped" or reading.value is None:
        return None
    crankcase = scene.nearest("crankcase_pressure", reading, RUNNING)
    if crankcase is None or crankcase.value is None:
        return _about(reading, scene)
    measured = _net(reading.value, crankcase.value)
    scale = Scale("psi", _shown(reading.unit), True)
    limits = limits_for(CHECK, scene, _limits(scene))
    finding = decided(CHECK, measured, scale, limits, [reading.id, crankcase.id])
    finding.detail["trend"] = _trend(scene, scale)
    since = reading.number("since_start")
    if since is not None and since < SETTLED_SECONDS:
        return _too_early(finding, since)
    if scene.machine.oil_cut_out() is None:
        finding.detail["cut_out"] = "assumed"
        finding.say("net_oil_pressure.cut_out_assumed", {"value": USUAL_CUT_OUT_PSI})
    if (measured.low or 0.0) < GOOD_PSI and finding.verdict != PASS:
        _tell_what_stands_beside(finding, scene)
    return finding


def _tell_what_stands_beside(finding: Finding, scene: Scene) -> None:
    """Name the oil itself where it explains a low pressure: level, foam and sump come before the pump."""
    beside = []
    asked = []
    for point, check, name in BESIDE:
        reading = scene.newest(point)
        verdict = scene.verdict_of(check, reading) if reading is not None else ""
        if reading is None or verdict in ("", CANNOT_TELL):
            continue
        asked.append(name)
        if verdict != PASS:
            beside.append(name)
            finding.readings.append(reading.id)
    if scene.sign("oil_foam"):
        beside.append("foam")
    finding.detail["beside"] = beside
    for name in beside:
        finding.say("net_oil_pressure.beside_" + name)
    if not beside and len(asked) == len(BESIDE):
        finding.say("net_oil_pressure.beside_nothing")


def _net(pump: Quantity, crankcase: Quantity) -> Measured:
    uncertainty = expanded([(1.0, pump.value, pump.doubt), (-1.0, crankcase.value, crankcase.doubt)])
    return Measured(pump.value - crankcase.value, uncertainty, max(pump.step, crankcase.step))


def _shown(unit: str) -> str:
    """Return the unit a difference is told in: gauge and absolute pounds are both psi."""
    return "psi" if unit in ("psig", "psia", "psi", "inHg_vac") else unit


def _limits(scene: Scene) -> "tuple[Limit, ...]":
    cut_out = scene.machine.oil_cut_out()
    low = (USUAL_CUT_OUT_PSI if cut_out is None else cut_out) + MARGIN_PSI
    watch = low if _slow(scene) else max(low, GOOD_PSI)
    return (
        Limit(WATCH, None, watch, "psi", NET),
        Limit(WATCH, HIGH_PSI, None, "psi", NET),
        Limit(FAIL, None, low, "psi", CUT_OUT),
    )


def _slow(scene: Scene) -> bool:
    """Return whether the motor turned below 45 Hz, where a pump makes less."""
    for point in ("drive_frequency", "line_frequency"):
        hertz = scene.newest(point)
        if hertz is not None and hertz.value is not None:
            return hertz.value.value < SLOW_HZ
    return False


def _trend(scene: Scene, scale: Scale) -> "list[Json]":
    """Return net pressure against seconds since the start, as far as both were read."""
    found = []
    for pump in scene.all("pump_pressure"):
        crankcase = scene.nearest("crankcase_pressure", pump, RUNNING)
        since = pump.number("since_start")
        if since is None or pump.value is None or crankcase is None or crankcase.value is None:
            continue
        found.append((since, scale.value(pump.value.value - crankcase.value.value)))
    return [{"since_start": since, "value": value} for since, value in sorted(found)]


def _too_early(finding: Finding, since: float) -> Finding:
    finding.verdict = CANNOT_TELL
    finding.fits = False
    finding.said = [("net_oil_pressure.too_early", {"value": finding.value, "unit": finding.unit, "seconds": since})]
    values = [point["value"] for point in finding.detail["trend"]]
    if len(values) > 1 and values[-1] < values[0]:
        finding.say("net_oil_pressure.falling", {"first": values[0], "last": values[-1], "unit": finding.unit})
    return finding


def _about(reading: Reading, scene: Scene) -> Finding:
    """Show what suction pressure would give, without a verdict: a filter or valve may stand between."""
    finding = cannot_tell(CHECK.name, [reading], "net_oil_pressure.no_crankcase", {}, ("crankcase_pressure",))
    finding.fits = False
    suction = scene.nearest("suction_pressure", reading, RUNNING)
    if suction is not None and suction.value is not None and reading.value is not None:
        scale = Scale("psi", _shown(reading.unit), True)
        about = scale.value(reading.value.value - suction.value.value)
        finding.detail["about"] = about
        finding.unit = scale.shown
        finding.readings.append(suction.id)
        finding.said = [("net_oil_pressure.about", {"value": about, "unit": scale.shown})]
    return finding


CHECK = Check(
    name="net_oil_pressure",
    reads=(
        "pump_pressure",
        "crankcase_pressure",
        "suction_pressure",
        "oil_level",
        "sump_temperature",
        "drive_frequency",
        "line_frequency",
    ),
    unit="psi",
    formula="pump outlet - crankcase",
    limits=LIMITS,
    sources=(NET, CUT_OUT),
    example={
        "machine": {"oil_control": {"cut_out": 9, "unit": "psi"}},
        "readings": [
            {"point": "pump_pressure", "value": "60", "unit": "psig", "state": "running"},
            {"point": "crankcase_pressure", "value": "20", "unit": "psig", "state": "running"},
        ],
        "value": 40.0,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, formula table: 60 - 20 = 40 psid",
    },
    find=find,
    difference=True,
)
