"""Least leg against the mean of the other two. Limits: CHECKS.md, 0.8 and 0.5."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs


def lost(*amps, machine=MACHINE, **about):
    return found("single_phasing", legs("running_current", *amps, **about), machine=machine)


@pytest.mark.parametrize(
    ("amps", "expected", "verdict"),
    [
        (("24.8", "25.1", "24.6"), 24.6 / 24.95, "pass"),
        (("30.0", "30.0", "21.0"), 0.7, "watch"),
        (("34.6", "34.6", "0.3"), 0.3 / 34.6, "fail"),
        (("14.0", "30.0", "30.0"), 14 / 30, "fail"),
    ],
)
def test_value_and_verdict(amps, expected, verdict):
    finding = lost(*amps)
    assert finding["value"] == pytest.approx(expected)
    assert (finding["verdict"], finding["unit"]) == (verdict, "ratio")


def test_the_lost_leg_is_named():
    finding = lost("34.6", "34.6", "0.3")
    assert finding["detail"]["leg"] == "L3"
    assert [leg["verdict"] for leg in finding["legs"]] == ["pass", "pass", "fail"]


def test_one_leg_double_its_two_like_fellows_was_lost_above_the_transformer():
    # Circuit theory: a primary leg lost ahead of a delta-wye transformer gives 2 : 1 : 1.
    finding = lost("40.0", "20.0", "20.2")
    assert (finding["verdict"], finding["detail"]["pattern"]) == ("watch", "lost_above_transformer")
    assert "above the transformer" in finding["because"]


def test_no_amps_is_not_a_lost_leg():
    assert lost("0.0", "0.0", "0.0")["verdict"] == "cannot_tell"


def test_a_drives_input_is_not_the_motors():
    assert "rectifier" in lost("30.0", "30.0", "21.0", machine={**MACHINE, "start": "drive"})["because"]


def test_halves_add_up_before_they_are_compared():
    halves = legs("half_current", "15.0", "15.0", "15.0", "15.0", "15.0", "0.0", state="running")
    finding = found("single_phasing", halves, machine={**MACHINE, "start": "part-winding"})
    assert finding["value"] == pytest.approx(0.5)
