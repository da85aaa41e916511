"""Supply volts, running amps and the start, row by row."""

from typing import Any

import pytest

from rackside.engine.physics.three_phase import derating_factor, extra_heating, negative_sequence
from tests.engine.judging import finding, findings, judge

PLATE = {
    "rated_voltage": 460,
    "supply": {"nominal_voltage": 480},
    "rated_load_current": 40.0,
    "locked_rotor_current": 205,
}


def volts(a: str, b: str, c: str, **more: Any) -> dict[str, Any]:
    return {
        "point": "line_voltage",
        "legs": {"L1-L2": a, "L2-L3": b, "L3-L1": c},
        "unit": "V",
        "state": "running",
        **more,
    }


def amps(a: str, b: str, c: str, **more: Any) -> dict[str, Any]:
    return {"point": "running_current", "legs": {"L1": a, "L2": b, "L3": c}, "unit": "A", "state": "running", **more}


@pytest.mark.parametrize(
    ("legs", "expected"),
    [
        (("478", "480", "479"), "pass"),
        (("462", "463", "455"), "watch"),  # DOE motor tip sheet, printed 1.1 %
        (("461", "475", "472"), "watch"),  # handbook F2, printed 1.8 %
        (("440", "475", "472"), "fail"),
        (("0", "480", "480"), "fail"),
        (("0", "0", "0"), "cannot_tell"),
    ],
)
def test_voltage_unbalance(legs: tuple[str, str, str], expected: str) -> None:
    assert finding(judge(PLATE, [volts(*legs)]), "supply_voltage_unbalance")["verdict"] == expected


def test_a_lost_leg_is_named() -> None:
    found = finding(judge(PLATE, [volts("480", "10", "470")]), "supply_voltage_unbalance")
    assert found["also"][0]["key"] == "supply_voltage_unbalance.lost_leg"
    assert found["also"][0]["values"]["leg"] == "L2-L3"


# CHECK_VALUES section 1: beta formula values computed there two ways (phasors and beta).
@pytest.mark.parametrize(
    ("legs", "percent"), [((462, 463, 455), 1.0914), ((480, 476, 472), 0.9704), ((460, 450, 440), 2.5669)]
)
def test_negative_sequence(legs: tuple[float, float, float], percent: float) -> None:
    assert negative_sequence(*legs) == pytest.approx(percent, abs=0.0005)


def test_no_triangle_has_no_negative_sequence() -> None:
    assert negative_sequence(480, 100, 100) is None
    assert negative_sequence(0, 0, 0) is None


@pytest.mark.parametrize(
    ("percent", "factor"), [(0.5, 1.0), (1.5, 0.97), (2.5, 0.93), (3.5, 0.85), (4.5, 0.78), (5.0, 0.76)]
)
def test_derating_curve(percent: float, factor: float) -> None:
    assert derating_factor(percent) == pytest.approx(factor, abs=0.02)


def test_above_five_percent_it_must_not_run() -> None:
    assert derating_factor(5.01) is None
    assert extra_heating(3.5) == pytest.approx(24.5)


@pytest.mark.parametrize(
    ("machine", "legs", "expected"),
    [
        (PLATE, ("478", "480", "479"), "pass"),
        (PLATE, ("425", "430", "428"), "watch"),
        (PLATE, ("410", "412", "411"), "fail"),
        (PLATE, ("505", "505", "505"), "watch"),
        (PLATE, ("508", "508", "508"), "fail"),
        ({"rated_voltage": [208, 230], "supply": {"nominal_voltage": 208}}, ("208", "209", "207"), "pass"),
        ({"rated_voltage": [208, 230], "supply": {"nominal_voltage": 240}}, ("245", "246", "244"), "pass"),
        ({"rated_voltage": [208, 230], "supply": {"nominal_voltage": 208}}, ("184", "185", "184"), "fail"),
        ({"rated_voltage": 460}, ("425", "430", "428"), "pass"),
        ({}, ("478", "480", "479"), "cannot_tell"),
    ],
)
def test_voltage_level(machine: dict[str, Any], legs: tuple[str, str, str], expected: str) -> None:
    assert finding(judge(machine, [volts(*legs)]), "supply_voltage_level")["verdict"] == expected


def test_the_worst_leg_speaks_whatever_its_distance() -> None:
    found = finding(judge(PLATE, [volts("427", "496", "470")]), "supply_voltage_level")
    assert (found["verdict"], found["detail"]["leg"]) == ("watch", "L1-L2")
    assert [leg["verdict"] for leg in found["legs"]] == ["watch", "pass", "pass"]


def test_volts_without_load_prove_nothing() -> None:
    found = finding(judge(PLATE, [volts("478", "480", "479", state="stopped")]), "supply_voltage_level")
    assert found["also"][0]["key"] == "supply_voltage_level.no_load"


@pytest.mark.parametrize(
    ("legs", "expected"),
    [
        (("33.1", "33.4", "32.9"), "pass"),
        (("39.2", "35.4", "31.6"), "fail"),  # handbook F2, printed 10.7 %
        (("36.0", "33.0", "33.0"), "watch"),
        (("12.0", "9.0", "9.0"), "watch"),  # light load: never a fail
        (("0", "0", "0"), "cannot_tell"),
    ],
)
def test_current_unbalance(legs: tuple[str, str, str], expected: str) -> None:
    assert finding(judge(PLATE, [amps(*legs)]), "running_current_unbalance")["verdict"] == expected


def test_current_unbalance_is_judged_beside_the_volts_of_that_minute() -> None:
    found = finding(
        judge(PLATE, [amps("39.2", "35.4", "31.6"), volts("461", "475", "472")]), "running_current_unbalance"
    )
    assert found["detail"]["ratio_to_voltage_unbalance"] == pytest.approx(6.0, abs=0.1)  # handbook F2: ratio 6.0
    assert found["also"][-1]["key"] == "running_current_unbalance.follows_the_volts"
    even = finding(
        judge(PLATE, [amps("39.2", "35.4", "31.6"), volts("478", "480", "479")]), "running_current_unbalance"
    )
    assert "ratio_to_voltage_unbalance" not in even["detail"]


def test_rolled_leads_do_not_carry() -> None:
    readings = [amps("33.1", "33.4", "32.9"), amps("39.2", "35.4", "31.6", roll=1)]
    result = judge(PLATE, readings)
    assert finding(result, "running_current_unbalance")["readings"] == ["r1"]
    assert len(findings(result, "running_current_unbalance")) == 2


def start(a: str, b: str, c: str, **more: Any) -> list[dict[str, Any]]:
    least = {"T1-T2": "430", "T2-T3": "430", "T3-T1": "430"}
    return [
        {"point": "start_current", "legs": {"L1": a, "L2": b, "L3": c}, "unit": "A", "state": "starting", **more},
        {"point": "start_voltage", "legs": least, "unit": "V", "state": "starting"},
    ]


@pytest.mark.parametrize(
    ("legs", "more", "expected", "key"),
    [
        (("140", "150", "160"), {"duration": 0.3}, "pass", "start_current.pass"),
        (("70", "150", "160"), {"duration": 0.3}, "watch", "start_current.watch"),
        (("140", "150", "225"), {"duration": 0.3}, "watch", "start_current.watch"),
        (("140", "150", "160"), {"duration": 1.5}, "watch", "start_current.slow"),
        (("180", "182", "181"), {"duration": 3}, "fail", "start_current.locked"),
        (("180", "182", "181"), {}, "cannot_tell", "start_current.no_duration"),
        (("250", "255", "252"), {"duration": 0.3, "same_start": True}, "fail", "start_current.too_high"),
        (("4", "150", "160"), {}, "fail", "start_current.lost_leg"),
        (("140", "150", "160"), {"capture": "peak"}, "cannot_tell", "start_current.peak"),
    ],
)
def test_the_start(legs: tuple[str, str, str], more: dict[str, Any], expected: str, key: str) -> None:
    found = finding(judge(PLATE, start(*legs, **more)), "start_current")
    assert (found["verdict"], found["said"]["key"]) == (expected, key)


@pytest.mark.parametrize("kind", ["soft", "drive"])
def test_a_shaped_start_is_not_compared(kind: str) -> None:
    assert (
        finding(judge({**PLATE, "start": kind}, start("140", "150", "160")), "start_current")["verdict"]
        == "cannot_tell"
    )


def test_a_part_winding_start_is_judged_against_its_half() -> None:
    half = {**PLATE, "start": "part-winding", "locked_rotor_current": 300, "locked_rotor_current_half": 205}
    found = finding(judge(half, start("140", "150", "160", duration=0.3)), "start_current")
    assert found["detail"]["expected"] == pytest.approx(205 * 430 / 460)


def test_amps_of_the_first_half_are_the_start_of_a_part_winding_motor() -> None:
    half = {**PLATE, "start": "part-winding", "locked_rotor_current_half": 205}
    legs = {"1-L1": "140", "1-L2": "150", "1-L3": "160", "2-L1": "0", "2-L2": "0", "2-L3": "0"}
    reading = {"point": "half_current", "legs": legs, "unit": "A", "state": "starting", "duration": 0.3}
    found = finding(judge(half, [reading, start("1", "1", "1")[1]]), "start_current")
    assert (found["verdict"], [leg["leg"] for leg in found["legs"]]) == ("pass", ["1-L1", "1-L2", "1-L3"])
    running = {**reading, "state": "running"}
    assert findings(judge(half, [running]), "start_current") == []


def test_what_a_start_needs_is_named() -> None:
    found = finding(judge({}, start("140", "150", "160")[:1]), "start_current")
    assert found["missing"] == ["start_voltage", "machine locked_rotor_current", "machine rated_voltage"]
