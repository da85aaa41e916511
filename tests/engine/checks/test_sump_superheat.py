"""The sump above saturated suction, and its own warmth."""

import pytest

from tests.engine.plant_readings import LOW, SCROLL, found, read, silent


def sump(machine, value, unit="F", psig="10", **more):
    """A finding on the sump at 10 psig of R-448A: dew -19.2 F (CoolProp)."""
    readings = (read("sump_temperature", value, unit, **more), read("suction_pressure", psig, "psig"))
    return found("sump_superheat", machine, *readings)


# CHECKS.md, sump_superheat: over suction and the sump's own temperature, whichever is worse.
@pytest.mark.parametrize(
    ("value", "psig", "verdict", "why"),
    [
        ("102", "10", "pass", "holds oil"),  # handbook F6 after repair: 121 over
        ("118", "40", "pass", "holds oil"),  # F4: 102 over
        ("70", "10", "watch", "below 80"),  # 89 over, yet cool
        ("41", "10", "fail", "below 60"),  # F6: 60 over, yet cold
        ("190", "10", "watch", "above 180"),
        ("85", "70", "watch", "thinning"),  # dew 40 F: 45 over
        ("85", "100", "fail", "full of refrigerant"),  # dew 57 F: 28 over
    ],
)
def test_bands(value, psig, verdict, why):
    told = sump(LOW, value, psig=psig)
    assert told["verdict"] == verdict
    assert why in told["because"]


@pytest.mark.parametrize(("value", "verdict"), [("50", "pass"), ("41", "watch"), ("32", "fail")])
def test_a_scrolls_shell_has_no_floor(value, verdict):
    """At 40 psig R-448A dew is 16.5 F: 33, 24 and 15 F over."""
    assert sump(SCROLL, value, psig="40")["verdict"] == verdict


def test_celsius_in_celsius_out():
    told = sump(LOW, "21", "C")
    assert told["unit"] == "C"
    assert told["verdict"] == "watch"
    assert "below 26.7" in told["because"]


def test_a_standing_machine_is_not_judged():
    assert silent("sump_superheat", LOW, read("sump_temperature", "93", "F") | {"state": "stopped"})


def test_own_limits_stand_alone():
    own = {"sump_superheat": {"unit": "F", "fail": {"below": 20}, "source": "bulletin 3"}}
    assert sump({**LOW, "limits": own}, "50")["verdict"] == "pass"


def test_on_the_floor_itself_no_thermometer_decides():
    told = sump(LOW, "60")
    assert told["verdict"] == "cannot_tell"
    assert "finer thermometer" in told["because"]
