"""What a finding tells of one leg: its value as read, how far it stands off, and the number its limits are for."""

from .kinds import Json
from .physics.three_phase import mean
from .reading import Quantity


def leg_json(leg: str, quantity: Quantity, verdict: str, deviation: "float | None" = None, unit: str = "%") -> Json:
    """Return a leg; `deviation` is left out where it has no meaning, the value where the meter showed none."""
    told: Json = {"leg": leg, "value": None if quantity.over_limit() else quantity.as_read, "unit": quantity.unit}
    if deviation is not None:
        told["deviation"] = deviation
        told["deviation_unit"] = unit
    told["verdict"] = verdict
    return told


def judged_leg(told: Json, judged: float, uncertainty: float) -> Json:
    """Add to a leg the number that is held against the limits, with its doubt, in the finding's unit."""
    told["judged"] = judged
    told["uncertainty"] = uncertainty
    return told


def from_mean(value: float, values: "list[float]") -> "float | None":
    """Return how far a value stands from the mean of all [%], None when there is no mean to depart from."""
    middle = mean(values)
    return 100.0 * (value - middle) / middle if middle > 0 else None
