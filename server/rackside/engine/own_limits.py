"""A machine's own limits, from its bulletin: they win over the defaults and are named as such."""

from . import units
from .call import Scene
from .check import Check
from .limits import FAIL, PUBLISHED, WATCH, Limit, Source
from .number import read_number

OWN = "this machine's own limit"


def limits_for(check: Check, scene: Scene, defaults: "tuple[Limit, ...]") -> "tuple[Limit, ...]":
    """Return the machine's own limits in the check's unit when it has any, else the defaults."""
    own = scene.machine.own_limits(check.name)
    if own is None or not _convertible(own["unit"], check):
        return defaults
    source = Source(own["source"], "", "", PUBLISHED)
    found = []
    for verdict in (WATCH, FAIL):
        bounds = own.get(verdict) or {}
        for side in ("above", "below"):
            number = read_number(bounds.get(side))
            if number is None:
                continue
            edge = _converted(number.value, own["unit"], check, scene.call.atmosphere)
            upward = (side == "above") != units.opposed(own["unit"], check.unit)
            above, below = (edge, None) if upward else (None, edge)
            found.append(Limit(verdict, above, below, check.unit, source, OWN))
    return tuple(found) or defaults


def has_own_limits(check: Check, scene: Scene) -> bool:
    """Return whether the machine's bulletin sets this check's limits."""
    own = scene.machine.own_limits(check.name)
    return own is not None and _convertible(own["unit"], check) and bool(own.get("watch") or own.get("fail"))


def unusable_unit(check: Check, scene: Scene) -> str:
    """Return the unit of own limits that can't be brought to the check's, "" when there is none in the way."""
    own = scene.machine.own_limits(check.name)
    if own is None or _convertible(own["unit"], check) or own["unit"] in [limit.unit for limit in check.limits]:
        return ""
    return str(own["unit"])


def _convertible(unit: str, check: Check) -> bool:
    return unit == check.unit or (units.dimension(unit) == units.dimension(check.unit) and units.dimension(unit) != "")


def _converted(value: float, unit: str, check: Check, atmosphere: float) -> float:
    if unit == check.unit:
        return value
    if check.difference:
        return units.span_from_base(units.span_to_base(value, unit), check.unit)
    return units.from_base(units.to_base(value, unit, atmosphere), check.unit, atmosphere)
