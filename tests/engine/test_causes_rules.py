"""What the ranking promises: evidence in words, honesty about what is not known, the motor before the oil."""

from typing import Any

import pytest

from tests.engine.case_files import MT_25, amps, at, drops, megohms, net_oil, ohms, round_, signs, volts
from tests.engine.healthy import Case, reading
from tests.engine.test_case_files import judged

OIL = {"floodback", "migration", "oil_away", "oil_regulator", "oil_control_fault", "oil_pump_fault", "worn_bearings"}
OIL |= {"low_suction"}


def case(complaint: str, *readings: Case, **more: Any) -> Case:
    rounds = [round_("as_found", "21:00", *readings)] if readings else []
    return {"complaint": complaint, "machine": {"tag": "B1", **MT_25}, "rounds": rounds, **more}


def chance(result: dict[str, Any], cause: str) -> float:
    return next(float(told["probability"]) for told in result["causes"] if told["cause"] == cause)


class TestNoEvidence:
    def test_it_gives_the_priors_and_says_so(self) -> None:
        result = judged(case("overload_trip"))
        assert chance(result, "contactor_pole") == pytest.approx(0.9 * 15 / 100)
        assert result["weighing"]["facts"] == 0
        assert "Nothing has been measured or seen" in result["weighing"]["text"]
        assert {told["word"] for told in result["causes"]} <= {"possible", "not_shown"}

    def test_without_a_complaint_all_causes_weigh_about_alike(self) -> None:
        result = judged({"machine": {}, "rounds": []})
        assert max(told["probability"] for told in result["causes"]) < 0.05

    def test_a_reading_that_cannot_tell_is_no_evidence(self) -> None:
        """Tenths of an ohm cannot judge a half-ohm winding; a reading not taken tells as little."""
        bare = judged(case("overload_trip"))
        blunt = judged(case("overload_trip", ohms("0.7 0.7 0.8", leads="off")))
        skipped = judged(case("overload_trip", {"point": "pole_drop", "not_taken": "not safe to reach"}))
        assert blunt["rounds"][0]["findings"][0]["verdict"] == "cannot_tell"
        assert blunt["causes"] == bare["causes"] == skipped["causes"]
        assert "pole_drop" not in [test["point"] for test in skipped["next_tests"]]


class TestEvidence:
    def test_it_is_listed_for_and_against_with_its_reading(self) -> None:
        result = judged(
            case("unbalanced_current", drops("40 41 420"), volts("479 478 480", "running"), amps("30 31 30"))
        )
        pole = next(told for told in result["causes"] if told["cause"] == "contactor_pole")
        supply = next(told for told in result["causes"] if told["cause"] == "voltage_unbalance")
        assert pole["for"][0] == {
            "from": "finding:pole_drop",
            "reading": "as_found-21:00-0",
            "text": pole["for"][0]["text"],
        }
        assert "one pole is bad" in pole["for"][0]["text"]
        assert "finding:supply_voltage_unbalance" in [fact["from"] for fact in supply["against"]]

    def test_a_sign_said_to_be_absent_counts_against(self) -> None:
        without = judged(case("oil_trip", signs=signs("motor_turned")))
        absent = judged(case("oil_trip", signs=signs("motor_turned", absent=("oil_foam",))))
        assert chance(absent, "floodback") < chance(without, "floodback")

    def test_a_complaint_is_not_counted_again_as_its_own_sign(self) -> None:
        bare, said = judged(case("breaker_trip")), judged(case("breaker_trip", signs=signs("breaker_tripped")))
        assert said["causes"] == bare["causes"]

    def test_pitting_alone_shows_nothing(self) -> None:
        bare, pitted = judged(case("oil_trip")), judged(case("oil_trip", signs=signs("contacts_pitted")))
        assert chance(pitted, "contactor_pole") < 1.5 * chance(bare, "contactor_pole")

    def test_what_was_read_after_the_repair_is_no_evidence_of_the_cause(self) -> None:
        before = case("unbalanced_current", drops("40 41 420"))
        after = {**before, "rounds": [*before["rounds"], round_("as_left", "23:00", drops("40 41 42"))]}
        assert judged(after)["causes"] == judged(before)["causes"]
        mended = {**before, "actions": [{"id": "a", "at": at("22:00"), "kind": "part_fitted", "what": "contactor"}]}
        mended["rounds"] = [*before["rounds"], round_("interim", "22:30", drops("40 41 42"))]
        assert chance(judged(mended), "contactor_pole") == pytest.approx(chance(judged(before), "contactor_pole"))

    def test_a_fault_that_comes_and_goes_still_counts(self) -> None:
        bad = case("unbalanced_current", drops("40 41 420"))
        twice = {**bad, "rounds": [*bad["rounds"], round_("interim", "22:30", drops("40 41 42"))]}
        assert chance(judged(twice), "contactor_pole") == pytest.approx(chance(judged(bad), "contactor_pole"))

    def test_a_log_tells_what_a_sign_tells(self) -> None:
        event = {"at": at("20:00"), "device": "breaker", "what": "trip"}
        by_log = judged(case("oil_trip", events=[event]))
        by_sign = judged(case("oil_trip", signs=signs("breaker_tripped")))
        assert chance(by_log, "never_ran") == pytest.approx(chance(by_sign, "never_ran"))
        assert by_log["causes"][0]["for"][0]["from"] == "event:breaker"


class TestContradiction:
    def test_it_is_named_and_lowers_confidence(self) -> None:
        clear = judged(case("oil_trip", signs=signs("zero_current_before_alarm", "breaker_tripped")))
        torn = judged(case("oil_trip", signs=signs("zero_current_before_alarm", "breaker_tripped", "motor_turned")))
        assert clear["weighing"]["contradictions"] == []
        named = torn["weighing"]["contradictions"]
        assert [told["from"] for told in named] == [["sign:motor_turned", "sign:zero_current_before_alarm"]]
        assert chance(torn, "never_ran") < chance(clear, "never_ran")
        assert "contradict" in torn["weighing"]["text"]

    def test_findings_that_agree_are_not_called_a_contradiction(self) -> None:
        result = judged(case("unbalanced_current", volts("461 475 472", "running"), amps("39.2 35.4 31.6")))
        assert result["weighing"]["contradictions"] == []


class TestDidItTurn:
    @pytest.mark.parametrize("seen", [(), ("oil_foam",), ("oil_foam", "frost_on_crankcase", "oil_glass_full")])
    def test_no_oil_cause_leads_before_that_is_settled(self, seen: tuple[str, ...]) -> None:
        result = judged(case("oil_trip", signs=signs(*seen)))
        assert result["weighing"]["turned"] == "unsettled"
        assert result["causes"][0]["cause"] not in OIL
        assert not [told for told in result["causes"] if told["cause"] in OIL and told["word"] == "likely"]
        asked = {question["sign"] for question in result["look_for"]}
        assert asked & {"motor_turned", "zero_current_before_alarm", "breaker_tripped", "head_cold"}

    def test_once_it_turned_the_oil_cause_leads(self) -> None:
        seen = signs("motor_turned", "oil_foam", "frost_on_crankcase", "bulb_loose")
        result = judged(case("oil_trip", signs=seen))
        assert result["weighing"]["turned"] == "turned"
        assert (result["causes"][0]["cause"], result["causes"][0]["word"]) == ("floodback", "likely")

    def test_low_net_oil_pressure_read_running_settles_it_too(self) -> None:
        result = judged(case("oil_trip", *net_oil("45", "40", 300)))
        assert result["weighing"]["turned"] == "turned"

    def test_it_is_not_asked_where_oil_is_not_the_complaint(self) -> None:
        assert judged(case("high_current"))["weighing"]["turned"] is None


def test_what_fits_no_cause_stays_with_the_unknown_one() -> None:
    odd = signs(
        "fan_not_turning", "oil_low_everywhere", "injection_line_warm", "second_contactor_late", "terminal_box_wet"
    )
    bare, strange = judged(case("overload_trip")), judged(case("overload_trip", signs=odd))
    assert chance(strange, "unknown") > 3 * chance(bare, "unknown")
    assert strange["causes"][0]["cause"] == "unknown"


def test_everything_measured_good_makes_nothing_found_more_likely() -> None:
    good = case(
        "overload_trip",
        drops("40 41 42"),
        volts("479 478 480", "running"),
        amps("30 31 30"),
        ohms("0.402 0.404 0.403", leads="off"),
        megohms("900", 72),
        reading("overload_dial", "44", "A", "isolated"),
    )
    result, bare = judged(good), judged(case("overload_trip"))
    assert chance(result, "nothing_found") > 2 * chance(bare, "nothing_found")
    assert not [told for told in result["causes"] if told["word"] == "likely"]


def test_the_machine_beside_counts_as_a_twin() -> None:
    own = case("unbalanced_current", amps("39.2 35.4 31.6"))
    beside = reading("running_current", {"L1": "38.4", "L2": "35.0", "L3": "31.5"}, "A", "running")
    with_twin = {**own, "neighbours": [{"tag": "B3", "like": True, "running": True, "readings": [beside]}]}
    assert chance(judged(with_twin), "voltage_unbalance") > chance(judged(own), "voltage_unbalance")
