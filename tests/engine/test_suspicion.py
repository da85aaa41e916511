"""Input that can't be or looks like a slip: each finding says what looks wrong and what to do."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs, value
from tests.engine.judging import findings, judge, judge_case

LOCKED = {**MACHINE, "locked_rotor_current": 175, "oil_control": {"cut_out": 9, "delay": 120, "unit": "psi"}}
GAS = {**MACHINE, "refrigerant": "R-448A", "application": "low"}


def told(check, *readings, **more):
    return found(check, *readings, **more)["because"]


def test_legs_swapped_in_name():
    line = legs("line_voltage", "471", "478", "484")
    text = told("load_side_voltage", line, legs("load_voltage", "477", "470", "483"))
    assert "T1-T2, T2-T3 look swapped" in text
    assert "swapped" not in told("load_side_voltage", line, legs("load_voltage", "470", "477", "483"))


@pytest.mark.parametrize("point", ["pole_drop", "fuse_drop", "joint_drop"])
def test_volts_where_millivolts_are_meant(point):
    finding = found(point, legs(point, "38", "41", "44", unit="V"), legs("running_current", "30", "30", "30"))
    assert finding["verdict"] == "cannot_tell"
    assert "if it showed mV, enter mV" in finding["because"]


def test_one_burning_pole_in_volts_is_believed():
    finding = found(
        "pole_drop", legs("pole_drop", "0.04", "4.9", "0.04", unit="V"), legs("running_current", "27", "27", "27")
    )
    assert finding["verdict"] == "fail"


@pytest.mark.parametrize("point", ["pole_drop", "line_voltage"])
def test_millivolts_where_volts_are_meant(point):
    check = {"pole_drop": "pole_drop", "line_voltage": "supply_voltage_level"}[point]
    finding = found(check, legs(point, "0.041", "0.038", "0.044", unit="mV"))
    assert finding["verdict"] == "cannot_tell"
    assert "enter V" in finding["because"]


def test_kilo_for_mega_is_asked_about_and_still_judged():
    finding = found("insulation", value("insulation_resistance", "640", unit="kohm", leads="off"))
    assert "If the tester showed MΩ, enter MΩ" in finding["because"]
    assert "MΩ, enter" not in told("insulation", value("insulation_resistance", "640", unit="Mohm", leads="off"))


@pytest.mark.parametrize(
    ("ohms", "unit"), [(("460", "475", "472"), "ohm"), (("523", "527", "525"), "ohm"), (("52", "52", "53"), "ohm")]
)
def test_volts_or_milliohms_as_a_winding(ohms, unit):
    for check in ("winding_balance", "winding_level"):
        finding = found(check, legs("winding_resistance", *ohms, unit=unit, leads="off"))
        assert finding["verdict"] == "cannot_tell"
        assert "can't be this motor's winding" in finding["because"]


def test_a_small_motors_ohms_are_believed():
    machine = {**MACHINE, "rated_load_current": 1.2, "winding_resistance_25c": 38}
    finding = found("winding_balance", legs("winding_resistance", "38.1", "38.2", "38.0", leads="off"), machine=machine)
    assert finding["verdict"] == "pass"


def test_negative_ohms_and_an_energised_state_are_told():
    assert "can't be" in told("winding_balance", legs("winding_resistance", "-0.5", "0.5", "0.5"))
    assert "can't be read with the machine" in told(
        "winding_balance", legs("winding_resistance", "0.52", "0.52", "0.52", state="running")
    )


def test_of_two_readings_the_later_carries_and_both_are_shown():
    early = legs("running_current", "29.0", "29.1", "29.0", at="2026-10-14T22:00:00Z")
    late = legs("running_current", "36.0", "36.1", "36.0", at="2026-10-14T22:10:00Z")
    both = findings(judge(MACHINE, [late, early]), "running_current_level")
    assert [(one["verdict"], one["carries"]) for one in both] == [("watch", True), ("pass", False)]
    assert "Another reading" in both[1]["because"]


def proof(at, repaired):
    action = {"at": repaired, "kind": "part_fitted", "what": "contactor"}
    readings = [legs("pole_drop", "40", "42", "39", at=at), legs("running_current", "33.1", "33.4", "32.9", at=at)]
    rounds = [{"label": "as_left", "readings": [{"id": f"r{i}", **one} for i, one in enumerate(readings)]}]
    (one,) = findings(judge_case({"machine": MACHINE, "rounds": rounds, "actions": [action]}), "pole_drop")
    return one


def test_a_reading_older_than_the_repair_proves_nothing():
    before = proof("2026-10-14T21:40:00-05:00", "2026-10-14T22:10:00-05:00")
    assert before["verdict"] == "cannot_tell"
    assert "Take it again now" in before["because"]
    assert proof("2026-10-14T22:40:00-05:00", "2026-10-14T22:10:00-05:00")["verdict"] == "pass"


@pytest.mark.parametrize(
    ("point", "check"),
    [("running_current", "running_current_level"), ("line_frequency", "supply_frequency")],
)
def test_a_bound_where_a_number_is_needed_asks_for_another_range(point, check):
    bounded = value(point, "<60") if point == "line_frequency" else legs(point, "<60", "<60", "<60")
    assert "read again" in told(check, bounded)


# A slip is told; where the number can't be, nothing is judged on it.
@pytest.mark.parametrize(
    ("check", "reading", "verdict", "words"),
    [
        ("running_current_level", legs("running_current", "24.8", "25.1", "24.6", unit="mA"), "cannot_tell", "24.8 A"),
        ("running_current_level", legs("running_current", "0.3", "0.2", "0.3"), "cannot_tell", "next to nothing"),
        ("running_current_level", legs("running_current", "248", "251", "246"), "fail", "More than the locked-rotor"),
        ("running_current_unbalance", legs("running_current", "24.8", "251", "24.6"), "fail", "L2 251 A would fit"),
        ("supply_voltage_level", legs("line_voltage", "47.8", "480", "479"), "fail", "L1-L2 47.8 V would fit"),
        (
            "supply_voltage_level",
            legs("line_voltage", "277", "278", "277"),
            "cannot_tell",
            "enter it as line to ground",
        ),
        ("line_ground_symmetry", legs("line_ground_voltage", "480", "479", "478"), "cannot_tell", "as line volts"),
        ("winding_balance", legs("winding_resistance", "0.52", "0.53", "0.52", unit="mohm"), "cannot_tell", "0.525 Ω"),
        ("supply_frequency", value("line_frequency", "6.0"), "cannot_tell", "its point moved"),
        ("oil_trip_timing", value("trip_delay", "2"), "watch", "enter seconds"),
        ("start_current", legs("start_current", "0.12", "0.13", "0.12"), "cannot_tell", "next to nothing"),
    ],
)
def test_a_slip_of_the_pen_is_told(check, reading, verdict, words):
    finding = found(check, reading, machine=LOCKED)
    assert finding["verdict"] == verdict
    assert words in finding["because"]


@pytest.mark.parametrize(
    "reading",
    [
        legs("line_voltage", "478", "0.3", "240"),
        legs("line_voltage", "240", "480", "241"),
        legs("running_current", "34.6", "34.6", "0.3"),
        legs("running_current", "8.1", "8.0", "8.2"),
        legs("winding_resistance", "0.05", "0.52", "0.50", leads="off"),
        legs("line_ground_voltage", "3", "478", "479"),
        value("trip_delay", "62"),
    ],
)
def test_a_real_fault_is_no_slip(reading):
    result = judge(LOCKED, [reading])
    said = " ".join(one["because"] for round_ in result["rounds"] for one in round_["findings"])
    assert said
    for words in ("point moved", "next to nothing", "enter it as", "enter seconds", "published for these"):
        assert words not in said


def test_a_pump_below_its_crankcase_is_crossed_gauges_and_a_dead_pump_is_not():
    def net(pump):
        readings = [value("pump_pressure", pump, state="running"), value("crankcase_pressure", "42", state="running")]
        return found("net_oil_pressure", *readings, machine=LOCKED)

    assert net("10")["verdict"] == "cannot_tell"
    assert "crossed" in net("10")["because"]
    assert net("41")["verdict"] == "fail"


@pytest.mark.parametrize(
    ("suction", "unit", "words"),
    [("10", "psia", "been a gauge reading"), ("0.7", "bar", "been absolute"), ("25", "psia", "")],
)
def test_gauge_and_absolute_mixed_up_is_told(suction, unit, words):
    line = "8" if unit == "psia" else "-13"
    readings = [
        value("suction_pressure", suction, unit, state="running"),
        value("suction_temperature", line, "F", state="running", probe="well"),
    ]
    finding = found("suction_superheat", *readings, machine=GAS)
    assert words in finding["because"]
    assert ("it would fit" in finding["because"]) == bool(words)


def test_a_check_that_has_nothing_to_say_says_nothing_about_a_slip_either():
    result = judge(LOCKED, [legs("running_current", "24.8", "25.1", "24.6", unit="mA")])
    assert findings(result, "lead_roll") == []
