"""Is the sump warm enough to hold oil instead of refrigerant?"""

from .. import units
from ..call import Scene
from ..check import Check
from ..finding import Finding
from ..kinds import Json
from ..limits import COMMON_PRACTICE, FAIL, WATCH, Decision, Limit, Source, decide, rank
from ..own_limits import has_own_limits, limits_for
from ..reading import Quantity, Reading
from ..saturation import Saturation, compared, impossible, not_running, refusal
from ..uncertainty import expanded

DILUTION = Source(
    "sump 50 F over saturated suction and hand-warm; within 20 to 30 F it is diluted", "", "", COMMON_PRACTICE
)
SHELL = Source("bottom shell of a welded scroll", "", "", COMMON_PRACTICE)
OVER = (Limit(WATCH, None, 50.0, "F", DILUTION), Limit(FAIL, None, 30.0, "F", DILUTION))
SCROLL = (
    Limit(WATCH, None, 30.0, "F", SHELL, "scroll, bottom shell"),
    Limit(FAIL, None, 20.0, "F", SHELL, "scroll, bottom shell"),
)
# Of the sump's own temperature, not of the difference.
WARMTH = (
    Limit(WATCH, None, 80.0, "F", DILUTION, "the sump itself"),
    Limit(WATCH, 180.0, None, "F", DILUTION, "the sump itself"),
    Limit(FAIL, None, 60.0, "F", DILUTION, "the sump itself"),
)
USUAL_F = (20.0, 180.0)


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the running sump above the saturated suction, and its own warmth unless it is a scroll's shell."""
    if not_running(reading):
        return None
    saturation = Saturation(reading, "suction_pressure", "dew", scene)
    refused = refusal(CHECK.name, reading, saturation)
    if refused is not None or reading.value is None:
        return refused
    measured = saturation.over(reading.value)
    wrong = impossible(CHECK.name, measured, reading, saturation, USUAL_F, "sump_superheat.impossible")
    if wrong is not None:
        return wrong
    scroll = scene.machine.form() == "scroll"
    finding = compared(CHECK, measured, reading, saturation, limits_for(CHECK, scene, SCROLL if scroll else OVER))
    if not scroll and not has_own_limits(CHECK, scene):
        _judge_warmth(finding, reading.value)
    return finding


def _judge_warmth(finding: Finding, sump: Quantity) -> None:
    """Take the verdict of the sump's own temperature when it is the worse."""
    uncertainty = expanded([(1.0, sump.value, sump.doubt)])
    warmth = decide(sump.value - uncertainty, sump.value + uncertainty, WARMTH)
    finding.detail["sump_verdict"] = warmth.verdict
    if rank(warmth.verdict) > rank(finding.verdict):
        finding.verdict = warmth.verdict
        finding.said = [_spoken(sump, warmth)]


def _spoken(sump: Quantity, warmth: Decision) -> "tuple[str, Json]":
    edge = 0.0
    side = "cold"
    if warmth.limit is not None and warmth.limit.above is not None:
        side, edge = "hot", warmth.limit.above
    elif warmth.limit is not None and warmth.limit.below is not None:
        edge = warmth.limit.below
    values = {"value": sump.as_read, "unit": sump.unit, "limit": units.from_base(edge, sump.unit)}
    return "sump_superheat." + ("near" if warmth.verdict == "cannot_tell" else side), values


EXAMPLE: Json = {
    "machine": {"refrigerant": "R-448A", "type": "semi-hermetic-reciprocating"},
    "readings": [
        {"point": "sump_temperature", "value": "41", "unit": "F", "state": "running"},
        {"point": "suction_pressure", "value": "10", "unit": "psig", "state": "running"},
    ],
    "value": 60.22,
    "tolerance": 0.05,
    "verdict": "fail",
    "source": "handbook case F6: sump 41 F at 10 psig of R-448A (dew -19.2 F by CoolProp); far over suction, yet cold",
}
CHECK = Check(
    name="sump_superheat",
    reads=("sump_temperature", "suction_pressure"),
    unit="F",
    formula="sump - dew temperature at the suction pressure",
    limits=OVER + WARMTH + SCROLL,
    sources=(DILUTION, SHELL),
    example=EXAMPLE,
    find=find,
    difference=True,
)
