"""Readings of the electrical points, short to write, and the finding of one check on them."""

from typing import Any

from rackside.engine.points import known_point
from tests.engine.judging import finding, judge

MACHINE: dict[str, Any] = {
    "type": "semi-hermetic-reciprocating",
    "rated_voltage": 460,
    "rated_frequency": 60,
    "rated_load_current": 34.0,
    "max_continuous_current": 47.6,
    "winding_resistance_25c": 0.525,
    "coil_voltage": 120,
    "start": "across-the-line",
    "supply": {"nominal_voltage": 480, "grounding": "grounded-wye"},
}


def legs(point: str, *values: str, unit: str = "", **more: Any) -> dict[str, Any]:
    """Return a reading with a value per leg, in the point's usual unit and its first state but isolated."""
    record = known_point(point)
    assert record is not None
    assert len(values) == len(record.keys)
    told = {"point": point, "legs": dict(zip(record.keys, values, strict=True)), "unit": unit or record.units[0]}
    return {**told, "state": record.states[-1], **more}


def value(point: str, read: Any, unit: str = "", **more: Any) -> dict[str, Any]:
    record = known_point(point)
    assert record is not None
    told = {"point": point, "value": read, **({"unit": unit or record.units[0]} if record.units else {})}
    return {**told, "state": record.states[-1], **more}


def found(check: str, *readings: dict[str, Any], machine: dict[str, Any] | None = None, **more: Any) -> dict[str, Any]:
    """Return the carrying finding of a check on readings of one round."""
    return finding(judge(MACHINE if machine is None else machine, list(readings), **more), check)


def signs(*names: str) -> list[dict[str, Any]]:
    return [{"sign": name, "present": True} for name in names]
