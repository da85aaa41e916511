"""The highest leg against rated load and maximum continuous current."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs


def level(*amps, machine=MACHINE, **about):
    return found("running_current_level", legs("running_current", *amps, **about), machine=machine)


# Rated 34.0 A, maximum continuous 47.6 A (140 %).
@pytest.mark.parametrize(
    ("amps", "expected", "verdict"),
    [
        (("29.3", "29.6", "29.1"), 87.0588, "pass"),
        (("33.0", "35.2", "33.1"), 103.5294, "watch"),
        (("47.0", "48.0", "47.1"), 141.1765, "fail"),
    ],
)
def test_value_and_verdict(amps, expected, verdict):
    finding = level(*amps)
    assert finding["value"] == pytest.approx(expected, abs=5e-5)
    assert finding["verdict"] == verdict


def test_a_lower_ceiling_of_the_plate_wins():
    assert level("38.0", "38.1", "38.0", machine={**MACHINE, "max_continuous_current": 37.0})["verdict"] == "fail"


def test_the_machines_own_limit_wins_and_is_named():
    own = {"running_current_level": {"unit": "%", "fail": {"above": 80}, "source": "bulletin 12-B"}}
    finding = level("29.3", "29.6", "29.1", machine={**MACHINE, "limits": own})
    assert finding["verdict"] == "fail"
    assert "bulletin 12-B" in finding["because"]


def test_a_doubtful_meter_cannot_tell_near_the_ceiling():
    meters = {"m": {"kind": "clamp", "points": {"running_current": {"percent": 3.0, "counts": 5}}}}
    reading = legs("running_current", "47.0", "47.2", "46.9", meter="m")
    assert found("running_current_level", reading, meters=meters)["verdict"] == "cannot_tell"


def test_the_halves_of_a_part_winding_add_up():
    machine = {**MACHINE, "start": "part-winding"}
    halves = legs("half_current", "15.0", "15.2", "14.9", "14.0", "14.1", "14.2", state="running")
    finding = found("running_current_level", halves, machine=machine)
    assert finding["value"] == pytest.approx(100 * (15.2 + 14.1) / 34.0)
    assert [leg["value"] for leg in finding["legs"]] == pytest.approx([29.0, 29.3, 29.1])


def test_halves_that_stand_apart_are_pointed_to():
    machine = {**MACHINE, "start": "part-winding"}
    halves = legs("half_current", "28.0", "28.2", "27.9", "0.1", "0.1", "0.2", state="running")
    assert "second contactor" in found("running_current_level", halves, machine=machine)["because"]


def test_rolled_leads_do_not_carry_the_check():
    rolled = legs("running_current", "44.9", "45.0", "44.8", roll=1, at="2026-10-14T23:00:00Z")
    plain = legs("running_current", "29.3", "29.6", "29.1", at="2026-10-14T22:00:00Z")
    assert found("running_current_level", plain, rolled)["verdict"] == "pass"


def test_a_drives_input_is_named_and_its_output_judged():
    machine = {**MACHINE, "start": "drive"}
    assert "drive's input" in level("20.0", "20.1", "20.0", machine=machine)["because"]
    output = legs("drive_output_current", "35.0", "35.1", "35.2", state="running")
    assert found("running_current_level", output, machine=machine)["verdict"] == "watch"


def test_the_plate_is_asked_for():
    assert level("29.3", "29.6", "29.1", machine={})["missing"] == ["machine rated_load_current"]


def test_no_amps_at_all_is_no_pass():
    told = found("running_current_level", legs("running_current", "0", "0", "0"))
    assert told["verdict"] == "cannot_tell"
    assert "not running, or the jaw is not closed" in told["because"]
