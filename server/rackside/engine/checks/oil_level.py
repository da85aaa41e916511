"""Is there oil, and not too much?"""

from .. import moment
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import CANNOT_TELL, COMMON_PRACTICE, FAIL, WATCH, Limit, Source
from ..own_limits import has_own_limits, limits_for
from ..reading import Quantity, Reading
from ..side import say_side
from ..uncertainty import expanded

GLASS = Source("glass between a quarter and three quarters, target half", "", "", COMMON_PRACTICE)
LIMITS = (
    Limit(WATCH, None, 0.25, "fraction", GLASS),
    Limit(WATCH, 0.75, None, "fraction", GLASS),
    Limit(FAIL, None, 0.125, "fraction", GLASS),
)
# Half an eighth below the top the glass counts as full: no line is left to see.
FULL = Limit(FAIL, 0.9375, None, "fraction", GLASS, "full: no line left to see")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the glass; a glass without a line to be seen may be full or empty."""
    if reading.value is None:
        return None
    if _line_not_seen(reading, reading.value, scene):
        return cannot_tell(CHECK.name, [reading], "oil_level.line_not_seen")
    level = reading.value
    uncertainty = expanded([(1.0, level.value, level.doubt)])
    measured = Measured(level.value, uncertainty, level.step)
    if level.bound:
        measured.low, measured.high = _between_marks(level)
        measured.bound = level.bound
    own = has_own_limits(CHECK, scene)
    finding = decided(CHECK, measured, Scale("fraction", "fraction"), limits_for(CHECK, scene, LIMITS), [reading.id])
    if not own:
        finding.limits.append(Scale("fraction", "fraction").limit(FULL))
    if not own and not level.bound and FULL.above is not None and level.value > FULL.above:
        finding.verdict = FAIL
        finding.said = [("oil_level.full", {})]
    return _spoken(say_side(finding, ("watch_low", "watch_high")), level)


def _spoken(finding: Finding, level: Quantity) -> Finding:
    """Say in the glass's own words what its eighths can't tell apart, and which side of a mark was seen."""
    key, values = finding.said[0]
    if level.bound and finding.verdict in (WATCH, FAIL):
        side = "high" if level.bound == ">" else "low"
        finding.said = [("oil_level." + finding.verdict + ("_" + side if finding.verdict == WATCH else ""), values)]
    elif not key.startswith("oil_level.") or finding.verdict == CANNOT_TELL:
        finding.said = [("oil_level.near", values)]
    return finding


def _between_marks(level: Quantity) -> "tuple[float, float]":
    """Return where a level seen below or above a mark lies: not at the mark itself."""
    if level.bound == "<":
        return 0.0, level.value - 1e-9
    return level.value + 1e-9, 1.0


def _line_not_seen(reading: Reading, level: Quantity, scene: Scene) -> bool:
    """Return whether the sign holds for this reading: a later level between the ends shows that a line was seen."""
    if not scene.sign("oil_line_not_seen"):
        return False
    seen_at = None
    for sign in scene.call.case.get("signs") or []:
        if sign["sign"] == "oil_line_not_seen" and isinstance(sign.get("at"), str):
            seen_at = moment.seconds(sign["at"])
    later = reading.at is not None and seen_at is not None and reading.at > seen_at
    return not (later and 0.0 < level.value < 1.0)


CHECK = Check(
    name="oil_level",
    reads=("oil_level",),
    unit="fraction",
    formula="height of the oil line in the glass, read to an eighth",
    limits=LIMITS + (FULL,),
    sources=(GLASS,),
    example={
        "readings": [{"point": "oil_level", "value": "<0.125", "unit": "fraction", "state": "running"}],
        "value": 0.125,
        "tolerance": 1e-9,
        "verdict": "fail",
        "source": "handbook case F4: glass of B1 below an eighth",
    },
    find=find,
)
