"""Insulation: as CHECKS.md writes the row; correction by IEEE 43-2013, 6.3 (halving per 10 K)."""

import math
from typing import Any

import pytest

from tests.engine.judging import finding, findings, judge

SEMI = {"type": "semi-hermetic-reciprocating"}
SCROLL = {"type": "welded-scroll"}


def megohms(value: str, winding_c: "float | None" = 40, **more: Any) -> dict[str, Any]:
    reading = {"point": "insulation_resistance", "value": value, "unit": "Mohm", "state": "isolated", "leads": "off"}
    if winding_c is not None:
        reading.update(winding_temperature=winding_c, winding_temperature_unit="C")
    return {**reading, **more}


def verdict(machine: dict[str, Any], reading: dict[str, Any], **more: Any) -> str:
    told: str = finding(judge(machine, [reading], **more), "insulation")["verdict"]
    return told


@pytest.mark.parametrize(
    ("value", "winding_c", "expected"),
    [
        ("1100", 20, "pass"),
        ("640", 22, "pass"),
        ("30", 40, "watch"),
        ("6", 40, "watch"),
        ("4.0", 40, "fail"),
        ("14", 30, "watch"),
    ]
    + [("200", 8, "cannot_tell"), ("200", 90, "cannot_tell"), ("4", 60, "watch")],
)
def test_semi_hermetic_is_judged_at_40_c(value: str, winding_c: float, expected: str) -> None:
    assert verdict(SEMI, megohms(value, winding_c)) == expected


# IEEE 43-2013, 6.3: 180 Mohm at 22 C comes to 52 Mohm at 40 C (the handbook's formula table, printed to two figures).
def test_the_correction_reproduces_the_published_example() -> None:
    found = finding(judge(SEMI, [megohms("180", 22)]), "insulation")
    assert math.isclose(found["value"], 52, abs_tol=0.5)
    assert found["detail"]["as_read"] == 180


@pytest.mark.parametrize(
    ("value", "expected"), [("25", "pass"), ("5", "watch"), ("0.75", "cannot_tell"), ("0.40", "fail")]
)
def test_a_welded_machine_is_judged_as_read(value: str, expected: str) -> None:
    assert verdict(SCROLL, megohms(value, 20)) == expected


def test_its_own_minimum_wins_and_is_as_read() -> None:
    assert verdict({**SEMI, "insulation_minimum": 2}, megohms("3.0", 10)) == "pass"
    assert verdict({**SEMI, "insulation_minimum": 2}, megohms("1.0", 40)) == "fail"


def test_without_a_temperature_only_what_holds_at_any_is_said() -> None:
    assert verdict(SEMI, megohms("2000", None)) == "pass"
    assert verdict(SEMI, megohms("0.1", None)) == "fail"
    told = finding(judge(SEMI, [megohms("60", None)]), "insulation")
    assert (told["verdict"], told["missing"]) == ("cannot_tell", ["winding_temperature"])


def test_cold_and_liquid_filled_says_nothing_yet() -> None:
    wet = [{"sign": "oil_glass_full", "present": True}]
    assert verdict(SEMI, megohms("14", 5 + 5), signs=wet) == "cannot_tell"
    assert verdict(SEMI, megohms("14", 30), signs=wet) == "watch"
    assert verdict(SEMI, megohms("0.4", 12), signs=wet) == "fail"


def test_a_cold_sump_counts_as_wet() -> None:
    cold = {"point": "sump_temperature", "value": "38", "unit": "F"}
    ambient = {"point": "ambient_temperature", "value": "62", "unit": "F"}
    result = judge(SEMI, [megohms("14", 12), cold, ambient])
    assert finding(result, "insulation")["verdict"] == "cannot_tell"


def test_over_limit_and_bounds_pass_without_an_invented_number() -> None:
    over = finding(judge(SEMI, [megohms("OL")]), "insulation")
    assert (over["verdict"], over["value"]) == ("pass", None)
    assert verdict(SEMI, megohms(">2000", 20)) == "pass"
    assert verdict(SEMI, megohms("<0.3", 40)) == "fail"
    assert verdict(SEMI, megohms(">20", 40)) == "watch"


def test_leads_on_clears_both_and_names_neither() -> None:
    good = finding(judge(SEMI, [megohms("900", 20, leads="on")]), "insulation")
    low = finding(judge(SEMI, [megohms("3.0", 40, leads="on")]), "insulation")
    assert (good["verdict"], good["also"][-1]["key"]) == ("pass", "insulation.clears_both")
    assert (low["verdict"], low["also"][-1]["key"]) == ("fail", "insulation.names_neither")


def test_the_lowest_leads_off_reading_carries_unless_a_later_one_was_warm() -> None:
    cold = megohms("10", 15, at="2026-10-14T21:00:00-05:00")
    colder = megohms("400", 15, at="2026-10-14T21:30:00-05:00")
    warm = megohms("310", 45, at="2026-10-15T00:30:00-05:00")
    assert finding(judge(SEMI, [cold, colder]), "insulation")["readings"] == ["r1"]
    assert finding(judge(SEMI, [cold, colder, warm]), "insulation")["readings"] == ["r3"]
    assert len(findings(judge(SEMI, [cold, colder, warm]), "insulation")) == 3


def test_thermosetting_insulation_uses_its_own_form() -> None:
    # IEEE 43-2013, 6.3, thermosetting: 70 C gives a factor of 3.26 (CHECK_VALUES, section 4).
    found = finding(judge({**SEMI, "insulation_form": "thermosetting"}, [megohms("100", 70)]), "insulation")
    assert math.isclose(found["value"], 326, rel_tol=0.005)


def test_the_answer_is_in_the_unit_of_the_reading() -> None:
    found = finding(judge(SEMI, [megohms("900000", 40) | {"unit": "kohm"}]), "insulation")
    assert (found["value"], found["unit"]) == (900000, "kohm")
    assert [limit["below"] for limit in found["limits"]] == [50000, 5000]
