"""Readings of the refrigeration side, and the finding of one check on them."""

import re
from typing import Any

from tests.engine.judging import finding, findings, judge

LOW = {"type": "semi-hermetic-reciprocating", "refrigerant": "R-448A", "application": "low"}
MEDIUM = {**LOW, "application": "medium"}
SCROLL = {**MEDIUM, "type": "welded-scroll"}
RAW_KEY = re.compile(r"\b[a-z]+_?[a-z_]*\.[a-z_]+\b")


def read(point: str, value: Any, unit: str, **more: Any) -> dict[str, Any]:
    """Return a reading taken running, unless told otherwise."""
    return {"point": point, "value": value, "unit": unit, "state": "running", **more}


def present(*signs: str) -> list[dict[str, Any]]:
    return [{"sign": sign, "present": True} for sign in signs]


def found(check: str, machine: dict[str, Any], *readings: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Return the carrying finding; every sentence of it must have its words."""
    result = judge(machine, list(readings), **more)
    for one in findings(result, check):
        assert not RAW_KEY.search(one["because"]), one["because"]
        assert "?" not in one["because"], one["because"]
    return finding(result, check)


def silent(check: str, machine: dict[str, Any], *readings: dict[str, Any]) -> bool:
    return not findings(judge(machine, list(readings)), check)
