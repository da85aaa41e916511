"""The head fan's run capacitor, read directly or worked out from its amps and volts."""

import math

import pytest
from uncertainties import ufloat

from rackside.engine.physics.capacitor import microfarads
from tests.engine.plant_readings import found, read

FAN = {"fan": {"capacitance": 5.0}, "rated_frequency": 60}


# CHECKS.md, fan_capacitance; 2.6 of 5.0 uF is F10 (printed -48 %).
@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("2.6", "fail"),
        ("5.0", "pass"),
        ("4.75", "pass"),
        ("4.6", "watch"),
        ("5.40", "watch"),
        ("5.6", "fail"),
    ],
)
def test_capacitance(value, verdict):
    told = found("fan_capacitance", FAN, read("fan_capacitance", value, "uF", state="isolated"))
    assert told["verdict"] == verdict


def test_capacitance_of_f10():
    told = found("fan_capacitance", FAN, read("fan_capacitance", "2.6", "uF", state="isolated"))
    assert told["value"] == pytest.approx(-48.0)


# worked_examples.json 7.1, 7.3, 7.5: reactance. Agreement: to the last printed digit.
@pytest.mark.parametrize(
    ("current", "volts", "expected", "agreement"),
    [
        (1.0, 1.0, 2652.58, 0.01),
        (2.0, 420, 12.631, 0.005),
        (4.0, 345, 30.755, 0.005),
    ],
)
def test_reactance_examples(current, volts, expected, agreement):
    assert microfarads(current, volts, 60.0) == pytest.approx(expected, abs=agreement)
    assert microfarads(current, volts, 50.0) == pytest.approx(expected * 1.2, abs=agreement * 1.2)


def running_capacitor(*others, machine=FAN):
    return found("fan_capacitance", machine, read("fan_capacitor_current", "0.61", "A"), *others)


def test_capacitance_from_amps_and_volts_while_it_runs():
    """2652.58 x 0.61 / 325 = 4.979 uF, 0.4 % below its marking."""
    volts = read("fan_capacitor_voltage", "325", "V")
    told = running_capacitor(volts)
    assert told["detail"]["microfarads"] == pytest.approx(4.979, abs=0.001)
    assert told["verdict"] == "pass"
    expected = 1e6 * ufloat(0.61, 0.01 / 12**0.5) / (2 * math.pi * 60 * ufloat(325, 12**-0.5)) / 5.0 * 100
    assert told["uncertainty"] == pytest.approx(2 * expected.std_dev, rel=1e-9)


def test_capacitance_from_amps_needs_volts_and_a_frequency():
    told = running_capacitor(machine={"fan": {"capacitance": 5.0}})
    assert told["missing"] == ["fan_capacitor_voltage", "line_frequency"]
    told = running_capacitor(
        read("fan_capacitor_voltage", "325", "V"),
        read("line_frequency", "50.0", "Hz"),
        machine={"fan": {"capacitance": 6.0}},
    )
    assert told["detail"]["microfarads"] == pytest.approx(5.975, abs=0.001)


def test_without_a_marking_it_cannot_tell():
    direct = read("fan_capacitance", "5.0", "uF", state="isolated")
    assert found("fan_capacitance", {}, direct)["missing"] == ["machine fan capacitance"]
