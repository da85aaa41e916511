"""Readings that can't be, or look like a slip: what looks wrong and what to do, said before a verdict misleads.

What one number alone shows (unreadable, beyond belief, wrong unit or state) is told by reading.py. Here a reading is
held against the machine, its fellows and the repair it should prove.
"""

from . import moment
from .call import Scene
from .kinds import Json
from .reading import Reading
from .slips import slips_of
from .suspect import Suspicion

DROPS = ("pole_drop", "fuse_drop", "joint_drop")
MEGOHMS = ("insulation_resistance", "cable_insulation_resistance")
REPAIRS = ("part_fitted", "cleaned", "setting_changed", "lead_restored")
# One pole may drop volts while it burns; all three at 5 V would be hundreds of watts each. Source: common practice.
DROP_AS_VOLTS = 5.0
# No contact, fuse or joint drops less than a millivolt with load current through it. Source: common practice.
DROP_AS_MILLIVOLTS = 0.001
# Line volts below this on every leg, read in millivolts, were volts. Source: common practice, no source.
LINE_AS_VOLTS = 1.0
# Rated current through a motor's copper takes a few percent of the volts, never half. Source: Ohm's law.
COPPER_SHARE = 0.5
# Ohms as near to the plate's volts as this were volts. Source: common practice, no source.
VOLTS_SHARE = 0.15
# Below this a megohm reading given in a smaller unit is looked at twice [ohm].
ONE_MEGOHM = 1.0e6
# Pairs that agree to this when renamed, and differ by more as named [V]. Source: common practice, no source.
SWAP_VOLTS = 3.0
SWAP_AGREES_VOLTS = 1.0
# A pump port this far below its crankcase is two gauges or hoses crossed [psi]. Source: common practice, no source.
CROSSED_PSI = 5.0


def suspicions_of(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """Return what looks wrong about a sound reading, the impossible first."""
    name = reading.point.name
    found: "list[Suspicion]" = []
    if name in DROPS:
        found = _drop_unit(reading)
    elif name in ("line_voltage", "load_voltage"):
        found = _line_in_millivolts(reading) + _swapped_pairs(reading, scene)
    elif name == "winding_resistance":
        found = _not_a_winding(reading, scene)
    elif name in MEGOHMS:
        found = _kilo_for_mega(reading)
    elif name == "pump_pressure":
        found = _crossed_oil_gauges(reading, scene)
    found = found + (slips_of(reading, scene) if not found else []) + _older_than_the_repair(reading, scene)
    return [one for one in found if one.impossible] + [one for one in found if not one.impossible]


def _drop_unit(reading: Reading) -> "list[Suspicion]":
    volts = [quantity.value for quantity in reading.quantities()]
    told = {"point": reading.point.name}
    if reading.unit == "V" and min(volts) >= DROP_AS_VOLTS:
        return [Suspicion("millivolts_meant", told, True)]
    if reading.unit == "mV" and 0 < max(volts) < DROP_AS_MILLIVOLTS:
        return [Suspicion("volts_meant", told, True)]
    return []


def _line_in_millivolts(reading: Reading) -> "list[Suspicion]":
    volts = [quantity.value for quantity in reading.quantities()]
    if reading.unit == "mV" and 0 < max(volts) < LINE_AS_VOLTS:
        return [Suspicion("volts_meant", {"point": reading.point.name}, True)]
    return []


def _swapped_pairs(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """Look for load volts that fit the line volts of that minute only when two pairs change names."""
    line = scene.nearest("line_voltage", reading, "running")
    if reading.point.name != "load_voltage" or line is None:
        return []
    load = [quantity.value for quantity in reading.quantities()]
    supply = [quantity.value for quantity in line.quantities()]
    if _largest_gap(supply, load) <= SWAP_VOLTS:
        return []
    for first, second in ((0, 1), (1, 2), (0, 2)):
        renamed = list(load)
        renamed[first], renamed[second] = load[second], load[first]
        if _largest_gap(supply, renamed) <= SWAP_AGREES_VOLTS:
            return [Suspicion("swapped", {"legs": [reading.legs[first][0], reading.legs[second][0]]}, False)]
    return []


def _largest_gap(one: "list[float]", other: "list[float]") -> float:
    return max([abs(left - right) for left, right in zip(one, other)])


def _not_a_winding(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """A winding whose rated current would need half the supply's volts is none: volts or milliohms were meant."""
    ohms = [quantity.value for quantity in reading.quantities() if not quantity.over_limit()]
    rated = scene.machine.rated_voltage()
    if not ohms or rated is None:
        return []
    amps = scene.machine.number("rated_load_current")
    copper = amps is not None and min(ohms) * amps > COPPER_SHARE * rated
    like_volts = max([abs(ohm - rated) for ohm in ohms]) <= VOLTS_SHARE * rated
    if copper or like_volts:
        return [Suspicion("not_a_winding", {"value": reading.legs[0][1].as_read, "unit": reading.unit}, True)]
    return []


def _kilo_for_mega(reading: Reading) -> "list[Suspicion]":
    quantity = reading.value
    if quantity is None or reading.unit == "Mohm" or quantity.over_limit() or quantity.value >= ONE_MEGOHM:
        return []
    return [Suspicion("mega_meant", {"value": quantity.as_read, "unit": reading.unit}, False)]


def _crossed_oil_gauges(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """A pump that has failed makes no pressure; it never pulls its port far below the crankcase it draws from."""
    crankcase = scene.nearest("crankcase_pressure", reading, "running")
    pump = reading.value
    if crankcase is None or crankcase.value is None or pump is None or reading.state != "running" or pump.bound:
        return []
    if crankcase.value.bound or pump.value >= crankcase.value.value - CROSSED_PSI:
        return []
    return [Suspicion("crossed_oil_gauges", {}, True)]


def _older_than_the_repair(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """An as-left reading from before every repair of the call proves none of them."""
    if scene.label != "as_left" or reading.at is None:
        return []
    times = [moment.seconds(action["at"]) for action in scene.call.actions if _is_repair(action)]
    repaired = [at for at in times if at is not None]
    if not repaired or reading.at >= min(repaired):
        return []
    return [Suspicion("before_the_repair", {"at": reading.raw.get("at")}, True)]


def _is_repair(action: Json) -> bool:
    return action.get("kind") in REPAIRS and isinstance(action.get("at"), str)
