"""Short ways to write a reading for the tests of the contract's rows."""

from typing import Any

LINES = ("L1", "L2", "L3")
PAIRS = ("T1-T2", "T2-T3", "T3-T1")
SEMI = {
    "type": "semi-hermetic-reciprocating",
    "rated_voltage": 460,
    "rated_load_current": 34.0,
    "locked_rotor_current": 175,
}


def legs(point: str, keys: tuple[str, ...], values: str, unit: str, state: str, **more: Any) -> dict[str, Any]:
    return {"point": point, "legs": dict(zip(keys, values.split(), strict=True)), "unit": unit, "state": state, **more}


def value(point: str, text: str, unit: str, state: str = "running", **more: Any) -> dict[str, Any]:
    return {"point": point, "value": text, "unit": unit, "state": state, **more}


def megohms(text: str, celsius: int) -> dict[str, Any]:
    heat = {"winding_temperature": celsius, "winding_temperature_unit": "C"}
    return value("insulation_resistance", text, "Mohm", "isolated", leads="off", **heat)
