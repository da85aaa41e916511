"""Due times are computed from the readings, in the offset of the call. Source: CHECKS.md, Gates; HANDBOOK.md, A21."""

from typing import Any

from tests.engine.case_files import MT_25, at, megohms, ohms, round_
from tests.engine.healthy import Case, reading
from tests.engine.test_case_files import judged
from tests.engine.test_gates_before_a_start import attempt


def due(*readings: Case, **parts: Any) -> list[tuple[str, str]]:
    case = {
        "complaint": "oil_trip",
        "machine": {"tag": "B1", **MT_25},
        "rounds": [round_("as_found", "21:00", *readings)],
    }
    return [(clock["what"], clock["due"]) for clock in judged({**case, **parts})["clocks"]]


def test_no_start_no_clock() -> None:
    assert due(reading("oil_level", "0.5", "fraction")) == []


def test_after_a_start_in_the_log_oil_times_out_and_the_next_may_follow() -> None:
    start = {"at": at("22:15"), "device": "controller", "what": "start"}
    assert due(events=[start]) == [("oil_timing", at("22:17")), ("next_start_allowed", at("22:20"))]


def test_the_oil_clock_runs_by_the_controls_own_delay() -> None:
    start = {"at": at("22:15"), "device": "controller", "what": "start"}
    machine = {"tag": "B1", **MT_25, "oil_control": {"cut_out": 9, "delay": 90, "unit": "psi"}}
    assert due(events=[start], machine=machine)[0] == ("oil_timing", "2026-10-14T22:16:30-05:00")
    assert due(events=[start], machine={**machine, "oil_pump": "none"}) == [("next_start_allowed", at("22:20"))]


def test_a_reading_with_its_seconds_tells_of_the_start() -> None:
    late = reading("pump_pressure", "70", "psig", "running", since_start=300, at=at("22:20"))
    assert ("next_start_allowed", at("22:20")) in due(late)


def test_a_locked_attempt_cools_for_half_an_hour() -> None:
    clocks = due(*attempt("22:00"))
    assert ("cooling", at("22:30")) in clocks
    assert ("next_start_allowed", at("22:30")) in clocks


def test_a_hot_line_break_protector_gets_four_hours() -> None:
    machine = {"tag": "B1", **MT_25, "protector": {"kind": "line-break"}}
    opened = ohms("OL OL OL", leads="off", at=at("18:00"))
    assert due(opened, machine=machine) == [("cooling", at("22:00"))]


def test_an_insulation_test_read_early_waits_for_its_minute() -> None:
    early = megohms("900", 72, seconds=20, at=at("21:00"))
    assert due(early) == [("insulation_minute", "2026-10-14T21:00:40-05:00")]
    assert due(megohms("900", 72, seconds=60, at=at("21:00"))) == []


def test_the_watch_window_runs_from_the_decision() -> None:
    decision = {
        "decision": "repair",
        "cause": "oil_regulator",
        "at": at("23:00"),
        "watch_until": "2026-10-28T23:00:00-05:00",
    }
    days = ["2026-10-15", "2026-10-17", "2026-10-21", "2026-10-28", "2026-10-28"]
    expected = [("watch_until", f"{day}T23:00:00-05:00") for day in days]
    assert due(megohms("900", 72), decision=decision) == expected


def test_insulation_between_five_and_a_hundred_is_looked_at_again_after_thirty_days() -> None:
    decision = {"decision": "run_under_watch", "at": at("23:00")}
    assert ("watch_until", "2026-11-13T23:00:00-05:00") in due(megohms("180", 72), decision=decision)
    assert ("watch_until", "2026-11-13T23:00:00-05:00") not in due(megohms("900", 72), decision=decision)


def test_each_clock_says_why() -> None:
    start = {"at": at("22:15"), "device": "controller", "what": "start"}
    case = {"machine": {"tag": "B1", **MT_25}, "rounds": [], "events": [start]}
    assert [clock["because"] for clock in judged(case)["clocks"]] == [
        "Without net oil pressure the oil control trips 120 s after the start.",
        "Five minutes between starts.",
    ]
