"""Does the like machine beside show the same?"""

from ..call import Call
from ..physics.three_phase import unbalance
from ..reading import Reading
from .found_phase import FoundPhase

# Amps further apart than this have a pattern to compare. Source: HANDBOOK.md, A11 (5 % good); the rest is judgement.
PATTERN_PERCENT = 5.0
# Discharge lines of like machines stay within this. Source: HANDBOOK.md, B8 (J).
LIKE_HEAT_F = 15.0


def like_label(call: Call, phase: FoundPhase, readings: "list[Reading]") -> "tuple[str, Reading | None]":
    """Return ("same" or "differs", own reading) when the machine beside can be compared, else ("", None)."""
    others = phase.twins()
    for raw, theirs in call.neighbours:
        if raw.get("like") and raw.get("running"):
            others = others + [reading for reading in theirs if reading.sound()]
    for point in ("running_current", "discharge_temperature"):
        mine = [reading for reading in readings if reading.point.name == point and not reading.option("roll")]
        their = [reading for reading in others if reading.point.name == point]
        label = ""
        if mine and their:
            label = _currents(mine[0], their[0]) if point == "running_current" else _heats(mine[0], their[0])
        if label:
            return label, mine[0]
    return "", None


def _currents(mine: Reading, theirs: Reading) -> str:
    own = [quantity.value for quantity in mine.quantities()]
    other = [quantity.value for quantity in theirs.quantities()]
    if min(own + other) <= 0 or len(own) != len(other) or unbalance(own)[0] <= PATTERN_PERCENT:
        return ""
    same_leg = own.index(max(own)) == other.index(max(other))
    return "same" if same_leg and unbalance(other)[0] > PATTERN_PERCENT else "differs"


def _heats(mine: Reading, theirs: Reading) -> str:
    if mine.value is None or theirs.value is None:
        return ""
    return "differs" if mine.value.value - theirs.value.value > LIKE_HEAT_F else "same"
