"""Absence of voltage: six readings between two proofs of the same tester; a step left out fails."""

from typing import Any

import pytest

from tests.engine.judging import finding, judge

LEGS = {"L1-L2": "0.1", "L2-L3": "0.2", "L3-L1": "0.1", "L1-G": "0.3", "L2-G": "0.2", "L3-G": "0.1"}


def absence(**change: Any) -> dict[str, Any]:
    reading = {
        "point": "absence_test",
        "known_source_before": "478",
        "known_source_after": "478",
        "legs": LEGS,
        "unit": "V",
        "state": "isolated",
        "at": "2026-10-14T22:14:00-05:00",
    }
    return finding(judge({}, [{**reading, **change}]), "absence_test")


def test_the_words_are_those_of_the_contract() -> None:
    found = absence()
    assert found["verdict"] == "pass"
    assert found["because"] == (
        "At 22:14 your tester read 478 V on the known source before and 478 V after; between, at the points you "
        "named, no more than 0.3 V. That is what it found there and then. Control power, heater, head fan, regulator, "
        "a second starter and a drive's DC bus are separate: test each before you touch it."
    )


def test_it_never_says_dead_or_safe() -> None:
    for found in (absence(), absence(legs={**LEGS, "L1-G": "20"}), absence(legs={**LEGS, "L1-G": "277"})):
        words = found["because"].lower().replace(".", " ").replace(",", " ").split()
        assert not {"dead", "safe", "compliant", "safely"} & set(words)


@pytest.mark.parametrize(
    ("volts", "expected"),
    [
        ("4.9", "pass"),
        ("5.1", "cannot_tell"),
        ("20", "cannot_tell"),
        ("49", "cannot_tell"),
        ("60", "fail"),
        ("277", "fail"),
    ],
)
def test_each_band(volts: str, expected: str) -> None:
    assert absence(legs={**LEGS, "L2-G": volts})["verdict"] == expected


@pytest.mark.parametrize("left_out", [*LEGS, "known_source_before", "known_source_after"])
def test_a_step_left_out_fails(left_out: str) -> None:
    legs = {leg: volts for leg, volts in LEGS.items() if leg != left_out}
    change: dict[str, Any] = {"legs": legs} if left_out in LEGS else {left_out: None}
    found = absence(**change)
    assert (found["verdict"], found["said"]["key"]) == ("fail", "absence_test.left_out")


@pytest.mark.parametrize(("before", "after"), [("478", "300"), ("300", "478"), ("80", "80"), ("0", "478")])
def test_a_weak_known_source_fails(before: str, after: str) -> None:
    assert absence(known_source_before=before, known_source_after=after)["said"]["key"] == "absence_test.source_low"


def test_two_testers_fail() -> None:
    assert absence(meter={"L1-L2": "a", "L2-L3": "b"})["said"]["key"] == "absence_test.two_testers"


def test_not_taken_is_told_and_proves_nothing() -> None:
    found = finding(judge({}, [{"point": "absence_test", "not_taken": "no known source near"}]), "absence_test")
    assert found["verdict"] == "cannot_tell"
