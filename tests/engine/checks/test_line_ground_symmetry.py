"""Volts to ground by grounding. Patterns: circuit theory; the 5 % is CHECKS.md."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs

POINT = "line_ground_voltage"


def symmetry(grounding, volts, *more):
    machine = {**MACHINE, "supply": {"nominal_voltage": 480, "grounding": grounding}}
    return found("line_ground_symmetry", legs(POINT, *volts), *more, machine=machine)


@pytest.mark.parametrize(
    ("grounding", "volts", "verdict"),
    [
        ("grounded-wye", ("277", "278", "276"), "pass"),
        ("grounded-wye", ("277", "252", "279"), "fail"),
        ("corner-grounded-delta", ("480", "0", "478"), "pass"),
        ("corner-grounded-delta", ("277", "277", "277"), "fail"),
        ("high-leg-delta", ("120", "208", "120"), "pass"),
        ("high-leg-delta", ("139", "139", "139"), "fail"),
        ("ungrounded", ("270", "282", "279"), "pass"),
        ("ungrounded", ("3", "478", "479"), "fail"),
        ("impedance-grounded", ("5", "470", "474"), "fail"),
        ("unknown", ("277", "278", "276"), "cannot_tell"),
    ],
)
def test_each_grounding(grounding, volts, verdict):
    assert symmetry(grounding, volts)["verdict"] == verdict


def test_a_floating_ground_is_not_blamed_on_this_motor():
    finding = symmetry("ungrounded", ("3", "478", "479"))
    assert "not shown to be this motor" in finding["because"]
    assert [leg["verdict"] for leg in finding["legs"]] == ["fail", "pass", "pass"]


def test_the_line_volts_of_the_round_are_the_measure_when_read():
    # 0.5 of 480 V is 240 V: 216 V is 10 % low, and only the line volts can show it on all legs at once.
    low = ("216", "374", "216")
    assert symmetry("high-leg-delta", low)["verdict"] == "pass"
    finding = symmetry("high-leg-delta", low, legs("line_voltage", "480", "480", "480"))
    assert finding["verdict"] == "fail"
    assert finding["value"] == pytest.approx(10.0296, abs=5e-5)
    assert finding["legs"][0]["deviation"] == pytest.approx(-10.0)


def test_missing_grounding_and_no_volts_say_what_to_do():
    finding = found("line_ground_symmetry", legs(POINT, "277", "277", "277"), machine={})
    assert finding["missing"] == ["machine supply.grounding"]
    assert symmetry("grounded-wye", ("0", "0", "0"))["verdict"] == "cannot_tell"
