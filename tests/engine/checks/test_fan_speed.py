"""The head fan's speed against its plate."""

import pytest

from tests.engine.plant_readings import found, read

FAN = {"fan": {"rated_speed": 1550}}


# CHECKS.md, fan_speed; 610 and 1540 rpm are F10 before and after.
@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("610", "fail"),
        ("1540", "pass"),
        ("1400", "watch"),
        ("1445", "pass"),
        ("1720", "watch"),
        ("1310", "fail"),
    ],
)
def test_speed(value, verdict):
    assert found("fan_speed", FAN, read("fan_speed", value, "rpm"))["verdict"] == verdict


def test_a_fan_locked_out_has_no_speed():
    assert found("fan_speed", FAN, read("fan_speed", "0", "rpm", state="isolated"))["verdict"] == "cannot_tell"


def test_standing_still_while_called_fails():
    assert found("fan_speed", FAN, read("fan_speed", "0", "rpm"))["verdict"] == "fail"


def test_without_a_plate_it_cannot_tell():
    assert found("fan_speed", {}, read("fan_speed", "1540", "rpm"))["missing"] == ["machine fan rated_speed"]
