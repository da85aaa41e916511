"""Pump-down: vacuum reached and rise after the stop, reciprocating machines only."""

import pytest

from tests.engine.plant_readings import LOW, SCROLL, found, present, read


def pump_down(machine, *readings, **more):
    return found("pump_down", machine, *readings, **more)


def vacuum(value, unit="inHg_vac", **more):
    return read("pump_down_vacuum", value, unit, **more)


def rise(value):
    return read("pump_down_rise", value, "psi/min", state="stopped")


# CHECKS.md, pump_down; 25 inHg and 2 psi/min are the handbook's case F10.
@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("25", "pass"),
        ("17", "watch"),
        ("10", "fail"),
        ("0", "fail"),
        (">22", "pass"),
    ],
)
def test_vacuum(value, verdict):
    assert pump_down(LOW, vacuum(value))["verdict"] == verdict


@pytest.mark.parametrize(("value", "verdict"), [("2", "pass"), ("4", "watch"), ("7", "fail")])
def test_rise(value, verdict):
    told = pump_down(LOW, rise(value))
    assert told["verdict"] == verdict
    assert told["unit"] == "psi/min"
    assert "After the stop" in told["because"]


@pytest.mark.parametrize(
    ("pulled", "came_back", "verdict"),
    [
        ("25", "2", "pass"),
        ("25", "7", "fail"),
        ("10", "2", "fail"),
        ("17", "2", "watch"),
    ],
)
def test_the_worse_of_both_carries(pulled, came_back, verdict):
    assert pump_down(LOW, vacuum(pulled), rise(came_back))["verdict"] == verdict


@pytest.mark.parametrize(("value", "unit"), [("-12.3", "psig"), ("2.4", "psia"), ("-0.85", "bar"), ("-84.7", "kPa")])
def test_as_a_pressure_the_limits_stand_on_the_other_side(value, unit):
    told = pump_down(LOW, vacuum(value, unit))
    assert told["verdict"] == "pass"
    assert told["unit"] == unit
    assert all("above" in limit for limit in told["limits"])


def test_a_poor_vacuum_in_psig_fails():
    """-6 psig is 12.2 inHg."""
    told = pump_down(LOW, vacuum("-6", "psig"))
    assert told["verdict"] == "fail"
    assert max(limit["above"] for limit in told["limits"]) == pytest.approx(-7.37, abs=0.01)


def test_own_limits_in_psig_turn_over():
    own = {"pump_down": {"unit": "psig", "fail": {"above": -5}, "source": "bulletin 2"}}
    assert pump_down({**LOW, "limits": own}, vacuum("12"))["verdict"] == "pass"
    assert pump_down({**LOW, "limits": own}, vacuum("8"))["verdict"] == "fail"
    told = pump_down({**LOW, "limits": own}, rise("2"))
    assert "bulletin 2" not in told["because"]


@pytest.mark.parametrize(
    ("machine", "reason"),
    [
        (SCROLL, "scroll"),
        ({**LOW, "type": "semi-hermetic-screw"}, "screw"),
        ({**LOW, "type": "open-screw"}, "screw"),
        ({**LOW, "refrigerant": "R-744"}, "dry ice"),
        ({"refrigerant": "R-448A"}, "type is not known"),
    ],
)
def test_refused_with_the_reason(machine, reason):
    for reading in (vacuum("25"), rise("7")):
        told = pump_down(machine, reading)
        assert told["verdict"] == "cannot_tell"
        assert reason in told["because"]


def test_not_judged_with_foam_or_unloaded():
    assert "foams" in pump_down(LOW, vacuum("10"), signs=present("oil_foam"))["because"]
    assert "Load all banks" in pump_down(LOW, vacuum("10", load="unloaded"))["because"]
    assert pump_down(LOW, vacuum("25", load="full"))["verdict"] == "pass"


def test_an_own_limit_in_absolute_pressure_knows_the_altitude():
    """At 7200 ft the air weighs 11.25 psi, so 7.5 psia is 7.6 inHg of vacuum there, and 14.6 at sea level."""
    own = {"pump_down": {"unit": "psia", "fail": {"above": 7.5}, "source": "bulletin"}}
    high = {**LOW, "limits": own, "site_altitude": 7200, "site_altitude_unit": "ft"}
    told = pump_down(high, vacuum("10"))
    assert told["verdict"] == "pass"
    assert told["limits"][0]["below"] == pytest.approx(7.64, abs=0.02)
    assert pump_down({**LOW, "limits": own}, vacuum("10"))["verdict"] == "fail"
    assert pump_down(high, vacuum("6.3", "psia"))["limits"][0]["above"] == pytest.approx(7.5)
