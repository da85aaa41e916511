"""Crankcase heater: amps against its plate at the volts it has."""

import pytest
from uncertainties import ufloat

from rackside.engine.physics.heater import expected_amps, ohms
from tests.engine.plant_readings import found, read

HEATER = {"heater": {"power": 100, "voltage": 120}}
PTC = {"heater": {"power": 100, "voltage": 120, "kind": "ptc"}}


def heater(value, volts="119", unit="A", machine=HEATER):
    readings = [read("heater_current", value, unit, state="stopped")]
    if volts is not None:
        readings.append(read("heater_voltage", volts, "V", state="stopped"))
    return found("heater", machine, *readings)


# CHECKS.md, heater: 15 % either way of 0.826 A; handbook case F6 before (0.00 A) and after (0.83 A).
@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("0.83", "pass"),
        ("0.00", "fail"),
        ("0.72", "pass"),
        ("0.68", "fail"),
        ("0.93", "pass"),
        ("0.97", "fail"),
    ],
)
def test_bands(value, verdict):
    assert heater(value)["verdict"] == verdict


def test_open_element_is_named():
    assert "is open" in heater("0.00")["because"]


@pytest.mark.parametrize(("value", "verdict"), [("0.25", "pass"), ("0.18", "pass"), ("0.10", "fail"), ("0.00", "fail")])
def test_a_self_regulating_heater_passes_from_a_fifth(value, verdict):
    assert heater(value, machine=PTC)["verdict"] == verdict


def test_amps_follow_the_volts():
    """At 104 V the same element has 0.722 A."""
    assert heater("0.72", "104")["value"] == pytest.approx(-0.3, abs=0.1)


def test_ohms():
    """Handbook: amps = W / V; 120 V squared over 100 W is 144 ohm."""
    assert ohms(100, 120) == pytest.approx(144)
    assert expected_amps(100, 120, 120) == pytest.approx(100 / 120)
    assert heater("0.83")["detail"]["ohms"] == pytest.approx(143.4, abs=0.1)


def test_uncertainty_is_that_of_the_uncertainties_package():
    expected = 100 * (ufloat(0.83, 0.01 / 12**0.5) * 144 / ufloat(119, 12**-0.5) - 1)
    assert heater("0.83")["uncertainty"] == pytest.approx(2 * expected.std_dev, rel=1e-9)


def test_no_volts_is_no_verdict_on_the_element():
    told = heater("0.00", "0")
    assert told["verdict"] == "cannot_tell"
    assert "where its volts end" in told["because"]


def test_what_is_missing_is_named():
    assert heater("0.83", None)["missing"] == ["heater_voltage"]
    assert heater("0.83", machine={})["missing"] == ["machine heater power", "machine heater voltage"]


def test_milliamps_for_amps():
    assert heater("830", unit="mA")["verdict"] == "pass"
    assert heater("0.83", unit="mA")["verdict"] == "cannot_tell"
