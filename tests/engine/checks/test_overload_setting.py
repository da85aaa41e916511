"""The overload dial against rated load current. 140 % of rated load current: NEC 440.52(A)(1), from memory."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs, value
from tests.engine.judging import finding, judge_case

DRAWN = {**MACHINE, "overload_setting": 38}


def dial(amps, *more, machine=DRAWN):
    return found("overload_setting", value("overload_dial", amps), *more, machine=machine)


# Rated 34.0 A; the trip stands at 1.2 times the dial; 140 % and the plate's 47.6 A both allow a dial to 39.67 A.
@pytest.mark.parametrize(
    ("amps", "verdict"),
    [
        ("38", "pass"),
        ("36.2", "pass"),
        ("36.0", "watch"),
        ("33.9", "watch"),
        ("24", "watch"),
        ("39.6", "pass"),
        ("40", "fail"),
    ],
)
def test_each_band(amps, verdict):
    told = dial(amps)
    assert told["verdict"] == verdict
    assert told["value"] == pytest.approx(100 * float(amps) / 34.0)


def test_a_dial_at_the_plates_current_passes():
    assert dial("34", machine=MACHINE)["verdict"] == "pass"


def test_the_trip_ceiling_is_140_percent():
    # worked_examples.json 6.23: 140 % of 38 A is 53.2 A, so a dial of 44.33 A is the last to pass.
    machine = {"rated_load_current": 38}
    assert dial("44.3", machine=machine)["verdict"] == "pass"
    assert dial("44.4", machine=machine)["verdict"] == "fail"


def test_a_lower_maximum_continuous_current_wins():
    machine = {**MACHINE, "max_continuous_current": 42.0}
    assert dial("34.9", machine=machine)["verdict"] == "pass"
    assert dial("35.1", machine=machine)["verdict"] == "fail"


@pytest.mark.parametrize(
    ("overload", "amps"),
    [
        ({"place": "half"}, "19"),
        ({"place": "delta"}, "21.94"),
        ({"ratio": 10}, "3.8"),
        ({"place": "half", "ratio": 2}, "9.5"),
    ],
)
def test_the_dial_stands_for_line_current(overload, amps):
    told = dial(amps, machine={**MACHINE, "overload": overload})
    assert told["verdict"] == "pass"
    assert told["detail"]["equivalent_dial"] == pytest.approx(38.0, abs=0.01)


def test_the_relays_own_trip_factor_counts():
    assert dial("44", machine={**MACHINE, "overload": {"trip_factor": 1.05}})["verdict"] == "pass"


def test_a_dial_below_a_running_current_of_the_call_fails():
    # Handbook, case F1: dial 24 A, 29.6 A running.
    told = dial("24", legs("running_current", "29.3", "29.6", "29.1"))
    assert told["verdict"] == "fail"
    assert "29.6 A" in told["because"]


def test_running_current_of_another_round_counts_and_a_twins_does_not():
    amps = legs("running_current", "39.3", "39.6", "39.1")
    rounds = [
        {"label": "as_found", "readings": [amps]},
        {"label": "interim", "readings": [value("overload_dial", "38")]},
    ]
    assert finding(judge_case({"machine": DRAWN, "rounds": rounds}), "overload_setting")["verdict"] == "fail"
    assert dial("38", {**amps, "twin": True})["verdict"] == "pass"


def test_no_overload_relay_is_an_answer():
    told = found("overload_setting", {"point": "overload_dial", "not_taken": "No overload relay here"})
    assert (told["verdict"], told["value"], told["missing"]) == ("pass", None, [])
    left = found("overload_setting", {"point": "overload_dial", "not_taken": "panel locked"})
    assert (left["verdict"], left["missing"]) == ("cannot_tell", ["overload_dial"])


def test_the_plate_is_asked_for():
    assert dial("38", machine={})["missing"] == ["machine rated_load_current"]
