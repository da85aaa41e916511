"""Discharge line temperature: what oil and valves stand."""

import pytest

from tests.engine.plant_readings import LOW, found, read

HIGH_STAGE = {**LOW, "refrigerant": "R-744", "stage": "booster-high"}
LOW_STAGE = {**LOW, "refrigerant": "R-744", "stage": "booster-low"}


def line(machine, value, unit="F", *others, **more):
    return found("discharge_temperature", machine, read("discharge_temperature", value, unit, **more), *others)


# CHECKS.md, discharge_temperature; the first three are the handbook's cases F1, F10 before and after.
@pytest.mark.parametrize(
    ("machine", "value", "verdict"),
    [
        (LOW, "211", "pass"),
        (LOW, "246", "watch"),
        (LOW, "212", "pass"),
        (LOW, "252", "fail"),
        (LOW, "225", "watch"),
        (HIGH_STAGE, "252", "pass"),
        (HIGH_STAGE, "280", "watch"),
        (HIGH_STAGE, "302", "fail"),
        (LOW_STAGE, "252", "fail"),
    ],
)
def test_bands(machine, value, verdict):
    assert line(machine, value)["verdict"] == verdict


def test_celsius_is_answered_in_celsius():
    told = line(LOW, "119", "C")
    assert told["verdict"] == "watch"
    assert told["limits"][0]["above"] == pytest.approx(107.22, abs=0.01)
    assert told["uncertainty"] == pytest.approx(2 / 12**0.5)


def test_infrared_cannot_tell():
    assert line(LOW, "211", probe="infrared")["verdict"] == "cannot_tell"


def test_colder_than_the_suction_line_is_sent_back():
    told = line(LOW, "40", "F", read("suction_temperature", "45", "F"))
    assert told["verdict"] == "cannot_tell"
    assert "Check which probe is where" in told["because"]


def test_colder_than_condensing_is_sent_back_once_it_is_warm():
    pressure = read("discharge_pressure", "230", "psig")
    told = line(LOW, "88", "F", pressure)
    assert told["verdict"] == "cannot_tell"
    assert "°C it would fit" in told["because"]
    assert line(LOW, "88", "F", pressure, since_start=60)["verdict"] == "pass"


def test_an_unknown_stage_of_r744_matters_only_between_the_limits():
    unknown = {"refrigerant": "R-744"}
    assert line(unknown, "200")["verdict"] == "pass"
    assert line(unknown, "310")["verdict"] == "fail"
    told = line(unknown, "240")
    assert told["verdict"] == "cannot_tell"
    assert told["missing"] == ["machine stage"]
