"""What to measure next: what tells most for its cost, never what is not open, and nothing when nothing would matter."""

import math
from typing import Any

import pytest

from rackside.engine.causes.information import Field, entropy, outcomes_of
from rackside.engine.causes.next_test import bits_of, caution_of
from rackside.engine.causes.steps import STEPS
from rackside.engine.points import known_point
from tests.engine.case_files import LT_22, MT_25, amps, drops, f1, f7, megohms, round_, signs, volts
from tests.engine.healthy import Case, reading
from tests.engine.simulated import POINTS, weighed
from tests.engine.test_case_files import judged

RUNS = {"state": "running"}


def case(complaint: str, *readings: Case, **parts: Any) -> Case:
    rounds = [round_("as_found", "21:00", *readings)] if readings else []
    return {"complaint": complaint, "machine": {"tag": "B1", **MT_25}, "rounds": rounds, **parts}


def points(result: dict[str, Any]) -> list[str]:
    return [test["point"] for test in result["next_tests"]]


def states(point: str) -> tuple[str, ...]:
    known = known_point(point)
    assert known is not None
    return known.states


def test_at_most_three_and_the_first_is_the_next() -> None:
    result = judged(case("unbalanced_current", amps("39 35 31")))
    assert 1 <= len(result["next_tests"]) <= 3
    assert result["next_test"] == result["next_tests"][0]


def test_poles_and_volts_come_first_on_uneven_amps() -> None:
    """HANDBOOK B6: pole millivolts first, they are quicker and find the commonest branch fault; then the volts."""
    result = judged(case("unbalanced_current", amps("39 35 31")))
    assert {"pole_drop", "line_voltage"} <= set(points(result))
    told = next(test for test in result["next_tests"] if test["point"] == "pole_drop")
    assert "Contactor pole" in told["because"]
    assert "Start on the volts range" in told["caution"]


def test_a_dead_reading_has_no_caution_and_an_energised_one_has() -> None:
    for step in STEPS:
        result = known_point(step.point)
        assert result is not None
        if step.state == "isolated":
            assert result.caution in ("", "fan_heater")
        elif step.state in ("starting", "stopped"):
            assert result.caution, step.point


def test_a_test_locked_out_says_what_comes_before_it() -> None:
    """CHECKS.md, absence_test and Order of work: isolate, prove, and test apart what is fed from elsewhere."""
    for step in STEPS:
        if step.state == "isolated" and step.point != "fan_capacitance":
            told = caution_of(step.point, "en")
            assert told and told.startswith("Locked out and tagged") and "absence of voltage" in told, step.point
            assert "a drive's DC bus" in told
            assert ("in vacuum" in told) == (step.point in ("insulation_resistance", "cable_insulation_resistance"))
    assert (caution_of("protector_resistance", "es") or "").startswith("Bloqueado y etiquetado")
    assert caution_of("oil_level", "en") is None


def test_insulation_comes_before_everything_when_a_breaker_is_in_it() -> None:
    found = f7()["rounds"][0]
    found["readings"] = [one for one in found["readings"] if one["point"] != "insulation_resistance"]
    result = judged({**f7(), "rounds": [found], "actions": []})
    assert result["next_test"]["point"] == "insulation_resistance"
    assert "before any reset" in result["next_test"]["because"]
    assert all("isolated" in states(point) for point in points(result))


def test_nothing_energised_is_asked_while_insulation_fails() -> None:
    result = judged(case("overload_trip", megohms("0.3", 72)))
    assert points(result)
    assert points(result)[0] == "cable_insulation_resistance"
    assert all("isolated" in states(point) for point in points(result))


def test_a_test_that_needs_a_start_ranks_behind_one_that_does_not() -> None:
    """Stopped, the running tests cost their one start; running, they come first."""
    stopped = judged(case("unbalanced_current", reading("oil_level", "0.5", "fraction", "stopped")))
    running = judged(case("unbalanced_current", amps("39 35 31")))
    assert "pole_drop" in points(running)
    assert not [point for point in points(stopped)[:2] if set(states(point)) <= {"running", "starting"}]


def test_no_start_is_asked_for_across_a_jumper() -> None:
    jumper = {"id": "j", "at": "2026-10-14T21:30:00-05:00", "kind": "jumper_on", "what": "L-M"}
    stopped = case("high_current", reading("oil_level", "0.5", "fraction", "stopped"), actions=[jumper])
    for point in points(judged(stopped)):
        assert set(states(point)) - {"running", "starting"}, point


def test_what_was_not_taken_for_a_reason_is_not_asked_again() -> None:
    skipped = {"point": "pole_drop", "not_taken": "cover will not come off"}
    assert "pole_drop" not in points(judged(case("unbalanced_current", amps("39 35 31"), skipped)))


def test_what_could_not_tell_may_be_asked_again() -> None:
    """Amps of that leg unknown, a pole drop tells nothing: it is worth taking again."""
    alone = case("unbalanced_current", drops("40 41 120"), amps("39 35 31"))
    alone["machine"] = {key: value for key, value in alone["machine"].items() if key != "rated_load_current"}
    result = judged(alone)
    assert [f["verdict"] for f in result["rounds"][0]["findings"] if f["check"] == "pole_drop"] == ["cannot_tell"]
    assert "pole_drop" in points(result)


def test_rolling_the_leads_is_asked_when_it_is_what_is_left_to_tell() -> None:
    """Uneven amps, even volts, even poles and joints: the roll tells supply from motor."""
    told = case(
        "unbalanced_current",
        amps("39 35 31"),
        volts("478 479 480", "running"),
        drops("40 41 42"),
        reading("joint_drop", {"L1": "4", "L2": "4", "L3": "4"}, "mV", "running"),
        reading("fuse_drop", {"L1": "28", "L2": "28", "L3": "28"}, "mV", "running"),
    )
    rolls = [test for test in judged(told)["next_tests"] if test["point"] == "running_current"]
    assert len(rolls) == 1
    assert rolls[0]["because"].startswith("Lock out, move all three motor leads")
    rolled = {**told, "rounds": [*told["rounds"], round_("interim", "22:00", amps("31 39 35", roll=1))]}
    assert "running_current" not in points(judged(rolled))


def test_nothing_more_to_measure_is_an_answer() -> None:
    result = judged(f1())
    assert result["next_tests"] == []
    assert result["next_test"] is None
    assert result["next_text"] == "Nothing more to measure here would change the answer."


def test_what_a_start_still_needs_fills_the_list_when_the_cause_is_clear() -> None:
    result = judged(case("oil_trip", signs=signs("zero_current_before_alarm", "contactor_not_pulled_in", "head_cold")))
    assert result["causes"][0]["cause"] == "never_ran"
    needed = judged(f7() | {"rounds": f7()["rounds"][:1], "actions": []})
    assert points(needed) == ["crankcase_pressure"]
    assert needed["next_test"]["because"] == "Before one witnessed start this is still missing."


@pytest.mark.parametrize(
    "machine", [LT_22, {**LT_22, "type": "welded-scroll"}, {**LT_22, "type": "semi-hermetic-screw"}]
)
def test_it_asks_only_what_the_machine_has(machine: Case) -> None:
    asked = set()
    for complaint in ("low_current", "noise", "short_cycling", "high_discharge_temperature"):
        run = case(complaint, amps("24 24 24"), volts("478 479 480", "running"), machine=machine)
        asked |= set(points(judged(run)))
    if machine["type"] != "semi-hermetic-reciprocating":
        assert not asked & {"pump_down_vacuum", "unloader_step", "head_temperature"}
    assert not asked & {"half_current", "drive_output_current"}


def test_expected_information_is_what_adding_up_the_outcomes_gives() -> None:
    """Mutual information of cause and outcome, straight from its definition, over the causes worth counting."""
    weighing = weighed("unbalanced_current", [])
    field = Field(weighing)
    shares = dict(zip(field.causes, field.shares, strict=True))
    for point in ("pole_drop", "overload_dial", "oil_colour"):
        (fact, showing) = dict(POINTS)[point][0]
        mutual = 0.0
        for row in showing.chances:
            under = {cause: sum(a * b for a, b in zip(fact.chances(cause), row, strict=True)) for cause in shares}
            whole = sum(shares[cause] * under[cause] for cause in shares)
            mutual += sum(shares[c] * under[c] * math.log2(under[c] / whole) for c in shares)
        assert bits_of(field, point, []) == pytest.approx(mutual, abs=1e-9)


def test_a_measurement_with_nothing_new_tells_nothing() -> None:
    fact, showing = dict(POINTS)["overload_dial"][0]
    weighing = weighed("overload_trip", [(fact, showing, 1)])

    class Seen:
        pass

    seen = Seen()
    seen.showing = showing  # type: ignore[attr-defined]
    assert outcomes_of(Field(weighing), ("finding:overload_setting",), [seen]) == []
    assert entropy([0.5, 0.5]) == pytest.approx(1.0)
