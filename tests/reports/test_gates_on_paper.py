"""What was passed against advice, started against a gate, or left open is printed by every output."""

import pytest

from rackside.reports import outputs
from rackside.reports.sheet import Json
from tests.engine.case_files import f6
from tests.reports.sheets import sheet_of, told

AT, LATER = "2026-10-14T23:10:00-05:00", "2026-10-14T23:40:00-05:00"


def override(need: str, reason: str) -> Json:
    return {"gate": "restart", "need": need, "reason": reason, "by": "R. Lindqvist", "at": AT}


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_a_need_passed_with_a_reason_stands_on_every_output(kind: outputs.Kind) -> None:
    sheet = sheet_of(f6() | {"overrides": [override("oil_level", "glass painted over")]})
    assert sheet["result"]["gates"]["restart"]["overrides"]
    text = told(sheet, kind)
    assert "Passed against advice, before one witnessed start, 14 Oct 2026 23:10:" in text
    assert "glass painted over" in text
    assert "R. Lindqvist" in text


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_a_start_against_a_gate_that_nobody_may_pass_stands_on_every_output(kind: outputs.Kind) -> None:
    case = f6() | {"overrides": [override("oil_level", "owner insisted")]}
    low = {"id": "low", "point": "insulation_resistance", "value": "0.2", "unit": "Mohm", "state": "isolated"}
    warm = {"leads": "off", "winding_temperature": "84", "winding_temperature_unit": "F", "at": AT}
    case["rounds"][-1]["readings"].append({**low, **warm})
    sheet = sheet_of(case)
    assert sheet["result"]["gates"]["restart"]["started_against"]
    assert "Started against the gate, before one witnessed start, 14 Oct 2026 23:10:" in told(sheet, kind)


@pytest.mark.parametrize("kind", outputs.OUTPUTS)
def test_a_jumper_left_on_stands_on_every_output(kind: outputs.Kind) -> None:
    jumper = {"id": "j", "kind": "jumper_on", "what": "low-pressure control", "at": AT, "by": "T. Okafor"}
    text = told(sheet_of(f6() | {"actions": [jumper]}), kind)
    assert "Jumper still on: low-pressure control, since 14 Oct 2026 23:10" in text


def test_valves_settings_and_ruled_out_causes_stand_on_the_next_technicians_page() -> None:
    moved = {"kind": "valve_moved", "what": "suction service valve", "at": AT, "by": "T. Okafor"}
    case = f6()
    case["actions"] = [
        {**moved, "id": "v1", "before": "back-seated", "after": "cracked"},
        {**moved, "id": "v2", "before": "cracked", "after": "back-seated", "closes": "v1", "at": LATER},
        {"id": "s", "kind": "setting_changed", "what": "low-pressure cut-out", "before": "4", "after": "2", "at": AT},
    ]
    case["rounds"][0]["readings"].append({"id": "n", "point": "pole_drop", "not_taken": "door would not open"})
    text = told(sheet_of(case), "next")
    assert "suction service valve: back-seated (was cracked), T. Okafor" in text
    assert "Setting changed: low-pressure cut-out, 4 → 2" in text
    assert "Contactor pole drop: not taken, because: door would not open" in text


def test_an_unvisited_call_says_so_and_invents_nothing() -> None:
    sheet = sheet_of({"machine": {"tag": "B3"}, "rounds": [], "complaint": "oil_trip"}, technicians=[])
    assert "Nothing has been measured in this call." in told(sheet, "customer")
    assert "No reading." not in told(sheet, "warranty")
    assert "Last visit nobody yet Why" in told(sheet, "next")
    assert "No reading of this call passed its check." in told(sheet, "next")


@pytest.mark.parametrize("kind", ["warranty", "next"])
def test_a_reading_with_two_versions_is_told_until_somebody_picks(kind: outputs.Kind) -> None:
    case = f6()
    case["rounds"][0]["readings"][0]["extra"] = {"two_versions": ["value"]}
    assert "two versions of value" in told(sheet_of(case), kind).lower()


def test_a_condemned_machine_shows_who_approved_and_what_the_gate_still_misses() -> None:
    condemned = {
        "decision": "condemn",
        "cause": "grounded_winding",
        "reason": "low twice",
        "approver": "M. Castellanos",
    }
    text = told(sheet_of(f6() | {"decision": condemned}), "warranty")
    assert "Condemned , cause: Grounded winding . low twice" in text
    assert "Approver M. Castellanos" in text
    assert "Before condemning: not met" in text
