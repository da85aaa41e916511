"""The decision rule, by its own words (CHECKS.md) and at every limit and its float neighbours (JCGM 106:2012, 8.3)."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rackside.engine.limits import CANNOT_TELL, FAIL, PASS, TRADE, WATCH, decide, lower, rank, upper
from tests.engine.electrical_readings import found, legs

UPPER = upper(1.0, 2.0, "%", TRADE)
LOWER = lower(50.0, 5.0, "Mohm", TRADE)
finite = st.floats(min_value=-1e6, max_value=1e6)
doubt = st.floats(min_value=0, max_value=1e3)


@pytest.mark.parametrize(
    ("low", "high", "verdict"),
    [
        (0.0, 1.0, PASS),
        (0.0, math.nextafter(1.0, 2), WATCH),
        (1.5, 1.9, WATCH),
        (0.5, 2.0, WATCH),
        (1.9, math.nextafter(2.0, 3), CANNOT_TELL),
        (0.5, 2.5, CANNOT_TELL),
        (2.0, 2.5, CANNOT_TELL),
        (math.nextafter(2.0, 3), 2.5, FAIL),
        (None, 0.9, PASS),
        (1.5, None, CANNOT_TELL),
        (2.5, None, FAIL),
    ],
)
def test_not_too_high(low: float | None, high: float | None, verdict: str) -> None:
    assert decide(low, high, UPPER).verdict == verdict


@pytest.mark.parametrize(
    ("low", "high", "verdict"),
    [
        (50.0, 60.0, PASS),
        (math.nextafter(50.0, 0), 60.0, WATCH),
        (5.0, 60.0, WATCH),
        (math.nextafter(5.0, 0), 60.0, CANNOT_TELL),
        (1.0, 5.0, CANNOT_TELL),
        (1.0, math.nextafter(5.0, 0), FAIL),
        (2000.0, None, PASS),
        (None, 0.5, FAIL),
    ],
)
def test_not_too_low(low: float | None, high: float | None, verdict: str) -> None:
    assert decide(low, high, LOWER).verdict == verdict


def test_a_single_limit_serves_as_both() -> None:
    only = upper(None, 2.0, "%", TRADE)
    assert decide(1.0, 2.0, only).verdict == PASS
    assert decide(2.1, 2.2, only).verdict == FAIL
    assert decide(1.9, 2.1, only).verdict == CANNOT_TELL


def test_a_watch_without_a_fail_never_fails() -> None:
    only = upper(2.0, None, "%", TRADE)
    assert decide(100.0, 101.0, only).verdict == WATCH


def test_the_limit_that_was_met_is_known_on_either_side() -> None:
    for value, limits, edge in ((60.0, LOWER, 50.0), (0.5, UPPER, 1.0)):
        met = decide(value, value, limits).limit
        assert met is not None
        assert edge in (met.above, met.below)


def test_the_worse_side_speaks() -> None:
    assert decide(60.0, 61.0, LOWER + upper(20.0, 40.0, "Mohm", TRADE)).verdict == FAIL


@given(finite, finite, doubt)
def test_a_higher_value_is_never_judged_better(one: float, other: float, uncertainty: float) -> None:
    small, large = sorted((one, other))
    better = decide(small - uncertainty, small + uncertainty, UPPER).verdict
    worse = decide(large - uncertainty, large + uncertainty, UPPER).verdict
    assert rank(worse) >= rank(better)


@given(finite, doubt, doubt)
def test_a_better_meter_never_turns_a_pass_into_a_fail_or_back(value: float, one: float, other: float) -> None:
    fine, coarse = sorted((one, other))
    with_coarse = decide(value - coarse, value + coarse, UPPER).verdict
    with_fine = decide(value - fine, value + fine, UPPER).verdict
    if with_coarse in (PASS, FAIL):
        assert with_fine == with_coarse


@pytest.mark.parametrize(
    ("reading", "words"),
    [
        (legs("winding_resistance", "0.5", "0.6", "0.5", leads="off"), "One that shows steps of 0.01 Ω would."),
        (legs("running_current", "24", "27", "30"), "One that shows steps of 0.1 A would."),
    ],
)
def test_a_finer_step_is_named_in_what_the_meter_shows(reading: dict[str, Any], words: str) -> None:
    check = "winding_balance" if "resistance" in reading["point"] else "running_current_unbalance"
    assert words in found(check, reading)["because"]
