"""The motor's own protector. PTC and NTC numbers: makers' bulletins through the handbook (A8.4), common practice."""

import pytest

from tests.engine.electrical_readings import found, signs, value

PTC = {"kind": "ptc", "trip": 4500, "reset": 2750}


def protector(part, ohms, unit="ohm", hot=False, **about):
    more = {"signs": signs("motor_still_hot")} if hot else {}
    reading = value("protector_resistance", ohms, unit=unit, **about)
    return found("protector", reading, machine={"protector": part}, **more)


@pytest.mark.parametrize(
    ("ohms", "unit", "hot", "verdict"),
    [
        ("190", "ohm", False, "pass"),
        ("1.9", "kohm", True, "pass"),
        ("3.2", "kohm", True, "watch"),
        ("3.2", "kohm", False, "fail"),
        ("9.8", "kohm", True, "cannot_tell"),
        ("13.0", "kohm", False, "fail"),
        ("OL", "kohm", False, "fail"),
        ("OL", "kohm", True, "fail"),
        ("2", "ohm", False, "fail"),
        ("2", "ohm", True, "fail"),
    ],
)
def test_ptc(ohms, unit, hot, verdict):
    assert protector(PTC, ohms, unit, hot)["verdict"] == verdict


def test_the_machines_own_trip_and_reset_win():
    # Some families trip at about 13 kohm (handbook A8.4).
    assert protector({"kind": "ptc", "trip": 13000, "reset": 3250}, "3000", "ohm")["verdict"] == "pass"
    assert protector({"kind": "ptc"}, "3000", "ohm")["verdict"] == "fail"


def test_cooling_says_how_long():
    finding = protector(PTC, "3.2", "kohm", hot=True)
    assert "Cool 1 h" in finding["because"]
    assert (finding["value"], finding["unit"]) == (3.2, "kohm")


def test_a_hot_winding_counts_as_hot():
    finding = protector(PTC, "3.2", "kohm", winding_temperature=190, winding_temperature_unit="F")
    assert finding["verdict"] == "watch"


@pytest.mark.parametrize(
    ("ohms", "hot", "verdict"),
    [
        ("5000", False, "pass"),
        ("900", True, "watch"),
        ("900", False, "fail"),
        ("600", True, "cannot_tell"),
        ("600", False, "fail"),
        ("OL", False, "fail"),
        ("2", True, "fail"),
    ],
)
def test_ntc_falls_with_heat(ohms, hot, verdict):
    assert protector({"kind": "ntc", "trip": 700, "reset": 1200}, ohms, "ohm", hot)["verdict"] == verdict


def test_an_ntc_without_its_numbers_asks_for_them():
    assert protector({"kind": "ntc"}, "5000")["missing"] == ["machine protector.trip"]


@pytest.mark.parametrize(
    ("kind", "ohms", "hot", "verdict"),
    [
        ("line-break", "0.8", False, "pass"),
        ("line-break", "OL", True, "cannot_tell"),
        ("line-break", "OL", False, "fail"),
        ("pilot", "0.4", False, "pass"),
        ("pilot", "45.0", False, "fail"),
        ("pilot", "OL", True, "cannot_tell"),
    ],
)
def test_contacts(kind, ohms, hot, verdict):
    assert protector({"kind": kind}, ohms, "ohm", hot)["verdict"] == verdict


def test_a_hot_line_break_is_given_hours():
    assert "1 to 4 h" in protector({"kind": "line-break"}, "OL", "ohm", hot=True)["because"]


def test_the_kind_is_asked_for():
    finding = found("protector", value("protector_resistance", "190", unit="ohm"), machine={})
    assert finding["missing"] == ["machine protector.kind"]
