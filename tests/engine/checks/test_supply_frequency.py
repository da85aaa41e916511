"""Volts per hertz against the plate, and the hertz alone. Limits: NEMA MG 1, 12.44.1."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs, value


def at(hertz: str, volts: str = "460.0", **machine):
    line = legs("line_voltage", volts, volts, volts)
    return found("supply_frequency", value("line_frequency", hertz), line, machine={**MACHINE, **machine})


# 460/60 = 7.667 V/Hz; each value is 100 (V/Hz / 7.667 - 1), computed by hand; agreement to the digits here.
@pytest.mark.parametrize(
    ("hertz", "volts", "expected", "verdict"),
    [
        ("60.0", "460.0", 0.0, "pass"),
        ("60.0", "480.0", 4.3478, "pass"),
        ("60.0", "490.0", 6.5217, "watch"),
        ("60.0", "510.0", 10.8696, "fail"),
        ("60.0", "410.0", -10.8696, "fail"),
        ("59.0", "455.0", 0.5895, "watch"),
        ("56.0", "430.0", 0.1553, "fail"),
    ],
)
def test_value_and_verdict(hertz, volts, expected, verdict):
    finding = at(hertz, volts)
    assert finding["value"] == pytest.approx(expected, abs=5e-5)
    assert (finding["verdict"], finding["unit"]) == (verdict, "%")


def test_the_hertz_say_so_when_they_decide():
    assert "58.8 Hz" in at("58.8")["because"]


def test_a_plate_with_two_voltages_judges_each_bound_by_its_own():
    assert at("60.0", "220.0", rated_voltage=[208, 230])["value"] == 0.0
    assert at("60.0", "245.0", rated_voltage=[208, 230])["value"] == pytest.approx(6.5217, abs=5e-5)


def test_without_volts_only_a_fail_of_the_hertz_is_told():
    lone = found("supply_frequency", value("line_frequency", "60.0"))
    assert (lone["verdict"], lone["missing"]) == ("cannot_tell", ["line_voltage"])
    assert found("supply_frequency", value("line_frequency", "55.0"))["verdict"] == "fail"


def test_the_plate_is_named_when_missing():
    assert at("60.0", rated_frequency=None)["missing"] == ["machine rated_frequency"]


def test_a_drive_is_named():
    assert "drive" in at("60.0", start="drive")["because"]
