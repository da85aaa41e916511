"""Compression ratio, in absolute pressures at the site's own air pressure."""

import pytest
from uncertainties import ufloat

from tests.engine.plant_readings import LOW, MEDIUM, found, read


def ratio(machine, discharge, suction, unit="psig"):
    readings = (read("discharge_pressure", discharge, unit), read("suction_pressure", suction, unit))
    return found("compression_ratio", machine, *readings)


# Source of each: worked_examples.json 9.1 (printed 8.1); handbook formula table (9.1); handbook case F10 (10.3).
@pytest.mark.parametrize(
    ("discharge", "suction", "expected", "agreement"),
    [("145", "5", 8.107, 0.005), ("220", "11", 9.1, 0.05), ("230", "9", 10.3, 0.05)],
)
def test_handbook_examples(discharge, suction, expected, agreement):
    assert ratio(LOW, discharge, suction)["value"] == pytest.approx(expected, abs=agreement)


# CHECKS.md, compression_ratio: low 11.5, medium 6, high 4.5, R-744 and two-stage 4.
@pytest.mark.parametrize(
    ("machine", "discharge", "suction", "verdict"),
    [
        (LOW, "230", "9", "pass"),
        (LOW, "280", "9", "watch"),  # 12.4
        (MEDIUM, "230", "40", "pass"),  # 4.5
        (MEDIUM, "330", "40", "watch"),  # 6.3
        ({**LOW, "application": "high"}, "225", "40", "pass"),
        ({**LOW, "application": "high"}, "260", "40", "watch"),  # 5.0
        ({**LOW, "stage": "two-stage"}, "230", "40", "watch"),
        ({**LOW, "refrigerant": "R-744", "stage": "booster-low"}, "400", "185", "pass"),  # 2.1
        ({**LOW, "refrigerant": "R-744"}, "1300", "300", "watch"),  # 4.2
    ],
)
def test_ceilings(machine, discharge, suction, verdict):
    assert ratio(machine, discharge, suction)["verdict"] == verdict


def test_only_the_machines_own_limit_fails():
    assert ratio(LOW, "500", "5")["verdict"] == "watch"
    own = {"compression_ratio": {"unit": "ratio", "fail": {"above": 12}, "source": "bulletin 9"}}
    told = ratio({**LOW, "limits": own}, "280", "5")
    assert told["verdict"] == "fail"
    assert "bulletin 9" in told["because"]


def test_altitude_raises_it():
    """At 5,000 ft (12.23 psia): (220 + 12.23) / (11 + 12.23) = 10.0 instead of 9.1."""
    assert ratio({**LOW, "site_altitude": 5000}, "220", "11")["value"] == pytest.approx(10.0, abs=0.05)


def test_units_do_not_matter():
    assert ratio(LOW, "15.858", "0.6205", "bar")["value"] == pytest.approx(ratio(LOW, "230", "9")["value"], rel=1e-3)
    assert ratio(LOW, "244.696", "23.696", "psia")["value"] == pytest.approx(244.696 / 23.696)


def test_uncertainty_is_that_of_the_uncertainties_package():
    expected = (ufloat(230, 12**-0.5) + 14.696) / (ufloat(9, 12**-0.5) + 14.696)
    assert ratio(LOW, "230", "9")["uncertainty"] == pytest.approx(2 * expected.std_dev, rel=1e-9)


def test_crossed_gauges_are_named():
    told = ratio(LOW, "10", "230")
    assert told["verdict"] == "cannot_tell"
    assert "crossed" in told["because"]


def test_equal_pressures_while_running_are_not_a_good_ratio():
    told = ratio(LOW, "101", "100")
    assert told["verdict"] == "cannot_tell"
    assert "hardly pumps" in told["because"]


def test_application_comes_from_the_saturated_suction_and_is_said():
    machine = {"refrigerant": "R-448A"}
    assert ratio(machine, "330", "40")["verdict"] == "watch"
    assert "Judged as low temperature" in ratio(machine, "230", "9")["because"]


def test_without_application_and_refrigerant_the_value_stands_alone():
    told = ratio({}, "230", "9")
    assert told["verdict"] == "cannot_tell"
    assert told["missing"] == ["machine application"]
    assert told["value"] == pytest.approx(10.33, abs=0.01)
