"""An ohmmeter to ground finds dead grounds and clears nothing. Limits: CHECKS.md."""

import pytest

from tests.engine.electrical_readings import found, legs


def ground(*ohms, **about):
    return found("winding_ground", legs("winding_ground_resistance", *ohms, **{"leads": "off", **about}))


@pytest.mark.parametrize(
    ("ohms", "unit", "verdict"),
    [
        (("0.31", "0.30", "0.31"), "Mohm", "fail"),
        (("310", "300", "310"), "kohm", "fail"),
        (("4.1", "4.0", "4.2"), "Mohm", "watch"),
        (("25.0", "26.0", "25.5"), "Mohm", "cannot_tell"),
        (("OL", "OL", "OL"), "Mohm", "cannot_tell"),
        ((">40", ">40", ">40"), "Mohm", "cannot_tell"),
        (("OL", "0.2", "OL"), "Mohm", "fail"),
        (("0", "0", "0"), "ohm", "fail"),
    ],
)
def test_each_band(ohms, unit, verdict):
    assert ground(*ohms, unit=unit)["verdict"] == verdict


def test_a_good_reading_clears_no_motor():
    finding = ground("OL", "OL", "OL", unit="Mohm")
    assert "can't clear a motor" in finding["because"]
    assert finding["missing"] == ["insulation_resistance"]
    assert finding["value"] is None


def test_answered_in_the_unit_read():
    finding = ground("310", "300", "310", unit="kohm")
    assert (finding["value"], finding["unit"]) == (300.0, "kohm")
    assert [limit["below"] for limit in finding["limits"]] == pytest.approx([20000.0, 500.0])


def test_with_the_leads_on_neither_motor_nor_cable_is_named():
    assert "motor or cable" in ground("0.31", "0.30", "0.31", unit="Mohm", leads="on")["because"]
