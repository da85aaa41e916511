"""Discharge line above saturated condensing, once warmed through."""

import pytest

from tests.engine.plant_readings import LOW, found, read


def over(value, **more):
    """A finding at 230 psig of R-448A: dew 105.1 F (CoolProp)."""
    line = read("discharge_temperature", value, "F", **more)
    return found("discharge_superheat", LOW, line, read("discharge_pressure", "230", "psig"))


# CHECKS.md, discharge_superheat: 50 and 25 F.
@pytest.mark.parametrize(("value", "verdict"), [("212", "pass"), ("157", "pass"), ("145", "watch"), ("125", "fail")])
def test_bands(value, verdict):
    assert over(value)["verdict"] == verdict


@pytest.mark.parametrize(("since", "verdict"), [(599, "cannot_tell"), (600, "pass")])
def test_ten_minutes_where_known(since, verdict):
    assert over("212", since_start=since)["verdict"] == verdict


def test_a_settled_reading_carries_before_a_later_early_one():
    early = read("discharge_temperature", "130", "F", since_start=60, at="2026-10-14T22:30:00-05:00")
    settled = read("discharge_temperature", "212", "F", since_start=900, at="2026-10-14T22:00:00-05:00")
    told = found("discharge_superheat", LOW, early, settled, read("discharge_pressure", "230", "psig"))
    assert told["verdict"] == "pass"


def test_below_condensing_is_not_judged_and_celsius_is_offered():
    told = over("88")
    assert told["verdict"] == "cannot_tell"
    assert "°C it would fit" in told["because"]


def test_above_the_critical_point_there_is_no_condensing():
    machine = {**LOW, "refrigerant": "R-744"}
    line, pressure = read("discharge_temperature", "240", "F"), read("discharge_pressure", "1300", "psig")
    told = found("discharge_superheat", machine, line, pressure)
    assert told["verdict"] == "cannot_tell"
    assert "critical" in told["because"]
