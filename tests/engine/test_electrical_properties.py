"""What holds for any reading of the electrical checks: order, unit, more is never better, limits and beside them."""

import math
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.engine.electrical_readings import MACHINE, found, legs, value
from tests.engine.judging import case_of, findings, judge, judge_case

RANK = {"pass": 0, "watch": 1, "cannot_tell": 2, "fail": 3}
AMPS = legs("running_current", "30.0", "30.0", "30.0")
BY_LEG = [
    ("fuse_drop", "fuse_drop", (20, 90), ()),
    ("joint_drop", "joint_drop", (1, 80), (AMPS,)),
    ("single_phasing", "running_current", (5, 50), ()),
    ("running_current_level", "running_current", (20, 60), ()),
    ("start_voltage_sag", "start_voltage", (300, 480), ()),
    ("line_ground_symmetry", "line_ground_voltage", (230, 300), ()),
]


@pytest.mark.parametrize(("check", "point", "span", "more"), BY_LEG, ids=[row[0] for row in BY_LEG])
@settings(max_examples=8, deadline=None)
@given(data=st.data())
def test_the_order_of_the_legs_never_changes_the_verdict(
    check: str, point: str, span: tuple[int, int], more: tuple[Any, ...], data: st.DataObject
) -> None:
    numbers = data.draw(st.lists(st.integers(span[0] * 10, span[1] * 10), min_size=3, max_size=3))
    read = [f"{number / 10:.1f}" for number in numbers]
    told = {
        (one["verdict"], one["value"]) for one in (found(check, legs(point, *row), *more) for row in permutations(read))
    }
    verdicts = {verdict for verdict, _ in told}
    values = [number for _, number in told if number is not None]
    assert len(verdicts) == 1
    assert all(math.isclose(number, values[0], rel_tol=1e-9) for number in values)


@settings(max_examples=8, deadline=None)
@given(st.permutations(range(5)))
def test_the_order_of_the_readings_never_changes_a_verdict(order: list[int]) -> None:
    readings = [
        legs("line_voltage", "478.0", "476.0", "477.0"),
        legs("load_voltage", "477.0", "470.9", "476.1"),
        legs("pole_drop", "36", "39", "37"),
        legs("running_current", "24.8", "25.1", "24.6"),
        value("overload_dial", "24"),
    ]
    result = judge(MACHINE, [readings[place] for place in order])
    verdicts = {
        check: findings(result, check)[0]["verdict"] for check in ("load_side_voltage", "overload_setting", "pole_drop")
    }
    assert verdicts == {"load_side_voltage": "fail", "overload_setting": "fail", "pole_drop": "pass"}


@settings(max_examples=12, deadline=None)
@given(st.integers(2, 400), st.sampled_from([("V", 1000.0), ("mV", 1.0)]))
def test_the_unit_read_never_changes_the_verdict(millivolts: int, unit: tuple[str, float]) -> None:
    name, divisor = unit
    digits = 3 if name == "V" else 0
    read = [f"{one / divisor:.{digits}f}" for one in (2, millivolts, 2)]
    here = found("joint_drop", legs("joint_drop", *read, unit=name), AMPS)
    assert here["verdict"] == found("joint_drop", legs("joint_drop", "2", str(millivolts), "2"), AMPS)["verdict"]
    assert here["unit"] == name


@settings(max_examples=12, deadline=None)
@given(st.integers(7, 700), st.integers(7, 700))
def test_more_amps_are_never_better(one: int, other: int) -> None:
    """From 2 % of rated on; less is next to nothing, and told as that."""
    low, high = sorted((one, other))
    ranks = []
    for tenths in (low, high):
        read = f"{tenths / 10:.1f}"
        ranks.append(RANK[found("running_current_level", legs("running_current", read, read, read))["verdict"]])
    # What can't be told lies between watch and fail.
    assert ranks[0] <= ranks[1]


def neighbours(limit: float) -> tuple[float, float]:
    return math.nextafter(limit, -math.inf), math.nextafter(limit, math.inf)


# A JSON number carries next to no doubt, so the limit itself still passes and its neighbour beyond does not.
@pytest.mark.parametrize(
    ("check", "make", "limit", "inside", "outside"),
    [
        ("start_rate", lambda x: [value("starts_last_hour", x)], 6.0, "pass", "watch"),
        ("start_rate", lambda x: [value("starts_last_hour", x)], 10.0, "watch", "fail"),
        ("overload_setting", lambda x: [value("overload_dial", x)], 39.5, "pass", "pass"),
    ],
)
def test_at_a_limit_and_beside_it(check: str, make: Any, limit: float, inside: str, outside: str) -> None:
    before, after = neighbours(limit)
    assert found(check, *make(before))["verdict"] == inside
    assert found(check, *make(limit))["verdict"] == inside
    assert found(check, *make(after))["verdict"] == outside


@pytest.mark.parametrize("read", ["nan", "inf", "-inf", "", "1e400", float("1e308"), "OL", ">99999", "-3"])
@pytest.mark.parametrize(("check", "point", "span", "more"), BY_LEG, ids=[row[0] for row in BY_LEG])
def test_no_number_raises(check: str, point: str, span: tuple[int, int], more: tuple[Any, ...], read: Any) -> None:
    finding = found(check, legs(point, "30", read, "30"), *more)
    assert finding["verdict"] in RANK
    assert finding["because"]
    numbers = [finding["value"], finding["uncertainty"]]
    assert all(number is None or math.isfinite(number) for number in numbers)


@pytest.mark.parametrize("read", ["OL", ">2000", "0", "0.0"])
@pytest.mark.parametrize("about", [{}, {"winding_temperature": 25, "winding_temperature_unit": "C", "at_30s": "0"}])
def test_odd_megohms_are_told_without_an_exception(read: str, about: dict[str, Any]) -> None:
    reading = value("insulation_resistance", read, leads="off", **about)
    history = [{"at": "2026-01-10T10:00:00Z", "readings": [value("insulation_resistance", "0", **about)]}]
    result = judge(MACHINE, [reading], history=history)
    assert {one["check"] for one in result["rounds"][0]["findings"]} >= {"insulation"}


def test_numbers_beyond_arithmetic_are_told_not_raised() -> None:
    finding = found("fuse_drop", legs("fuse_drop", "90", 1e-300, "90"), legs("running_current", "30", "30", "30"))
    assert finding["verdict"] == "cannot_tell"
    assert "can't be worked out" in finding["because"]


def test_two_readings_not_taken_are_told() -> None:
    left = {"point": "insulation_resistance", "not_taken": "meter left in the truck"}
    assert found("insulation", left, left)["missing"] == ["insulation_resistance"]


def test_true_is_no_number_on_either_runtime() -> None:
    faults = judge_case(case_of(MACHINE, [legs("fuse_drop", "28", "27", "28"), value("overload_dial", True)]))["errors"]
    assert [fault["pointer"] for fault in faults] == ["/rounds/0/readings/1/value"]
