"""Mean of the windings at 25 C against the published ohms. Copper: IEEE 112, 234.5."""

import pytest
from uncertainties import ufloat

from tests.engine.electrical_readings import MACHINE, found, legs

OFF = {"leads": "off", "winding_temperature": 72, "winding_temperature_unit": "F"}


def level(*ohms, machine=MACHINE, **about):
    return found("winding_level", legs("winding_resistance", *ohms, **{**OFF, **about}), machine=machine)


# Handbook, case F1: 0.523, 0.527, 0.525 ohm at 72 F (22.2 C); 0.525 x 259.5 / 256.72 = 0.5307 at 25 C.
@pytest.mark.parametrize(
    ("ohms", "expected", "verdict"),
    [
        (("0.523", "0.527", "0.525"), 1.0820, "pass"),
        (("0.560", "0.561", "0.560"), 7.8850, "watch"),
        (("0.470", "0.471", "0.470"), -9.4433, "watch"),
    ],
)
def test_value_and_verdict(ohms, expected, verdict):
    finding = level(*ohms)
    assert finding["value"] == pytest.approx(expected, abs=5e-4)
    assert finding["verdict"] == verdict


def test_far_off_is_watched_never_failed():
    assert level("1.9", "1.9", "1.9")["verdict"] == "watch"


def test_uncertainty_agrees_with_an_independent_propagation():
    # The uncertainties package, digits 0.001 ohm and 1 F, all independent, k = 2; agreement 1e-9 relative.
    digit, heat = 0.001 / 12**0.5, 1 / 1.8 / 12**0.5
    ohms = [ufloat(value, digit) for value in (0.523, 0.527, 0.525)]
    winding = ufloat((72 - 32) / 1.8, heat)
    percent = 100 * (sum(ohms) / 3 * 259.5 / (234.5 + winding) / 0.525 - 1)
    finding = level("0.523", "0.527", "0.525")
    assert finding["value"] == pytest.approx(percent.n, rel=1e-9)
    assert finding["uncertainty"] == pytest.approx(2 * percent.s, rel=1e-9)


def test_the_leads_own_ohms_come_off():
    assert level("0.623", "0.627", "0.625", lead_zero="0.100")["value"] == pytest.approx(1.0820, abs=5e-4)


def test_without_a_temperature_it_names_the_one_that_would_fit():
    finding = level("0.625", "0.625", "0.625", winding_temperature=None)
    assert finding["missing"] == ["winding_temperature"]
    # 0.625 / 0.525 x 259.5 - 234.5 = 74.4 C, 166 F.
    assert "166 °F" in finding["because"]


def test_through_the_cable_a_high_reading_says_nothing():
    assert level("0.560", "0.561", "0.560", leads="on")["verdict"] == "cannot_tell"


def test_phases_of_both_connections_are_told():
    # worked_examples.json 3.9: 1.00, 1.02, 1.04 between lines is 0.51, 0.49, 0.53 in the phases of a wye.
    finding = level("1.00", "1.02", "1.04")
    assert finding["detail"]["wye_phases"] == pytest.approx([0.51, 0.49, 0.53])


def test_open_windings_have_no_level_and_the_plate_is_asked_for():
    assert level("OL", "0.527", "OL")["verdict"] == "cannot_tell"
    finding = level("0.523", "0.527", "0.525", machine={})
    assert finding["missing"] == ["machine winding_resistance_25c"]
