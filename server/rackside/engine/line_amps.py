"""The amps of the three lines, however they were read: as they are, or as the sum of two winding halves."""

import math

from .call import Scene
from .reading import Quantity, Reading
from .uncertainty import Doubt

CURRENTS = ("running_current", "half_current")
LINES = ("L1", "L2", "L3")


def line_amps(reading: Reading) -> "list[tuple[str, Quantity]]":
    """Return the legs of a reading of amps; the two halves of a part-winding motor add up by line."""
    if reading.point.name != "half_current":
        return reading.legs
    summed = []
    for line in LINES:
        one, other = reading.leg("1-" + line), reading.leg("2-" + line)
        if one is not None and other is not None:
            summed.append((line, _sum(one, other)))
    return summed


def amps_beside(reading: Reading, scene: Scene) -> "tuple[Reading | None, list[tuple[str, Quantity]]]":
    """Return the running amps taken nearest to another reading, and their lines; (None, []) when there are none.

    A reading on the contactor of one half of a part-winding motor (`half` 1 or 2) goes with the amps of that half.
    """
    half = reading.number("half")
    if half:
        found = scene.nearest("half_current", reading, "running")
        prefix = "1-" if half == 1 else "2-"
        legs = [(leg[2:], quantity) for leg, quantity in found.legs if leg.startswith(prefix)] if found else []
        return found, legs
    for point in CURRENTS:
        found = scene.nearest(point, reading, "running")
        if found is not None:
            return found, line_amps(found)
    return None, []


def rated_share(reading: Reading) -> float:
    """Return the share of rated load current that passes where a reading was taken: half of it in one winding half."""
    return 0.5 if reading.number("half") else 1.0


def _sum(one: Quantity, other: Quantity) -> Quantity:
    own = math.sqrt(one.doubt.own * one.doubt.own + other.doubt.own * other.doubt.own)
    shared, group = one.doubt.shared, one.doubt.group
    if group != other.doubt.group:
        ends = (one.value * one.doubt.shared, other.value * other.doubt.shared)
        own = math.sqrt(own * own + ends[0] * ends[0] + ends[1] * ends[1])
        shared, group = 0.0, ""
    doubt = Doubt(own, shared, group)
    bound = one.bound or other.bound
    return Quantity(one.value + other.value, one.step, bound, doubt, one.unit, one.as_read + other.as_read)
