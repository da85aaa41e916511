"""Winding balance: ANSI/EASA AR100-2020 (2 % random wound), and what the meter can decide."""

from typing import Any

import pytest

from tests.engine.judging import finding, judge

SEMI = {"type": "semi-hermetic-reciprocating"}


def ohms(a: str, b: str, c: str, **more: Any) -> dict[str, Any]:
    legs = {"T1-T2": a, "T2-T3": b, "T3-T1": c}
    return {"point": "winding_resistance", "legs": legs, "unit": "ohm", "state": "isolated", "leads": "off", **more}


def verdict(reading: dict[str, Any], machine: "dict[str, Any] | None" = None, **more: Any) -> str:
    told: str = finding(judge(machine or SEMI, [reading], **more), "winding_balance")["verdict"]
    return told


# The handbook's case F1: 0.523/0.527/0.525 is 0.4 %; 0.6/0.6/0.7 on a 0.1 ohm meter could not have decided anything.
def test_a_coarse_meter_is_told_that_it_cannot_decide() -> None:
    assert verdict(ohms("0.523", "0.527", "0.525")) == "pass"
    coarse = finding(judge(SEMI, [ohms("0.6", "0.6", "0.7")]), "winding_balance")
    assert coarse["verdict"] == "cannot_tell"
    assert coarse["value"] == pytest.approx(10.526, abs=0.001)
    assert "0.01" in coarse["because"] or "step" in coarse["because"]


@pytest.mark.parametrize(
    ("legs", "expected"),
    [
        (("0.500", "0.500", "0.510"), "pass"),
        (("0.500", "0.500", "0.525"), "watch"),
        (("0.500", "0.500", "0.560"), "fail"),
    ],
)
def test_each_band(legs: tuple[str, str, str], expected: str) -> None:
    assert verdict(ohms(*legs)) == expected


def test_through_the_cable_it_is_at_most_a_watch() -> None:
    found = finding(judge(SEMI, [ohms("0.500", "0.500", "0.560", leads="on")]), "winding_balance")
    assert found["verdict"] == "watch"
    assert found["also"][-1]["key"] == "winding_balance.through_cable"


def test_lead_resistance_is_taken_off() -> None:
    with_leads = finding(judge(SEMI, [ohms("0.600", "0.600", "0.610", lead_zero="0.100")]), "winding_balance")
    assert with_leads["value"] == pytest.approx(100 * (0.510 - 0.50333333) / 0.50333333)
    assert with_leads["legs"][2]["value"] == 0.61


def test_its_own_history_wins() -> None:
    history = [{"at": "2026-01-10T10:00:00-06:00", "readings": [ohms("0.500", "0.500", "0.530")]}]
    assert verdict(ohms("0.501", "0.500", "0.530"), history=history) == "pass"
    assert verdict(ohms("0.501", "0.500", "0.560"), history=history) == "fail"


@pytest.mark.parametrize(
    ("machine", "leads", "signs", "expected"),
    [
        (SEMI, "off", [], "fail"),
        (SEMI, "on", [], "cannot_tell"),
        (SEMI, "off", [{"sign": "motor_still_hot", "present": True}], "cannot_tell"),
        ({"type": "welded-scroll"}, "off", [], "cannot_tell"),
        ({**SEMI, "protector": {"kind": "line-break"}}, "off", [], "cannot_tell"),
    ],
)
def test_an_open_pair_may_be_a_hot_protector(
    machine: dict[str, Any], leads: str, signs: list[Any], expected: str
) -> None:
    found = finding(judge(machine, [ohms("OL", "0.5", "OL", leads=leads)], signs=signs), "winding_balance")
    assert (found["verdict"], found["detail"]["open"]) == (expected, ["T1-T2", "T3-T1"])


def test_zero_ohms_are_not_balanced() -> None:
    assert verdict(ohms("0", "0", "0")) == "cannot_tell"
