"""Line minus load side of one pair. Limits: CHECKS.md, greater of 0.5 % and 1.5 V, of 1 % and 3 V."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs
from tests.engine.judging import finding, judge

LINE = legs("line_voltage", "478.0", "476.0", "477.0")
POLES = legs("pole_drop", "36", "39", "37")
AMPS = legs("running_current", "24.8", "25.1", "24.6")


def load(*volts, line=LINE, **more):
    return found("load_side_voltage", line, legs("load_voltage", *volts, **more))


# Of 477 V: 0.5 % is 2.385 V, 1 % is 4.77 V.
@pytest.mark.parametrize(
    ("volts", "expected", "verdict"),
    [
        (("477.9", "475.9", "476.9"), 0.1, "pass"),
        (("475.9", "475.9", "476.9"), 2.1, "pass"),
        (("477.9", "472.5", "476.9"), 3.5, "watch"),
        (("477.9", "475.9", "471.5"), 5.5, "fail"),
        (("0.3", "475.9", "1.2"), 477.7, "fail"),
    ],
)
def test_value_and_verdict(volts, expected, verdict):
    told = load(*volts)
    assert told["value"] == pytest.approx(expected)
    assert (told["verdict"], told["unit"]) == (verdict, "V")


def test_a_small_supply_has_its_floor_in_volts():
    line = legs("line_voltage", "208.0", "208.0", "208.0")
    assert load("206.7", "207.9", "207.9", line=line)["verdict"] == "pass"
    assert load("206.0", "207.9", "207.9", line=line)["verdict"] == "watch"
    assert load("204.5", "207.9", "207.9", line=line)["verdict"] == "fail"


def test_the_contactor_is_not_named_when_its_poles_pass():
    readings = [LINE, legs("load_voltage", "477.9", "470.0", "471.0"), POLES, AMPS]
    told = finding(judge(MACHINE, readings), "load_side_voltage")
    assert told["verdict"] == "fail"
    assert "contactor" not in told["because"].lower()
    assert "poles pass" in told["because"]


def test_a_pole_that_does_not_pass_is_pointed_to():
    poles = legs("pole_drop", "36", "4900", "37")
    readings = [LINE, legs("load_voltage", "477.9", "471.1", "472.0"), poles, AMPS]
    assert "see the pole drop" in finding(judge(MACHINE, readings), "load_side_voltage")["because"]


def test_contactor_out_missing_line_and_another_minute_cannot_be_told():
    assert load("0", "0", "0", state="stopped")["verdict"] == "cannot_tell"
    assert found("load_side_voltage", legs("load_voltage", "477", "475", "476"))["missing"] == ["line_voltage"]
    line = {**LINE, "at": "2026-10-14T22:00:00Z"}
    assert load("470", "475", "476", line=line, at="2026-10-14T22:00:59Z")["verdict"] == "fail"
    assert load("470", "475", "476", line=line, at="2026-10-14T22:02:00Z")["verdict"] == "cannot_tell"


def test_volts_at_the_source_are_not_the_line_side():
    line = {**LINE, "where": "source"}
    assert load("470", "475", "476", line=line)["missing"] == ["line_voltage"]


def test_a_load_side_above_its_line_side_is_no_drop():
    told = load("483.9", "475.9", "476.9")
    assert told["verdict"] == "cannot_tell"
    assert "same minute" in told["because"]


WHOLE = legs("line_voltage", "207", "208", "206")


# A meter of whole volts on 208 V: limits 1.5 and 3 V, two roundings of 0.5 V each.
@pytest.mark.parametrize("volts", [("206", "208", "206"), ("206", "207", "205"), ("207", "208", "206")])
def test_one_count_of_a_whole_volt_meter_passes_when_the_poles_do(volts):
    readings = [WHOLE, legs("load_voltage", *volts), POLES, AMPS]
    told = finding(judge(MACHINE, readings), "load_side_voltage")
    assert (told["verdict"], [leg["verdict"] for leg in told["legs"]]) == ("pass", ["pass"] * 3)


def test_one_count_without_the_poles_asks_for_them():
    told = load("206", "208", "206", line=WHOLE)
    assert (told["verdict"], told["missing"]) == ("cannot_tell", ["pole_drop"])
    assert "one count of this meter (1 V)" in told["because"]


def test_one_count_at_the_compressor_is_not_the_contactors_to_clear():
    readings = [WHOLE, legs("load_voltage", "206", "208", "206", where="compressor"), POLES, AMPS]
    assert finding(judge(MACHINE, readings), "load_side_voltage")["verdict"] == "cannot_tell"


def test_poles_that_do_not_pass_clear_nothing():
    readings = [WHOLE, legs("load_voltage", "206", "208", "206"), legs("pole_drop", "36", "180", "37"), AMPS]
    assert finding(judge(MACHINE, readings), "load_side_voltage")["verdict"] == "cannot_tell"


def test_two_counts_are_a_drop_even_on_a_whole_volt_meter():
    readings = [WHOLE, legs("load_voltage", "205", "208", "206"), POLES, AMPS]
    assert finding(judge(MACHINE, readings), "load_side_voltage")["verdict"] == "watch"


def test_one_count_up_is_rounding_and_two_are_not():
    assert load("208", "208", "206", line=WHOLE)["verdict"] == "pass"
    assert "can't be at one moment" in load("210", "208", "206", line=WHOLE)["because"]
