"""Slips of the pen: a number that fits the plate or its fellows only with its point moved or in another unit.

The limits here are judgement (common practice, no source): wide enough that no sound or faulty machine reads so.
"""

import math

from .call import Scene
from .physics.three_phase import mean
from .reading import Reading
from .suspect import Suspicion

AMPS = ("running_current", "half_current", "start_current", "drive_output_current")
ALIKE = ("line_voltage", "load_voltage", "line_ground_voltage", "winding_resistance") + AMPS
MOVED = (0.01, 0.1, 10.0, 100.0)
# With its point moved a leg fits its fellows to this, while those agree with each other as closely.
FITS = 0.03
# Not even an idling motor draws less of its rated amps; a start draws several times more.
LEAST_SHARE = 0.02
# Amps in mA are taken for A where the figure lies in this range of the rated amps.
MILLI_RANGE = (0.1, 12.0)
# Line to line over line to ground, and how near to it a reading is taken for the other one.
LINE_TO_GROUND = math.sqrt(3.0)
NEAR_SHARE = 0.06
# Ohms this many times off the published ones are in another unit: no fault is that even.
OHMS_RANGE = (0.02, 50.0)
MINUTE = 60.0
DELAY_SHARE = 0.5


def slips_of(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """Return what looks like a slip in a sound reading."""
    name = reading.point.name
    found: "list[Suspicion]" = []
    if name in AMPS:
        found = _amps(reading, scene)
    elif name == "winding_resistance":
        found = _ohms(reading, scene)
    elif name in ("line_voltage", "line_ground_voltage"):
        found = _other_pair(reading, scene)
    elif name == "line_frequency":
        found = _hertz(reading, scene)
    elif name == "trip_delay":
        found = _minutes(reading, scene)
    return found or _moved_point(reading)


def _amps(reading: Reading, scene: Scene) -> "list[Suspicion]":
    rated = scene.machine.number("rated_load_current")
    amps = [quantity.value for quantity in reading.quantities()]
    if rated is None or not amps or max(amps) <= 0:
        return []
    figure = reading.quantities()[0].as_read
    if reading.unit == "mA" and MILLI_RANGE[0] * rated <= figure <= MILLI_RANGE[1] * rated:
        return [Suspicion("milli", {"value": figure, "unit": "A"}, True)]
    told = {"point": reading.point.name, "value": figure, "unit": reading.unit}
    if max(amps) < LEAST_SHARE * rated:
        return [Suspicion("next_to_nothing", told, True)]
    locked = scene.machine.number("locked_rotor_current")
    if reading.state == "running" and locked is not None and min(amps) > locked:
        return [Suspicion("above_locked_rotor", told, False)]
    return []


def _ohms(reading: Reading, scene: Scene) -> "list[Suspicion]":
    published = scene.machine.number("winding_resistance_25c")
    if published is None or [quantity for quantity in reading.quantities() if quantity.bound]:
        return []
    share = mean([quantity.value for quantity in reading.quantities()]) / published
    if share <= 0 or OHMS_RANGE[0] <= share <= OHMS_RANGE[1]:
        return []
    figure = reading.quantities()[0].as_read
    told = {"value": figure, "unit": reading.unit, "published": published}
    return [Suspicion("other_ohms", told, True)]


def _other_pair(reading: Reading, scene: Scene) -> "list[Suspicion]":
    """Find line to ground volts entered as line to line, and the other way round."""
    nominal = scene.machine.part_number("supply", "nominal_voltage")
    wye = scene.machine.part("supply", "grounding") == "grounded-wye"
    if nominal is None or not wye:
        return []
    between = reading.point.name == "line_voltage"
    meant = nominal / LINE_TO_GROUND if between else nominal
    for quantity in reading.quantities():
        if abs(quantity.value - meant) > NEAR_SHARE * meant:
            return []
    key = "line_to_ground_meant" if between else "line_to_line_meant"
    figure = reading.quantities()[0].as_read
    return [Suspicion(key, {"value": figure, "unit": reading.unit, "nominal": nominal}, True)]


def _hertz(reading: Reading, scene: Scene) -> "list[Suspicion]":
    rated = scene.machine.number("rated_frequency")
    quantity = reading.value
    if rated is None or quantity is None or quantity.value <= 0 or quantity.bound:
        return []
    if not _moves_to(quantity.value, rated):
        return []
    return [Suspicion("moved_figure", {"value": quantity.as_read, "unit": reading.unit}, True)]


def _minutes(reading: Reading, scene: Scene) -> "list[Suspicion]":
    delay = scene.machine.part_number("oil_control", "delay")
    quantity = reading.value
    if delay is None or quantity is None or quantity.bound:
        return []
    if abs(MINUTE * quantity.value - delay) > DELAY_SHARE * delay:
        return []
    return [Suspicion("minutes", {"value": quantity.as_read}, False)]


def _moved_point(reading: Reading) -> "list[Suspicion]":
    """Find the one leg of three that fits its fellows only with its point moved."""
    legs = reading.legs
    if reading.point.name not in ALIKE or len(legs) != 3 or [leg for leg, quantity in legs if quantity.bound]:
        return []
    for index in range(3):
        others = [legs[place][1].value for place in range(3) if place != index]
        middle = mean(others)
        leg, quantity = legs[index]
        if middle > 0 and abs(others[0] - others[1]) <= FITS * middle and _moves_to(quantity.value, middle):
            return [Suspicion("moved_point", {"leg": leg, "value": quantity.as_read, "unit": reading.unit}, False)]
    return []


def _moves_to(value: float, wanted: float) -> bool:
    for factor in MOVED:
        if abs(factor * value - wanted) <= FITS * wanted:
            return True
    return False
