"""Does it start too often?"""

from .. import moment
from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..kinds import Json
from ..limits import COMMON_PRACTICE, FAIL, WATCH, Limit, Source
from ..own_limits import limits_for
from ..reading import Reading

MAKERS = Source("makers' bulletins and trade practice on starts per hour", "", "", COMMON_PRACTICE)
# Kind of machine, most starts an hour to pass, most to watch. Source: CHECKS.md, start_rate.
RATES = (("semi-hermetic", 6.0, 10.0), ("welded", 10.0, 12.0), ("screw", 4.0, 6.0))
HOUR = 3600.0
NOBODY = ("", "unknown")


def _limits(kind: str, watch: float, fail: float) -> "tuple[Limit, ...]":
    return (Limit(WATCH, watch, None, "count", MAKERS, kind), Limit(FAIL, fail, None, "count", MAKERS, kind))


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the starts of the last hour, less those the technician made, by the kind of machine."""
    kind = _kind(scene)
    if not kind:
        return cannot_tell(CHECK.name, [reading], "start_rate.no_type", {}, ("machine type",))
    counted = reading.value
    if counted is None or counted.bound:
        return cannot_tell(CHECK.name, [reading], "reading.only_a_bound", {"point": reading.point.name})
    own = _own_starts(reading, scene)
    # Starts are counted, not measured: the number has no doubt.
    measured = Measured(max(0.0, counted.value - own), 0.0)
    rows = [row for row in RATES if row[0] == kind]
    limits = limits_for(CHECK, scene, _limits(*rows[0]))
    finding = decided(CHECK, measured, Scale("count", "count"), limits, [reading.id])
    finding.detail.update({"counted": counted.value, "own_starts": own})
    return finding


def _kind(scene: Scene) -> str:
    if scene.machine.form() == "screw":
        return "screw"
    kind = scene.machine.kind()
    return "semi-hermetic" if kind == "open" else kind


def _own_starts(reading: Reading, scene: Scene) -> int:
    """Return how many starts of the hour up to the reading were written down as somebody's own."""
    until = reading.at if reading.at is not None else scene.call.now
    if until is None:
        return 0
    return len([event for event in scene.call.events if _own(event, until, str(reading.option("by") or ""))])


def _own(event: Json, until: float, by: str) -> bool:
    """Return whether a start in the hour is on record as made by the person who read the count, or by a person."""
    name = event.get("by") or ""
    if event.get("what") != "start" or name in NOBODY or not isinstance(event.get("at"), str):
        return False
    if by and name != by:
        return False
    at = moment.seconds(event["at"])
    return at is not None and until - HOUR <= at <= until


CHECK = Check(
    name="start_rate",
    reads=("starts_last_hour",),
    unit="count",
    formula="starts in the last hour, the technician's own not counted",
    limits=_limits(*RATES[0]) + _limits(*RATES[1]) + _limits(*RATES[2]),
    sources=(MAKERS,),
    example={
        "machine": {"type": "semi-hermetic-reciprocating"},
        "readings": [{"point": "starts_last_hour", "value": "8"}],
        "value": 8.0,
        "tolerance": 0.0,
        "verdict": "watch",
        "source": "handbook A9: not above 6 to 8 starts an hour for large semi-hermetics, makers' limit about 10 to 12",
    },
    find=find,
)
