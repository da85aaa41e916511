"""The head fan's amps against its plate."""

import pytest

from tests.engine.plant_readings import found, read

FAN = {"fan": {"rated_current": 0.9}}


def amps(value, unit="A", *others, machine=FAN, **more):
    return found("fan_current", machine, read("fan_current", value, unit, **more), *others)


# CHECKS.md, fan_current; 1.41 and 0.86 A are the handbook's case F10 before and after.
@pytest.mark.parametrize(
    ("value", "verdict"), [("1.41", "fail"), ("0.86", "pass"), ("0.98", "watch"), ("0.40", "watch"), ("1.05", "fail")]
)
def test_amps_in_percent_of_the_plate(value, verdict):
    assert amps(value)["verdict"] == verdict


def test_no_amps_with_volts_is_a_dead_fan():
    told = amps("0.00", "A", read("fan_voltage", "231", "V"))
    assert told["verdict"] == "fail"
    assert "stands still" in told["because"]


def test_no_amps_without_volts_sends_you_upstream():
    told = amps("0.00", "A", read("fan_voltage", "0", "V"))
    assert told["verdict"] == "watch"
    assert "find where its volts end" in told["because"]


def test_no_amps_and_volts_unread_asks_for_them():
    told = amps("0.00")
    assert told["verdict"] == "watch"
    assert told["missing"] == ["fan_voltage"]


def test_milliamps_for_amps():
    assert amps("860", "mA")["verdict"] == "pass"
    told = amps("0.86", "mA")
    assert told["verdict"] == "cannot_tell"
    assert "clamp's range" in told["because"]


def test_amps_of_an_isolated_fan_say_nothing():
    assert amps("0.00", state="isolated")["verdict"] == "cannot_tell"


def test_without_a_plate_it_cannot_tell():
    assert amps("0.86", machine={})["missing"] == ["machine fan rated_current"]
