"""Every kind of reading the contract names, in the order of work."""

from ..kinds import Any
from . import drive, motor, oil, plant, running, supply
from .point import Point

POINTS: "tuple[Point, ...]" = supply.POINTS + motor.POINTS + running.POINTS + oil.POINTS + plant.POINTS + drive.POINTS
_BY_NAME = {point.name: point for point in POINTS}


def known_point(name: Any) -> "Point | None":
    """Return the point of that name, None for one the contract does not know."""
    return _BY_NAME.get(name) if isinstance(name, str) else None
