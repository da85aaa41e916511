"""Lugs and joints at rated current. Limits: CHECKS.md, 10 and 50 mV."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs

AMPS = legs("running_current", "17.0", "17.0", "17.0")


def joints(*drops, amps=AMPS, machine=None, **about):
    more = [] if amps is None else [amps]
    return found("joint_drop", legs("joint_drop", *drops, **about), *more, machine=machine)


# At half of the rated 34 A every drop doubles.
@pytest.mark.parametrize(
    ("drops", "expected", "verdict"),
    [
        (("2.0", "3.0", "2.5"), 6.0, "pass"),
        (("2.0", "12.0", "2.5"), 24.0, "watch"),
        (("2.0", "40.0", "2.5"), 80.0, "fail"),
    ],
)
def test_value_and_verdict(drops, expected, verdict):
    finding = joints(*drops)
    assert finding["value"] == pytest.approx(expected)
    assert (finding["verdict"], finding["unit"]) == (verdict, "mV")


def test_legs_carry_resistance_and_heat():
    leg = joints("2.0", "12.0", "2.5")["legs"][1]
    assert leg["mohm"] == pytest.approx(12 / 17)
    assert leg["watts"] == pytest.approx(0.012 * 17)


def test_answered_in_the_unit_read():
    finding = joints("0.002", "0.012", "0.003", unit="V")
    assert finding["value"] == pytest.approx(0.024)
    assert finding["unit"] == finding["limits"][0]["unit"] == "V"
    assert finding["limits"][0]["above"] == pytest.approx(0.010)


def test_amps_and_plate_are_asked_for():
    assert joints("2", "30", "3", amps=None)["missing"] == ["running_current"]
    assert joints("2", "30", "3", machine={})["missing"] == ["machine rated_load_current"]


def test_a_burning_joint_needs_no_amps():
    finding = joints("2", "900", "3", amps=None)
    assert finding["verdict"] == "fail"
    assert "burning" in finding["because"]


def test_the_two_halves_of_a_part_winding_add_up():
    halves = legs("half_current", "8.5", "8.5", "8.5", "8.5", "8.5", "8.5", state="running")
    machine = {**MACHINE, "start": "part-winding"}
    assert joints("2.0", "12.0", "2.5", amps=halves, machine=machine)["value"] == pytest.approx(24.0)
