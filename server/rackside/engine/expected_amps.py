"""What amps a machine should draw at this minute: by its rating map, or by the like machine beside it."""

from . import units
from .call import Scene
from .kinds import Json
from .line_amps import CURRENTS, line_amps
from .physics.rating_map import RatingMap, rating_map
from .physics.three_phase import mean
from .reading import Reading
from .saturation import Saturation
from .uncertainty import Doubt

FULL = "full"
# A neighbour's amps read further apart than this are of another minute. Source: common practice, no source.
SAME_TIME_SECONDS = 900.0


class Expected:
    """Mean amps expected, with what they rest on.

    amps [A]; parts: (sensitivity of amps, value, doubt) of what was read for it; by: "map" or "twin".
    """

    def __init__(self, amps: float, parts: "list[tuple[float, float, Doubt]]", readings: "list[str]", by: str) -> None:
        self.amps = amps
        self.parts = parts
        self.readings = readings
        self.by = by
        self.detail: Json = {}


class Unknown:
    """Why no amps can be expected: a sentence key with its values, and what is missing."""

    def __init__(self, key: str, values: Json, missing: "tuple[str, ...]" = ()) -> None:
        self.key = key
        self.values = values
        self.missing = missing


def by_map(reading: Reading, scene: Scene) -> "Expected | Unknown":
    """Return the map's amps at the dew temperatures of suction and discharge, times plate over actual volts."""
    ratings: Json = scene.machine.raw.get("ratings") or {}
    current = rating_map(ratings, "current")
    unready = _unready(reading, scene, current)
    if unready is not None or current is None:
        return unready or Unknown("expected.no_map", {})
    suction = Saturation(reading, "suction_pressure", "dew", scene)
    discharge = Saturation(reading, "discharge_pressure", "dew", scene)
    for side in (suction, discharge):
        if side.fahrenheit is None:
            return Unknown(side.why[0], side.why[1], side.missing)
    volts = scene.nearest("line_voltage", reading, "running")
    rated = scene.machine.part_number("ratings", "rated_voltage") or scene.machine.rated_voltage()
    actual = mean([quantity.value for quantity in volts.quantities()]) if volts is not None else 0.0
    if volts is None or rated is None or actual <= 0:
        missing = ("machine rated_voltage",) if rated is None else ("line_voltage",)
        return Unknown("expected.no_volts", {"needs": list(missing)}, missing)
    return _scaled(current, ratings, (suction, discharge), volts, rated / actual)


def _unready(reading: Reading, scene: Scene, current: "RatingMap | None") -> "Unknown | None":
    if current is None:
        return Unknown("expected.no_map", {}, ("machine ratings.current", "running_current of a like twin"))
    if scene.machine.word("start") == "drive":
        return Unknown("expected.drive", {}, ("running_current of a like twin",))
    load = _load(reading, scene)
    if load != FULL:
        return Unknown("expected.not_full" if load else "expected.no_load", {"load": load}, ("load",))
    return None


def _load(reading: Reading, scene: Scene) -> str:
    """Return the load a reading was taken at; a welded machine without steps is always full."""
    stated = reading.option("load")
    if stated:
        return str(stated)
    if scene.sign("commanded_unloaded"):
        return "unloaded"
    fixed = scene.machine.kind() == "welded" and not scene.machine.raw.get("capacity_steps")
    return FULL if fixed else ""


def _scaled(
    current: RatingMap, ratings: Json, sides: "tuple[Saturation, Saturation]", volts: Reading, scale: float
) -> "Expected | Unknown":
    unit = str(ratings.get("temperature_unit"))
    at = [units.from_base(side.fahrenheit or 0.0, unit) for side in sides]
    outside = current.outside(at[0], at[1])
    if outside:
        return Unknown("expected.outside_envelope", {"sides": list(outside)})
    amps = scale * current.value(at[0], at[1])
    if amps <= 0:
        return Unknown("expected.outside_envelope", {"sides": ["suction", "discharge"]})
    per_degree = units.span_from_base(1.0, unit)
    parts: "list[tuple[float, float, Doubt]]" = []
    readings = [volts.id]
    for side, slope in zip(sides, current.slopes(at[0], at[1])):
        assert side.pressure is not None and side.pressure.value is not None
        pressure = side.pressure.value
        parts.append((scale * slope * per_degree * side.slope, pressure.value, pressure.doubt))
        readings.append(side.pressure.id)
    legs = volts.quantities()
    actual = mean([quantity.value for quantity in legs])
    for quantity in legs:
        parts.append((-amps / (actual * len(legs)), quantity.value, quantity.doubt))
    expected = Expected(amps, parts, readings, "map")
    expected.detail = {"suction_dew": at[0], "discharge_dew": at[1], "temperature_unit": unit}
    expected.detail["envelope_known"] = None not in current.envelope
    return expected


def by_twin(reading: Reading, scene: Scene) -> "Expected | None":
    """Return the mean amps of a like machine running at like load, None when none was read at that time."""
    chosen: "Reading | None" = None
    for other in _twin_readings(scene):
        if other.point.name not in CURRENTS or not other.sound() or not _like_load(reading, other):
            continue
        if _apart(reading, other) > SAME_TIME_SECONDS:
            continue
        if chosen is None or _apart(reading, other) <= _apart(reading, chosen):
            chosen = other
    legs = line_amps(chosen) if chosen is not None else []
    amps = mean([quantity.value for _, quantity in legs]) if legs else 0.0
    if chosen is None or amps <= 0:
        return None
    parts = [(1.0 / len(legs), quantity.value, quantity.doubt) for _, quantity in legs]
    return Expected(amps, parts, [chosen.id], "twin")


def _twin_readings(scene: Scene) -> "list[Reading]":
    found = [reading for reading in scene.round.readings if reading.option("twin")]
    for raw, readings in scene.call.neighbours:
        if raw.get("like") is True and raw.get("running") is True:
            found.extend(readings)
    return found


def _like_load(one: Reading, other: Reading) -> bool:
    """Return whether two loads are alike; one that was not stated is taken as the other."""
    loads = (one.option("load"), other.option("load"))
    return loads[0] == loads[1] or None in loads


def _apart(one: Reading, other: Reading) -> float:
    return abs(one.at - other.at) if one.at is not None and other.at is not None else 0.0
