"""Subcooling: bubble temperature above the liquid line."""

import pytest
from uncertainties import ufloat, wrap

from rackside.engine.physics.refrigerant import bubble_temperature
from tests.engine.plant_readings import LOW, found, present, read


def subcooling(refrigerant, psig, line, **more):
    readings = (read("liquid_temperature", line, "F"), read("liquid_pressure", psig, "psig"))
    return found("subcooling", {**LOW, "refrigerant": refrigerant}, *readings, **more)


# worked_examples.json 9.53 to 9.57 (CoolProp 8.0.0, bubble). Agreement: 0.02 F.
@pytest.mark.parametrize(
    ("refrigerant", "psig", "line", "expected"),
    [("R-134a", "135", "97", 8.02), ("R-448A", "250", "90", 11.66), ("R-407A", "250", "90", 13.52)],
)
def test_handbook_examples(refrigerant, psig, line, expected):
    told = subcooling(refrigerant, psig, line)
    assert told["value"] == pytest.approx(expected, abs=0.05)
    assert told["verdict"] == "pass"


def test_bubble_and_not_dew():
    """The glide of R-448A at 250 psig is 8.6 F: on dew a full line would look 20 F subcooled."""
    assert subcooling("R-448A", "250", "90")["value"] < 12


@pytest.mark.parametrize(
    ("line", "signs", "verdict"),
    [
        ("102", (), "watch"),
        ("107", (), "watch"),
        ("107", ("flash_gas_seen",), "fail"),
        ("102", ("flash_gas_seen",), "watch"),
    ],
)
def test_flash_gas_makes_it_a_fail(line, signs, verdict):
    """R-134a at 135 psig: bubble 105.0 F; 3 F and -2 F."""
    assert subcooling("R-134a", "135", line, signs=present(*signs))["verdict"] == verdict


def test_above_critical_it_cannot_tell():
    told = subcooling("R-744", "1100", "85")
    assert told["verdict"] == "cannot_tell"
    assert "critical" in told["because"]


def test_far_above_saturation_the_unit_is_doubted():
    readings = (read("liquid_temperature", "97", "C"), read("liquid_pressure", "135", "psig"))
    told = found("subcooling", {**LOW, "refrigerant": "R-134a"}, *readings)
    assert told["verdict"] == "cannot_tell"
    assert "°F it would fit" in told["because"]


def test_uncertainty_is_that_of_the_uncertainties_package():
    line, psig = ufloat(97, 1 / 12**0.5), ufloat(135, 1 / 12**0.5)
    expected = wrap(lambda psi: bubble_temperature("R-134a", psi))(psig + 14.696) - line
    assert subcooling("R-134a", "135", "97")["uncertainty"] == pytest.approx(2 * expected.std_dev, rel=1e-4)
