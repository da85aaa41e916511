"""Worst fuse against the least. Limits: CHECKS.md, 1.5 and 2 times."""

import pytest

from rackside.reports.rails import rail_drawing
from tests.engine.electrical_readings import found, legs


def fuses(*drops, more=(), **about):
    return found("fuse_drop", legs("fuse_drop", *drops, **about), *more)


@pytest.mark.parametrize(
    ("drops", "expected", "verdict"),
    [
        (("28", "31", "27"), 31 / 27, "pass"),
        (("40", "70", "41"), 1.75, "watch"),
        (("30", "95", "31"), 95 / 30, "fail"),
    ],
)
def test_value_and_verdict(drops, expected, verdict):
    finding = fuses(*drops)
    assert finding["value"] == pytest.approx(expected)
    assert (finding["verdict"], finding["unit"]) == (verdict, "ratio")


def test_one_millivolt_digits_cannot_tell_two_from_three():
    finding = fuses("1", "3", "2")
    assert finding["verdict"] == "cannot_tell"
    assert "shows steps of 0.1 mV" in finding["because"]


def test_volts_across_one_fuse_is_an_open_one():
    finding = fuses("28", "239000", "27")
    assert finding["verdict"] == "fail"
    assert finding["detail"]["open"] == "L2"
    assert [leg["verdict"] for leg in finding["legs"]] == ["pass", "fail", "pass"]


def test_a_fuse_that_drops_nothing_carries_nothing():
    assert fuses("28", "0", "27")["verdict"] == "cannot_tell"


def test_legs_carry_milliohms_when_the_amps_are_known():
    # Handbook, case F2: 28 mV at 39.2 A is 0.714 mohm.
    finding = fuses("28", "31", "27", more=(legs("running_current", "39.2", "35.4", "31.6"),))
    assert finding["legs"][0]["mohm"] == pytest.approx(0.7143, abs=5e-5)


def test_an_open_fuse_is_drawn_off_its_scale():
    told = found("fuse_drop", legs("fuse_drop", "28", "12000", "27"))
    assert (told["verdict"], told["unit"], told["value"]) == ("fail", "ratio", pytest.approx(12000 / 27))
    assert [column["off"] for column in rail_drawing(told)["columns"]] == ["", "up", ""]
    assert found("fuse_drop", legs("fuse_drop", "0", "12000", "27"))["value"] is None
