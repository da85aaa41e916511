"""The contract on a whole call, word by word: gates, comparison, names and keys."""

import pytest

from tests.engine.judging import finding, judge, judge_case
from tests.engine.row_readings import LINES, PAIRS, SEMI, legs, megohms, value


class TestGates:
    def test_a_start_against_the_gate_is_told_once(self) -> None:
        given = {"gate": "reset", "need": "insulation", "reason": "told to", "by": "A. Person"}
        tripped = [{"sign": "breaker_tripped", "present": True}]
        result = judge(SEMI, [megohms("0.2", 25)], complaint="breaker_trip", signs=tripped, overrides=[given])
        assert len(result["gates"]["reset"]["started_against"]) == 1

    def test_the_halves_of_a_part_winding_motor_are_its_three_currents(self) -> None:
        keys = ("1-L1", "1-L2", "1-L3", "2-L1", "2-L2", "2-L3")
        run = legs("half_current", keys, "15 15 15 15 15 15", "A", "running", id="run", since_start=1000)
        start = legs("half_current", keys, "70 70 70 0 0 0", "A", "starting", id="start")
        volts = legs("start_voltage", PAIRS, "440 440 440", "V", "starting")
        gate = judge({**SEMI, "start": "part-winding"}, [start, volts, run])["gates"]["return_to_service"]
        met = {need["need"]: need["met_by"] for need in gate["met"]}
        assert (met["run_in_current"], met["witnessed_start"]) == ("run", "start")

    # CHECKS.md, condemn: "by two meters". A meter that nobody named is not another one.
    def test_an_unnamed_meter_is_not_a_second_one(self) -> None:
        low = [{**megohms("0.2", 25), "meter": "m1"}, megohms("0.2", 25)]
        gate = judge(SEMI, low, complaint="breaker_trip")["gates"]["condemn"]
        assert "two_low_readings" in [need["need"] for need in gate["unmet"]]
        low[1]["meter"] = "m2"
        gate = judge(SEMI, low, complaint="breaker_trip")["gates"]["condemn"]
        assert "two_low_readings" in [need["need"] for need in gate["met"]]

    # CHECKS.md, restart: phase sequence for scroll and screw after lead or supply work.
    @pytest.mark.parametrize(("part", "asked"), [("main contactor", True), ("head fan capacitor", False)])
    def test_a_scroll_whose_feed_was_opened_proves_its_phases(self, part: str, asked: bool) -> None:
        fitted = {"kind": "part_fitted", "what": part, "at": "2026-10-14T21:00:00-05:00"}
        gate = judge({"type": "welded-scroll"}, [], complaint="routine", actions=[fitted])["gates"]["restart"]
        assert ("phase_sequence" in [need["need"] for need in gate["unmet"]]) is asked


def test_as_found_and_as_left_are_compared_across_units() -> None:
    amps = legs("running_current", LINES, "34 34 34", "A", "running")
    rounds = []
    for label, drops, unit in (("as_found", "4.9 0.033 0.032", "V"), ("as_left", "33 32 31", "mV")):
        poles = legs("pole_drop", ("L1-T1", "L2-T2", "L3-T3"), drops, unit, "running")
        rounds.append({"label": label, "readings": [poles, amps]})
    result = judge_case({"machine": SEMI, "rounds": rounds})
    (pair,) = [pair for pair in result["comparison"] if pair["check"] == "pole_drop"]
    assert pair == {"check": "pole_drop", "as_found": pytest.approx(4900), "as_left": 33.0, "unit": "mV"}


def test_a_superheat_in_two_units_is_compared_as_a_difference() -> None:
    rounds = []
    for label, line, pressure, unit in (("as_found", "20", "33", "F"), ("as_left", "0", "33", "C")):
        gas = [value("suction_temperature", line, unit), value("suction_pressure", pressure, "psig")]
        rounds.append({"label": label, "readings": gas})
    result = judge_case({"machine": {**SEMI, "refrigerant": "R-404A"}, "rounds": rounds})
    (pair,) = [pair for pair in result["comparison"] if pair["check"] == "suction_superheat"]
    # Check values 9.45: R-404A at 33 psig, dew 0.4 F by CoolProp 8.0.0, so 19.6 F and 31.6 F of superheat.
    assert (pair["as_found"], pair["as_left"]) == (
        pytest.approx(19.6 / 1.8, abs=0.1),
        pytest.approx(31.6 / 1.8, abs=0.1),
    )


def test_a_reading_without_an_id_is_named_by_none() -> None:
    level = {"point": "oil_level", "value": "0.5", "unit": "fraction", "state": "stopped"}
    result = judge_case({"machine": SEMI, "rounds": [{"label": "as_found", "readings": [level]}]})
    assert finding(result, "oil_level")["readings"] == []


# CHECKS.md, Uncertainty: a stated percent is common to what one meter reads on one range, and cancels there only.
def test_volts_and_amps_of_one_meter_do_not_cancel() -> None:
    stated = {"percent": 2.0}
    meters = {"m": {"kind": "multimeter", "points": {"heater_current": stated, "heater_voltage": stated}}}
    machine = {**SEMI, "heater": {"power": 100, "voltage": 120}}
    readings = [
        value("heater_current", "0.8333", "A", "stopped", meter="m"),
        value("heater_voltage", "120.00", "V", "stopped", meter="m"),
    ]
    found = finding(judge(machine, readings, meters=meters), "heater")
    # Two rectangular limits of 2 %, k = 2 (JCGM 100, 4.3.7): 2 x sqrt(2) x 2 / sqrt(3).
    assert found["uncertainty"] == pytest.approx(2 * 2**0.5 * 2 / 3**0.5, rel=0.001)


# CONTRACT.md, section 1: unknown keys are refused with a clear error, typos must not vanish.
def test_a_limit_for_a_check_that_is_none_is_refused() -> None:
    own = {"unit": "fraction", "fail": {"below": 0.1}, "source": "bulletin"}
    errors = judge_case({"machine": {"limits": {"oil_lvel": own}}, "rounds": []})["errors"]
    assert [error["pointer"] for error in errors] == ["/machine/limits/oil_lvel"]


def test_own_limits_without_a_bound_leave_the_usual_ones() -> None:
    level = value("oil_level", "1", "fraction", "stopped")
    own = {"oil_level": {"unit": "fraction", "source": "bulletin"}}
    assert finding(judge({**SEMI, "limits": own}, [level]), "oil_level")["verdict"] == "fail"


def test_a_reading_left_out_takes_back_no_fail() -> None:
    level = value("oil_level", "0", "fraction", "stopped")
    left_out = {"point": "oil_level", "not_taken": "no light"}
    rounds = [{"label": "as_found", "readings": [level]}, {"label": "as_left", "readings": [left_out]}]
    assert judge_case({"machine": SEMI, "rounds": rounds})["summary"]["fail"] == ["oil_level"]


def test_one_count_between_line_and_load_sends_nobody_to_the_lugs() -> None:
    line = legs("line_voltage", ("L1-L2", "L2-L3", "L3-L1"), "208 207 209", "V", "running")
    load = legs("load_voltage", PAIRS, "207 206 208", "V", "running")
    found = finding(judge({**SEMI, "rated_voltage": 208}, [line, load]), "load_side_voltage")
    assert [said["key"] for said in found.get("also", [])] == []
