"""Do the valve plates hold?"""

from ..call import Scene
from ..carry import worse_of_both
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..limits import COMMON_PRACTICE, PUBLISHED, Source, lower, upper
from ..own_limits import limits_for
from ..reading import Quantity, Reading
from ..uncertainty import expanded
from ..units import from_base, span_from_base

PULL = Source("reciprocating machine alone on its suction valve: 20 to 26 inHg", "", "", COMMON_PRACTICE)
HOLD = Source("NAVEDTRA, Engineman", "discharge valve leak test: more than 3 psi/min is leakage", "", PUBLISHED)
VACUUM_LIMITS = lower(20.0, 15.0, "inHg_vac", PULL, "vacuum reached")
RISE_LIMITS = upper(3.0, 5.0, "psi/min", HOLD, "rise after the stop")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the vacuum reached, or how fast pressure comes back after the stop; the worse of the two carries."""
    refused = _refusal(reading, scene)
    if refused is not None or reading.value is None:
        return refused
    if reading.point.name == "pump_down_rise":
        finding = _rise(reading, reading.value, scene)
    else:
        finding = _vacuum(reading, reading.value, scene)
    finding.detail["point"] = reading.point.name
    return finding


def _refusal(reading: Reading, scene: Scene) -> "Finding | None":
    form = scene.machine.form()
    if scene.machine.word("refrigerant") == "R-744":
        return cannot_tell(CHECK.name, [reading], "pump_down.r744")
    if form in ("scroll", "screw"):
        return cannot_tell(CHECK.name, [reading], "pump_down." + form)
    if not form:
        return cannot_tell(CHECK.name, [reading], "pump_down.no_type", {}, ("machine type",))
    if scene.sign("oil_foam"):
        return cannot_tell(CHECK.name, [reading], "pump_down.foam")
    load = reading.option("load")
    if load not in (None, "", "full"):
        return cannot_tell(CHECK.name, [reading], "pump_down.unloaded")
    return None


def _vacuum(reading: Reading, vacuum: Quantity, scene: Scene) -> Finding:
    """Judge in inHg of vacuum and answer in the unit read."""
    atmosphere = scene.call.atmosphere
    uncertainty = expanded([(1.0, vacuum.value, vacuum.doubt)])
    measured = Measured(
        from_base(vacuum.value, "inHg_vac"),
        span_from_base(uncertainty, "inHg_vac"),
        span_from_base(vacuum.step, "inHg_vac"),
    )
    _bounded(measured, vacuum, vacuum.unit == "inHg_vac")
    scale = Scale("inHg_vac", reading.unit, False, atmosphere)
    return decided(CHECK, measured, scale, limits_for(CHECK, scene, VACUUM_LIMITS), [reading.id])


def _bounded(measured: Measured, quantity: Quantity, same_way: bool) -> None:
    """Open the interval of a value known only as a bound; a pressure's "<" is a vacuum's ">"."""
    measured.bound = quantity.bound
    if not quantity.bound:
        return
    if (quantity.bound == ">") == same_way:
        measured.high = None
    else:
        measured.low = None


def _rise(reading: Reading, rise: Quantity, scene: Scene) -> Finding:
    measured = Measured(rise.value, expanded([(1.0, rise.value, rise.doubt)]), rise.step)
    _bounded(measured, rise, True)
    scale = Scale("psi/min", "psi/min")
    finding = decided(CHECK_RISE, measured, scale, limits_for(CHECK_RISE, scene, RISE_LIMITS), [reading.id])
    key, values = finding.said[0]
    finding.said[0] = ("pump_down.rise_" + finding.verdict if key == "pump_down." + finding.verdict else key, values)
    return finding


_POINTS = ("pump_down_vacuum", "pump_down_rise")
_FORMULA = "vacuum reached with the suction valve shut; pressure rise per minute after the stop"
EXAMPLE: Json = {
    "machine": {"type": "semi-hermetic-reciprocating", "refrigerant": "R-448A"},
    "readings": [
        {"point": "pump_down_vacuum", "value": "25", "unit": "inHg_vac", "state": "running"},
        {"point": "pump_down_rise", "value": "2", "unit": "psi/min", "state": "stopped"},
    ],
    "unit": "psi/min",
    "value": 2.0,
    "tolerance": 1e-9,
    "verdict": "pass",
    "source": "handbook case F10: pulls 25 inHg and comes back 2 psi per minute",
}
CHECK_RISE = Check("pump_down", _POINTS, "psi/min", _FORMULA, RISE_LIMITS, EXAMPLE, find)
CHECK = Check(
    name="pump_down",
    reads=_POINTS,
    unit="inHg_vac",
    formula=_FORMULA,
    limits=VACUUM_LIMITS + RISE_LIMITS,
    sources=(PULL, HOLD),
    example=EXAMPLE,
    find=find,
    carry=worse_of_both,
    judges=_POINTS,
)
