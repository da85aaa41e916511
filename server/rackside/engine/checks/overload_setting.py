"""Does the overload relay trip where it must, and not before?"""

import math

from ..call import Scene
from ..check import Check, Measured, decided
from ..finding import Finding, Scale, cannot_tell
from ..limits import COMMON_PRACTICE, FAIL, FROM_MEMORY, PUBLISHED, WATCH, Limit, Source
from ..line_amps import CURRENTS, line_amps
from ..own_limits import limits_for
from ..reading import Reading

NEC_TRIP = Source(
    "NEC (NFPA 70)", "440.52(A)(1): trip at not more than 140 % of rated load current", "2020", FROM_MEMORY
)
PLATE = Source("this machine's plate: maximum continuous current", "", "", PUBLISHED)
DIAL = Source("a dial below rated load current trips a sound motor", "", "", COMMON_PRACTICE)
DRAWING = Source("this machine's drawing: overload setting, 5 % either way", "", "", COMMON_PRACTICE)
RUNNING = Source("running current read in this call", "", "", COMMON_PRACTICE)
TRIP_PERCENT = 140.0
# A relay trips at this times its dial unless its own factor is known. Source: CHECKS.md (common practice, no source).
TRIP_FACTOR = 1.2
OFF_DRAWING = 0.05
# What the relay sees of the line current. Source: circuit theory (half of a part-winding; the phase of a delta).
PLACES = (("line", 1.0), ("half", 2.0), ("delta", math.sqrt(3.0)))
LIMITS = (
    Limit(WATCH, None, 100.0, "%", DIAL),
    Limit(FAIL, TRIP_PERCENT / TRIP_FACTOR, None, "%", NEC_TRIP, "dial whose trip at 1.2 x dial is 140 %"),
)
NO_RELAY = ("no overload relay here", "does not apply to this machine")


def find(reading: Reading, scene: Scene) -> "Finding | None":
    """Judge the dial, as line current, in percent of rated load current."""
    rated = scene.machine.number("rated_load_current")
    dial = reading.value
    if rated is None or dial is None:
        return cannot_tell(CHECK.name, [reading], "overload_setting.no_plate", {}, ("machine rated_load_current",))
    factor = _line_factor(scene)
    trip_factor = scene.machine.part_number("overload", "trip_factor") or TRIP_FACTOR
    equivalent = dial.value * factor
    # A dial is set to a mark, not measured: it carries no doubt of its own.
    measured = Measured(100.0 * equivalent / rated, 0.0)
    running, ids = _running(scene)
    limits = limits_for(CHECK, scene, _limits(scene, rated, factor, trip_factor, running))
    finding = decided(CHECK, measured, Scale("%", "%"), limits, [reading.id] + ids)
    finding.detail.update({"equivalent_dial": equivalent, "trip": equivalent * trip_factor, "unit": "A"})
    finding.detail["trip_percent"] = 100.0 * equivalent * trip_factor / rated
    finding.said = [_said(finding, scene, equivalent, rated, running, trip_factor)]
    return finding


def _line_factor(scene: Scene) -> float:
    place = scene.machine.part("overload", "place") or "line"
    ratio = scene.machine.part_number("overload", "ratio") or 1.0
    for name, factor in PLACES:
        if name == place:
            return factor * ratio
    return ratio


def _limits(
    scene: Scene, rated: float, factor: float, trip_factor: float, running: "float | None"
) -> "tuple[Limit, ...]":
    """Return all limits as dial in percent of rated load current."""
    found = [LIMITS[0], Limit(FAIL, TRIP_PERCENT / trip_factor, None, "%", NEC_TRIP, "trip")]
    most = scene.machine.number("max_continuous_current")
    if most is not None:
        found.append(Limit(FAIL, 100.0 * most / (trip_factor * rated), None, "%", PLATE, "trip"))
    drawn = scene.machine.number("overload_setting")
    if drawn is not None:
        share = 100.0 * drawn * factor / rated
        found.append(Limit(WATCH, None, share * (1.0 - OFF_DRAWING), "%", DRAWING))
        found.append(Limit(WATCH, share * (1.0 + OFF_DRAWING), None, "%", DRAWING))
    if running is not None:
        found.append(Limit(FAIL, None, 100.0 * running / rated, "%", RUNNING))
    return tuple(found)


def _running(scene: Scene) -> "tuple[float | None, list[str]]":
    """Return the highest running current of a line read in this call [A], and the reading it is from."""
    highest: "float | None" = None
    ids: "list[str]" = []
    for round_ in scene.call.rounds:
        for reading in round_.readings:
            if reading.point.name not in CURRENTS or not reading.sound() or reading.option("twin"):
                continue
            if reading.state not in ("", "running"):
                continue
            for _, amps in line_amps(reading):
                tied = amps.value == highest and reading.id < ids[0]
                if highest is None or amps.value > highest or tied:
                    highest, ids = amps.value, [reading.id]
    return highest, ids


def _said(
    finding: Finding, scene: Scene, equivalent: float, rated: float, running: "float | None", trip_factor: float
) -> "tuple[str, dict[str, object]]":
    values: "dict[str, object]" = {
        "value": finding.value,
        "equivalent": equivalent,
        "trip": equivalent * trip_factor,
        "rated": rated,
        "running": running,
        "drawn": scene.machine.number("overload_setting"),
    }
    if finding.verdict == FAIL:
        low = running is not None and equivalent < running
        return ("overload_setting." + ("below_running" if low else "trips_late"), values)
    if finding.verdict == WATCH:
        return ("overload_setting." + ("below_rated" if equivalent < rated else "off_drawing"), values)
    return ("overload_setting." + finding.verdict, values)


def without_relay(reading: Reading) -> "Finding | None":
    """Take "no overload relay here" as the answer it is."""
    if reading.not_taken.strip().rstrip(".").lower() not in NO_RELAY:
        return None
    return Finding(CHECK.name, "pass", [reading.id]).say("overload_setting.no_relay")


CHECK = Check(
    name="overload_setting",
    reads=("overload_dial", "running_current", "half_current"),
    unit="%",
    formula="100 x dial x place factor x ratio / rated load current; trip = that x 1.2 or the relay's own factor",
    limits=LIMITS,
    sources=(NEC_TRIP, PLATE, DIAL, DRAWING, RUNNING),
    example={
        "machine": {"rated_load_current": 34.0, "max_continuous_current": 47.6, "overload_setting": 38},
        "readings": [{"point": "overload_dial", "value": "38", "unit": "A", "state": "isolated"}],
        "value": 111.76470588235294,
        "tolerance": 1e-9,
        "verdict": "pass",
        "source": "handbook, case F1: 38 A on the drawing, 140 % of 34.0 A is 47.6 A; 38 A trips at 45.6 A",
    },
    find=find,
    untaken=without_relay,
)
