"""Input that can't be or looks like a slip: each finding says what looks wrong and what to do."""

import pytest

from tests.engine.electrical_readings import MACHINE, found, legs, value
from tests.engine.judging import findings, judge, judge_case


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
    machine = {**MACHINE, "rated_load_current": 1.2}
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
