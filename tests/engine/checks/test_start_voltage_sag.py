"""Least volts of a start against the plate. Limits: CHECKS.md, 15 and 20 % below."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs


def sag(*volts, more=(), **machine):
    return found("start_voltage_sag", legs("start_voltage", *volts), *more, machine={**MACHINE, **machine})


@pytest.mark.parametrize(
    ("volts", "expected", "verdict"),
    [
        (("441", "445", "443"), -4.1304, "pass"),
        (("392", "395", "393"), -14.7826, "pass"),
        (("380", "395", "393"), -17.3913, "watch"),
        (("338", "341", "340"), -26.5217, "fail"),
    ],
)
def test_value_and_verdict(volts, expected, verdict):
    finding = sag(*volts)
    assert finding["value"] == pytest.approx(expected, abs=5e-5)
    assert finding["verdict"] == verdict


def test_torque_goes_with_the_square():
    # Handbook, formula table: (338/460) squared is 0.54.
    assert sag("338", "341", "340")["detail"]["torque_share"] == pytest.approx(0.54, abs=0.005)


def test_it_tells_source_from_branch_in_one_start():
    standing = legs("line_voltage", "480", "480", "480", state="stopped")
    weak = legs("start_line_voltage", "350", "352", "351")
    stiff = legs("start_line_voltage", "470", "471", "470")
    assert sag("338", "341", "340", more=(standing, weak))["detail"]["lost_in"] == "source"
    finding = sag("338", "341", "340", more=(standing, stiff))
    assert finding["detail"]["lost_in"] == "branch"
    assert finding["detail"]["dip_percent"] == pytest.approx(100 * (480 - 338) / 480)
    assert "poles, fuses" in finding["because"]


def test_running_volts_are_not_the_standing_volts():
    running = legs("line_voltage", "470", "470", "470", state="running")
    assert "dip_percent" not in sag("441", "445", "443", more=(running,))["detail"]


def test_a_lost_leg_is_not_a_weak_supply():
    assert "leg to find" in sag("12", "440", "441")["because"]


@pytest.mark.parametrize("start", ["soft", "drive"])
def test_not_judged_behind_a_soft_starter_or_drive(start):
    assert sag("250", "250", "250", start=start)["verdict"] == "cannot_tell"


def test_of_two_plate_voltages_the_lower_counts():
    assert sag("200", "200", "200", rated_voltage=[208, 230])["value"] == pytest.approx(-3.8462, abs=5e-5)
