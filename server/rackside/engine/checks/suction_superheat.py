"""Does dry gas, and not too hot, come back to the compressor?"""

from ..call import Round, Scene
from ..check import Check
from ..finding import Finding, Scale
from ..kinds import Json
from ..limits import COMMON_PRACTICE, FAIL, WATCH, Limit, Source
from ..own_limits import has_own_limits, limits_for
from ..reading import Reading
from ..saturation import (
    Saturation,
    application_of,
    compared,
    hint_at_units,
    impossible,
    not_running,
    refusal,
    tell_application,
)
from ..side import say_side

RETURN_GAS = Source(
    "superheat at the compressor: 20 to 40 F usual, 20 F at least on low temperature", "", "", COMMON_PRACTICE
)
CO2 = Source("R-744 return gas practice", "", "", COMMON_PRACTICE)
FLOOD = Limit(FAIL, None, 10.0, "F", RETURN_GAS, "liquid may be coming back")
LOW = (Limit(WATCH, None, 20.0, "F", RETURN_GAS, "low"), Limit(WATCH, 60.0, None, "F", RETURN_GAS, "low"), FLOOD)
WARMER = (
    Limit(WATCH, None, 15.0, "F", RETURN_GAS, "medium, high"),
    Limit(WATCH, 40.0, None, "F", RETURN_GAS, "medium, high"),
    FLOOD,
)
R744 = (Limit(WATCH, 36.0, None, "F", CO2, "R-744"), Limit(FAIL, None, 10.0, "F", CO2, "R-744"))
FROM_TEN = ("scroll", "screw")
APART_SECONDS = 300.0
USUAL_F = (5.0, 60.0)
# Hotter than this a wrong unit is likelier than hot gas. Source: common practice, no source.
VERY_HOT_F = 75.0
# Units that gauges show both from vacuum and from the air's pressure, and what fits then is worth a word.
MIXED_UP = ("psia", "kPa", "bar")
GAUGE_OR_ABSOLUTE = ("suspicion.gauge", "suspicion.absolute")
USUAL_PASS_F = (15.0, 45.0)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the suction line above its dew temperature; too little counts as a fail only when it is confirmed."""
    if not_running(reading):
        return None
    saturation = Saturation(reading, "suction_pressure", "dew", scene)
    refused = refusal(CHECK.name, reading, saturation)
    if refused is not None or reading.value is None or saturation.fahrenheit is None:
        return refused
    measured = saturation.over(reading.value)
    wrong = impossible(CHECK.name, measured, reading, saturation, USUAL_F, "suction_superheat.impossible")
    if wrong is not None:
        return wrong
    application, assumed = application_of(scene, saturation.fahrenheit)
    limits = limits_for(CHECK, scene, _limits(scene, application))
    confirmed = _confirmed(reading, scene, limits)
    finding = compared(CHECK, measured, reading, saturation, limits if confirmed else _without_fail(limits))
    finding.limits = [Scale("F", reading.unit, True).limit(limit) for limit in limits]
    say_side(finding, ("watch_low", "watch_high"))
    if not confirmed and _below_fail(measured.value, limits):
        finding.said[0] = ("suction_superheat.unconfirmed", finding.said[0][1])
    if limits is not R744 and not has_own_limits(CHECK, scene):
        tell_application(finding, application, assumed, finding.detail["saturated"], reading.unit)
    if measured.value > VERY_HOT_F:
        hint_at_units(finding, reading, saturation, USUAL_F)
    elif finding.verdict in (WATCH, FAIL) and saturation.pressure is not None and saturation.pressure.unit in MIXED_UP:
        hint_at_units(finding, reading, saturation, USUAL_PASS_F, GAUGE_OR_ABSOLUTE)
    return finding


def _limits(scene: Scene, application: str) -> "tuple[Limit, ...]":
    if scene.machine.word("refrigerant") == "R-744":
        return R744
    limits = LOW if application == "low" else WARMER
    if scene.machine.form() in FROM_TEN:
        return tuple([limit for limit in limits if limit.above is not None or limit.verdict == FAIL])
    return limits


def _without_fail(limits: "tuple[Limit, ...]") -> "tuple[Limit, ...]":
    """Return the limits of a superheat seen once: what would be a fail for liquid is a watch."""
    return tuple([_once(limit) for limit in limits])


def _once(limit: Limit) -> Limit:
    if limit.verdict == FAIL and limit.below is not None:
        return Limit(WATCH, None, limit.below, limit.unit, limit.source, limit.when)
    return limit


def _below_fail(value: float, limits: "tuple[Limit, ...]") -> bool:
    return any(limit.verdict == FAIL and limit.below is not None and value < limit.below for limit in limits)


def _confirmed(reading: Reading, scene: Scene, limits: "tuple[Limit, ...]") -> bool:
    """Return whether the sump beside it or another reading at least 5 min apart says the same."""
    for sump in scene.all("sump_temperature"):
        if scene.verdict_of("sump_superheat", sump) in (WATCH, FAIL):
            return True
    for round_ in scene.call.rounds:
        if _again(reading, Scene(scene.call, round_), round_, limits):
            return True
    return False


def _again(reading: Reading, scene: Scene, round_: Round, limits: "tuple[Limit, ...]") -> bool:
    for other in scene.all("suction_temperature"):
        if reading.at is None or other.at is None or abs(other.at - reading.at) < APART_SECONDS or not_running(other):
            continue
        saturation = Saturation(other, "suction_pressure", "dew", scene)
        if other.value is None or saturation.fahrenheit is None or other.option("probe") == "infrared":
            continue
        if _below_fail(saturation.over(other.value).value, limits):
            return True
    return False


EXAMPLE: Json = {
    "machine": {"refrigerant": "R-404A", "application": "low", "type": "semi-hermetic-reciprocating"},
    "readings": [
        {"point": "suction_temperature", "value": "20", "unit": "F", "state": "running"},
        {"point": "suction_pressure", "value": "33", "unit": "psig", "state": "running"},
    ],
    "value": 19.6,
    "tolerance": 0.1,
    "verdict": "watch",
    "source": "check values 9.45: R-404A at 33 psig, dew 0.4 F by CoolProp 8.0.0, superheat 19.6 F",
}
CHECK = Check(
    name="suction_superheat",
    reads=("suction_temperature", "suction_pressure", "sump_temperature"),
    unit="F",
    formula="suction line - dew temperature at the suction pressure",
    limits=LOW + WARMER[:2] + R744,
    sources=(RETURN_GAS, CO2),
    example=EXAMPLE,
    find=find,
    difference=True,
)
