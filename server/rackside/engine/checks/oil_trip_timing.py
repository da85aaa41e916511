"""Did the oil control wait as long as it should?"""

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FAIL, PASS, WATCH, Limit, Source
from ..own_limits import limits_for
from ..points.point import RUNNING
from ..reading import Reading
from ..uncertainty import expanded

NOMINAL = Source("oil control delay: nominal 120 s, 15 s either way", "", "", COMMON_PRACTICE)
LIMITS = (Limit(WATCH, None, 0.875, "ratio", NOMINAL), Limit(FAIL, 1.125, None, "ratio", NOMINAL))


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the time from the call for running to the trip against the control's delay."""
    delay = scene.machine.part_number("oil_control", "delay")
    if reading.value is None or delay is None:
        return cannot_tell(CHECK.name, [reading], "oil_trip_timing.no_delay", {}, ("machine oil_control delay",))
    seconds = reading.value
    uncertainty = expanded([(1.0 / delay, seconds.value, seconds.doubt)])
    measured = Measured(seconds.value / delay, uncertainty, seconds.step / delay)
    measured.low, measured.high = seconds.interval(uncertainty, measured.value)
    measured.bound = seconds.bound
    up = _pressure_was_up(seconds.value, scene)
    if up is not None and not seconds.bound:
        measured = _counted(seconds.value, up, delay, uncertainty)
    finding = decided(CHECK, measured, Scale("ratio", "ratio"), limits_for(CHECK, scene, LIMITS), [reading.id])
    finding.said[0][1].update({"seconds": measured.value * delay, "delay": delay})
    finding.detail["trip_delay"] = seconds.value
    if up is not None and finding.verdict != PASS:
        finding.say("oil_trip_timing.pressure_was_up", {"seconds": up[0]})
    return finding


def _counted(tripped: float, up: "tuple[float, float]", delay: float, uncertainty: float) -> Measured:
    """Return the time the control really counted, against its delay: from some moment between the two on."""
    least, most = (tripped - up[1]) / delay, (tripped - up[0]) / delay
    return Measured((least + most) / 2.0, (most - least) / 2.0 + uncertainty)


def _pressure_was_up(tripped: float, scene: Scene) -> "tuple[float, float] | None":
    """Return between which seconds after the start the pump's pressure was lost, None when it never was seen up.

    The control counts only while pressure is low, so its delay began between the two.
    """
    cut_out = scene.machine.oil_cut_out()
    if cut_out is None:
        return None
    up, low = None, tripped
    for pump in scene.all("pump_pressure"):
        since = pump.number("since_start")
        crankcase = scene.nearest("crankcase_pressure", pump, RUNNING)
        if since is None or since >= tripped or pump.value is None or crankcase is None or crankcase.value is None:
            continue
        if pump.value.value - crankcase.value.value > cut_out:
            up = since if up is None else max(up, since)
        else:
            low = min(low, since)
    return None if up is None else (up, max(up, low))


CHECK = Check(
    name="oil_trip_timing",
    reads=("trip_delay", "pump_pressure", "crankcase_pressure"),
    unit="ratio",
    formula="seconds from the call for running to the oil trip / the control's delay",
    limits=LIMITS,
    sources=(NOMINAL,),
    example={
        "machine": {"oil_control": {"cut_out": 9, "delay": 120, "unit": "psi"}},
        "readings": [{"point": "trip_delay", "value": "121", "unit": "s"}],
        "value": 1.0083333333333333,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "arithmetic on the handbook's case F7: 121 s on a 120 s control",
    },
    find=find,
)
