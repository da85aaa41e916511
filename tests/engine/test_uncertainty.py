"""Uncertainty: JCGM 100, checked against the `uncertainties` package, and what cancels in a balance."""

import math
from typing import Any

import pytest
from uncertainties import correlated_values, ufloat

from tests.engine.judging import finding, judge

R12, R3 = math.sqrt(12), math.sqrt(3)
PLATE = {"rated_voltage": 460, "rated_load_current": 40.0}


def unbalance_of(legs: Any) -> Any:
    mean = sum(legs) / 3
    worst = max(legs, key=lambda leg: abs(leg.nominal_value - mean.nominal_value))
    above = worst.nominal_value >= mean.nominal_value
    return 100 * (worst - mean if above else mean - worst) / mean


def amps(legs: tuple[str, str, str], **more: Any) -> dict[str, Any]:
    return {
        "point": "running_current",
        "legs": dict(zip(("L1", "L2", "L3"), legs, strict=True)),
        "unit": "A",
        "state": "running",
        **more,
    }


def told(reading: dict[str, Any], check: str, **more: Any) -> float:
    uncertainty: float = finding(judge(PLATE, [reading], **more), check)["uncertainty"]
    return uncertainty


def test_digits_alone() -> None:
    reading = {"point": "line_voltage", "legs": {"L1-L2": "462", "L2-L3": "463", "L3-L1": "455"}, "unit": "V"}
    expected = 2 * unbalance_of([ufloat(v, 1 / R12) for v in (462, 463, 455)]).std_dev
    assert told(reading, "supply_voltage_unbalance") == pytest.approx(expected, rel=1e-9)


def test_counts_and_jaw_position_are_independent() -> None:
    meters = {"clamp-1": {"kind": "clamp", "points": {"running_current": {"counts": 5}}}}
    legs = (39.2, 35.4, 31.6)
    own = [math.hypot(0.1 / R12, 5 * 0.1 / R3, 0.01 * leg / R3) for leg in legs]
    expected = 2 * unbalance_of([ufloat(leg, doubt) for leg, doubt in zip(legs, own, strict=True)]).std_dev
    reading = amps(("39.2", "35.4", "31.6"), meter="clamp-1")
    assert told(reading, "running_current_unbalance", meters=meters) == pytest.approx(expected, rel=1e-9)


def test_percent_cancels_in_a_balance_and_counts_in_a_level() -> None:
    meters = {"m": {"kind": "multimeter", "points": {"line_voltage": {"percent": 1.0}}}}
    reading = {
        "point": "line_voltage",
        "legs": {"L1-L2": "462", "L2-L3": "463", "L3-L1": "455"},
        "unit": "V",
        "meter": "m",
    }
    bare = {key: value for key, value in reading.items() if key != "meter"}
    balanced = told(reading, "supply_voltage_unbalance", meters=meters)
    assert balanced == pytest.approx(told(bare, "supply_voltage_unbalance"), rel=1e-6)
    level = 2 * math.hypot(1 / R12, 0.01 * 455 / R3) * 100 / 460
    assert told(reading, "supply_voltage_level", meters=meters) == pytest.approx(level, rel=1e-9)


def test_full_correlation_agrees_with_a_covariance_matrix() -> None:
    legs, percent = [462.0, 463.0, 455.0], 3.0
    shared = [leg * percent / 100 / R3 for leg in legs]
    covariance = [[a * b + (1 / 12 if i == j else 0) for j, b in enumerate(shared)] for i, a in enumerate(shared)]
    expected = 2 * unbalance_of(correlated_values(legs, covariance)).std_dev
    meters = {"m": {"points": {"line_voltage": {"percent": percent}}}}
    reading = {
        "point": "line_voltage",
        "legs": {"L1-L2": "462", "L2-L3": "463", "L3-L1": "455"},
        "unit": "V",
        "meter": "m",
    }
    assert told(reading, "supply_voltage_unbalance", meters=meters) == pytest.approx(expected, rel=1e-6)


def test_a_meter_for_each_leg_cancels_nothing() -> None:
    meters = {name: {"points": {"running_current": {"percent": 2.0}}} for name in ("a", "b", "c")}
    legs = (35.4, 35.0, 35.2)
    own = [math.hypot(0.1 / R12, 0.02 * leg / R3) for leg in legs]
    expected = 2 * unbalance_of([ufloat(leg, doubt) for leg, doubt in zip(legs, own, strict=True)]).std_dev
    reading = amps(("35.4", "35.0", "35.2"), meter={"L1": "a", "L2": "b", "L3": "c"})
    assert told(reading, "running_current_unbalance", meters=meters) == pytest.approx(expected, rel=0.02)
    same = amps(("35.4", "35.0", "35.2"), meter={"L1": "a", "L2": "a", "L3": "a"})
    assert told(same, "running_current_unbalance", meters=meters) == pytest.approx(expected, rel=0.02)


def test_a_stated_resolution_wins_over_digits() -> None:
    gauge = {"g": {"kind": "gauge", "resolution": 5, "points": {}}}
    readings = [
        {"point": "pump_pressure", "value": "60", "unit": "psig", "state": "running", "meter": "g"},
        {"point": "crankcase_pressure", "value": "20", "unit": "psig", "state": "running", "meter": "g"},
    ]
    found = finding(judge({}, readings, meters=gauge), "net_oil_pressure")
    assert found["uncertainty"] == pytest.approx(2 * math.sqrt(2) * 5 / R12, rel=1e-9)


def test_the_better_of_two_tied_legs_is_not_taken() -> None:
    reading = {"point": "line_voltage", "legs": {"L1-L2": "470", "L2-L3": "480", "L3-L1": "490"}, "unit": "V"}
    high = [ufloat(v, 1 / R12) for v in (470, 480, 490)]
    mean = sum(high) / 3
    worst = max((100 * (mean - high[0]) / mean).std_dev, (100 * (high[2] - mean) / mean).std_dev)
    assert told(reading, "supply_voltage_unbalance") == pytest.approx(2 * worst, rel=1e-9)
