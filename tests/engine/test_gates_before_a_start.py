"""The gates before a reset and before one witnessed start, need by need, block by block. Source: CHECKS.md, Gates."""

from typing import Any

import pytest

from tests.engine.case_files import MT_25, at, megohms, ohms, round_, signs, volts
from tests.engine.healthy import Case, reading
from tests.engine.test_case_files import judged

NOW = at("23:30")
READY = signs("valves_stated", "terminal_cover_on")
TRIP = {"at": at("20:00"), "device": "oil_control", "what": "trip"}
BREAKER = {"at": at("20:00"), "device": "breaker", "what": "trip"}
JOINED = {"leads": "on"}


def whole(*more: Case, without: str = "", **parts: Any) -> Case:
    """Return a case of B1 with all that a start needs, less the readings of one point."""
    readings = [
        volts("479 478 480", "stopped"),
        reading("crankcase_pressure", "40", "psig", "stopped"),
        reading("oil_level", "0.5", "fraction", "stopped"),
        reading("sump_temperature", "95", "F", "stopped"),
        reading("ambient_temperature", "70", "F"),
        *more,
    ]
    kept = [one for one in readings if one["point"] != without]
    told = {"complaint": "oil_trip", "machine": {"tag": "B1", **MT_25}, "at": NOW, "events": [TRIP], "signs": READY}
    return {**told, "rounds": [round_("as_found", "21:00", *kept)], **parts}


def gate(case: Case, name: str = "restart") -> dict[str, Any]:
    found: dict[str, Any] = judged(case)["gates"][name]
    return found


def unmet(case: Case, name: str = "restart") -> list[str]:
    return [need["need"] for need in gate(case, name)["unmet"]]


class TestReset:
    def test_an_oil_trip_that_is_written_down_may_be_reset(self) -> None:
        assert gate(whole(), "reset")["open"] is True

    def test_what_opened_comes_first(self) -> None:
        assert unmet(whole(events=[]), "reset") == ["what_opened"]
        photo = [{"id": "p", "shows": "alarm"}]
        shown = gate(whole(events=[], photos=photo), "reset")
        assert shown["open"] is True
        assert shown["met"][0]["met_by"] == "photo:p"

    @pytest.mark.parametrize(
        "parts",
        [
            {"events": [BREAKER]},
            {"events": [{**BREAKER, "device": "fuse"}]},
            {"signs": signs("trips_instantly")},
            {"signs": signs("burnt_smell")},
            {"signs": signs("breaker_tripped")},
            {"complaint": "breaker_trip"},
            {"complaint": "burnout", "events": []},
        ],
        ids=["breaker", "fuse", "instant", "smell", "sign", "complaint", "nobody knows"],
    )
    def test_insulation_comes_before_it_when_a_short_is_possible(self, parts: Case) -> None:
        found = gate(whole(**parts), "reset")
        assert "insulation_resistance" in found["needs"]
        need = next(need for need in found["unmet"] if need["need"] == "insulation")
        assert (need["point"], need["met_by"], need["overridable"]) == ("insulation_resistance", None, False)

    def test_motor_and_cable_together_will_do(self) -> None:
        found = gate(whole(megohms("900", 72, **JOINED), events=[BREAKER]), "reset")
        assert found["open"] is True
        assert [need["met_by"] for need in found["met"] if need["need"] == "insulation"] == ["as_found-21:00-5"]

    def test_it_must_be_hot_too_when_it_trips_hot(self) -> None:
        cold = whole(megohms("900", 72, **JOINED), signs=READY + signs("trips_when_hot"))
        assert unmet(cold, "reset") == ["insulation_hot"]
        hot = whole(megohms("900", 120, **JOINED), signs=READY + signs("trips_when_hot"))
        assert unmet(hot, "reset") == []

    def test_a_low_value_blocks_and_no_one_may_pass_it(self) -> None:
        override = {"gate": "reset", "need": "insulation", "reason": "product at risk", "by": "M. Castellanos"}
        low = whole(megohms("1.2", 72), events=[BREAKER], overrides=[override])
        found = gate(low, "reset")
        assert found["blocked_by"] == ["insulation"]
        assert found["open"] is False
        assert found["overridden"] is None
        assert found["started_against"][0]["by"] == "M. Castellanos"
        assert "against the gate" in found["started_against"][0]["text"]

    def test_a_fail_is_not_taken_back_by_a_reading_left_out_or_one_that_decides_nothing(self) -> None:
        low = whole(megohms("1.2", 72), events=[BREAKER])
        for later in (
            {"point": "insulation_resistance", "not_taken": "tester flat"},
            {"point": "insulation_resistance", "value": "abc", "unit": "Mohm", "state": "isolated"},
            megohms("14", 40),
        ):
            case = {**low, "rounds": [*low["rounds"], round_("interim", "22:00", later)]}
            assert gate(case, "reset")["blocked_by"] == ["insulation"], later
        dry = {**low, "rounds": [*low["rounds"], round_("interim", "22:00", megohms("900", 90))]}
        assert gate(dry, "reset")["open"] is True

    def test_a_pass_is_not_taken_back_by_a_reading_left_out(self) -> None:
        good = whole(megohms("900", 72, **JOINED), events=[BREAKER])
        skipped = round_("interim", "22:00", {"point": "insulation_resistance", "not_taken": "done already this visit"})
        assert gate({**good, "rounds": [*good["rounds"], skipped]}, "reset")["open"] is True

    def test_a_reading_that_cannot_decide_does_not_meet_it(self) -> None:
        damp = whole(megohms("14", 55), events=[BREAKER], signs=READY + signs("oil_glass_full"))
        assert "insulation" in unmet(damp, "reset")

    def test_low_together_and_good_alone_asks_for_the_cable(self) -> None:
        both = whole(megohms("1.2", 72, **JOINED), megohms("900", 72), events=[BREAKER])
        assert unmet(both, "reset") == ["cable_insulation"]
        cable = reading("cable_insulation_resistance", "800", "Mohm", "isolated")
        assert gate(whole(megohms("1.2", 72, **JOINED), megohms("900", 72), cable, events=[BREAKER]), "reset")["open"]

    def test_an_ohmmeters_dead_ground_blocks_until_insulation_takes_it_back(self) -> None:
        dead = reading(
            "winding_ground_resistance", {"T1-G": "0.02", "T2-G": "0.02", "T3-G": "0.02"}, "Mohm", "isolated"
        )
        assert gate(whole(dead), "reset")["blocked_by"] == ["winding_ground"]
        assert gate(whole(dead, megohms("900", 72, **JOINED)), "reset")["blocked_by"] == []

    def test_a_routine_visit_has_nothing_to_reset(self) -> None:
        assert gate(whole(complaint="routine", events=[]), "reset")["open"] is True


class TestRestart:
    def test_it_opens_when_everything_is_known(self) -> None:
        found = gate(whole())
        assert (found["open"], found["unmet"], found["blocked_by"], found["needs"]) == (True, [], [], [])
        assert judged(whole())["summary"]["gates"]["restart"] is True

    @pytest.mark.parametrize(
        ("point", "need"),
        [
            ("line_voltage", "stopped_volts"),
            ("crankcase_pressure", "crankcase_above_atmosphere"),
            ("oil_level", "oil_level"),
            ("sump_temperature", "sump_temperature"),
        ],
    )
    def test_each_measurement_is_needed(self, point: str, need: str) -> None:
        found = gate(whole(without=point))
        assert [one["need"] for one in found["unmet"]] == [need]
        assert found["needs"] == [point]
        assert found["unmet"][0]["text"] != "need." + need

    def test_valves_and_cover_must_be_stated(self) -> None:
        assert unmet(whole(signs=[])) == ["valves_stated", "terminal_cover_on"]

    @pytest.mark.parametrize("values", ["400 402 401", "440 480 478", "0 479 0"])
    def test_volts_out_of_band_or_unbalanced_shut_it(self, values: str) -> None:
        case = whole(without="line_voltage")
        case["rounds"][0]["readings"].append({"id": "v", **volts(values, "stopped")})
        assert "stopped_volts" in unmet(case)

    def test_volts_two_percent_apart_do_not(self) -> None:
        case = whole(without="line_voltage")
        case["rounds"][0]["readings"].append({"id": "v", **volts("461 475 472", "stopped")})
        assert unmet(case) == []

    def test_a_full_glass_is_not_a_seen_line(self) -> None:
        case = whole(without="oil_level")
        case["rounds"][0]["readings"].append({"id": "o", **reading("oil_level", "1", "fraction", "stopped")})
        assert unmet(case) == ["oil_level"]
        assert unmet(whole(signs=READY + signs("oil_line_not_seen"))) == ["oil_level"]

    def test_a_sump_is_warm_twenty_degrees_over_the_room(self) -> None:
        case = whole(without="sump_temperature")
        case["rounds"][0]["readings"].append({"id": "s", **reading("sump_temperature", "85", "F", "stopped")})
        assert unmet(case) == ["sump_temperature"]

    def test_or_twenty_degrees_over_saturated_suction(self) -> None:
        """40 psig of R-448A is dew 17 F: a sump at 60 F is 43 F above it."""
        case = whole(reading("suction_pressure", "40", "psig", "stopped"), without="sump_temperature")
        case["rounds"][0]["readings"].append({"id": "s", **reading("sump_temperature", "60", "F", "stopped")})
        assert unmet(case) == []

    def test_a_sump_is_not_asked_within_half_an_hour_of_the_stop(self) -> None:
        assert unmet(whole(without="sump_temperature", events=[{**TRIP, "at": at("23:10")}])) == []

    def test_five_minutes_after_a_start(self) -> None:
        start = {"at": at("23:27"), "device": "controller", "what": "start"}
        assert unmet(whole(events=[TRIP, start])) == ["start_wait"]
        assert unmet(whole(events=[TRIP, {**start, "at": at("23:25")}])) == []

    def test_thirty_minutes_after_a_locked_attempt_and_not_a_third(self) -> None:
        assert unmet(whole(*attempt("23:10"))) == ["start_wait"]
        assert unmet(whole(*attempt("22:50"))) == []
        assert unmet(whole(*attempt("22:00"), *attempt("22:50"))) == ["attempts"]

    def test_sequence_is_proven_on_a_scroll_after_work_on_its_leads(self) -> None:
        machine = {"tag": "C1", **MT_25, "type": "welded-scroll"}
        lifted = [
            {"id": "l", "at": at("21:30"), "kind": "lead_lifted", "what": "T1"},
            {"id": "m", "at": at("21:40"), "kind": "lead_restored", "what": "T1", "closes": "l"},
        ]
        assert "phase_sequence" not in unmet(whole(machine=machine))
        assert "phase_sequence" in unmet(whole(machine=machine, actions=lifted))
        proof = reading("phase_sequence", "forward", state="stopped", at=at("21:50"))
        assert "phase_sequence" not in unmet(whole(proof, machine=machine, actions=lifted))
        assert "phase_sequence" not in unmet(whole(actions=lifted))

    def test_amber_oil_and_a_little_unbalance_never_shut_it(self) -> None:
        amber = reading("oil_colour", "amber")
        heater = [reading("heater_voltage", "119", "V", "stopped"), reading("heater_current", "0.00", "A", "stopped")]
        assert gate(whole(amber, ohms("0.402 0.415 0.403", leads="off"), *heater))["open"] is True


def attempt(clock: str) -> list[Case]:
    """Return a start that stood locked: three even legs at locked-rotor current for 3 s."""
    amps = {"L1": "200", "L2": "202", "L3": "201"}
    least = {"T1-T2": "455", "T2-T3": "456", "T3-T1": "455"}
    return [
        reading("start_current", amps, "A", "starting", at=at(clock), duration=3.0, same_start=True, capture="inrush"),
        reading("start_voltage", least, "V", "starting", at=at(clock)),
    ]


class TestBlocks:
    def test_a_jumper(self) -> None:
        on = {"id": "j", "at": at("21:30"), "kind": "jumper_on", "what": "oil control L-M"}
        assert gate(whole(actions=[on]))["blocked_by"] == ["jumper"]
        off = {"id": "k", "at": at("21:40"), "kind": "jumper_off", "closes": "j"}
        assert gate(whole(actions=[on, off]))["open"] is True

    def test_an_uneven_winding_whose_high_leg_moved_with_the_motor(self) -> None:
        amps = [
            reading("running_current", {"L1": "39", "L2": "35", "L3": "31"}, "A", "running"),
            reading("running_current", {"L1": "31", "L2": "39", "L3": "35"}, "A", "running", roll=1),
        ]
        uneven = ohms("0.402 0.402 0.480", leads="off")
        assert "winding_follows_motor" in gate(whole(uneven, *amps))["blocked_by"]
        assert "winding_follows_motor" not in gate(whole(uneven))["blocked_by"]
        assert "winding_follows_motor" not in gate(whole(*amps))["blocked_by"]

    def test_glitter_with_a_knock(self) -> None:
        glitter = reading("oil_colour", "glitter")
        assert gate(whole(glitter, signs=READY + signs("knock")))["blocked_by"] == ["glitter_and_knock"]
        assert gate(whole(glitter))["open"] is True

    def test_liquid_with_a_cold_sump(self) -> None:
        wet = READY + signs("frost_on_crankcase")
        assert gate(whole(signs=wet))["open"] is True
        cold = whole(signs=wet, without="sump_temperature")
        cold["rounds"][0]["readings"].append({"id": "s", **reading("sump_temperature", "60", "F", "stopped")})
        assert "floodback_cold_sump" in gate(cold)["blocked_by"]

    def test_a_generator_that_sags_until_the_source_changes(self) -> None:
        sag = reading("start_voltage", {"T1-T2": "338", "T2-T3": "340", "T3-T1": "339"}, "V", "starting")
        on_generator = READY + signs("on_generator")
        assert "generator_sag" in gate(whole({**sag, "at": at("21:10")}, signs=on_generator))["blocked_by"]
        back = READY + signs(absent=("on_generator",))
        assert "generator_sag" not in gate(whole({**sag, "at": at("21:10")}, signs=back))["blocked_by"]


class TestOverride:
    PASS = {"gate": "restart", "need": "sump_temperature", "reason": "heater on 3 h", "by": "R. Lindqvist", "at": NOW}

    def test_a_person_may_pass_an_unmet_need_by_name(self) -> None:
        found = gate(whole(without="sump_temperature", overrides=[self.PASS]))
        assert found["open"] is True
        assert (found["overridden"]["by"], found["overridden"]["need"]) == ("R. Lindqvist", "sump_temperature")
        assert found["overridden"]["text"] == "R. Lindqvist passed this: heater on 3 h"

    def test_it_passes_that_need_alone(self) -> None:
        case = whole(without="sump_temperature", overrides=[self.PASS], signs=[])
        assert unmet(case) == ["valves_stated", "terminal_cover_on"]

    @pytest.mark.parametrize(
        "case",
        [
            whole(megohms("1.2", 72), without="sump_temperature", overrides=[PASS]),
            whole(signs=READY + signs("terminal_leak"), without="sump_temperature", overrides=[PASS]),
            whole(
                reading("crankcase_pressure", "10", "inHg_vac", "stopped", at=at("22:00")),
                without="sump_temperature",
                overrides=[PASS],
            ),
            whole(
                reading("cable_insulation_resistance", "0.3", "Mohm", "isolated"),
                without="sump_temperature",
                overrides=[PASS],
            ),
        ],
        ids=["insulation", "terminal leak", "vacuum", "cable"],
    )
    def test_some_things_no_person_passes(self, case: Case) -> None:
        found = gate(case)
        assert found["open"] is False
        assert found["overridden"] is None
        assert found["started_against"][0]["by"] == "R. Lindqvist"
        assert not [need for need in found["unmet"] if need["overridable"]]
        assert not [block for block in found["blocks"] if block["overridable"]]

    def test_an_override_given_for_the_reset_holds_for_the_start(self) -> None:
        opened = {"gate": "reset", "need": "what_opened", "reason": "log lost", "by": "T. Okafor"}
        case = whole(events=[], overrides=[opened])
        assert gate(case, "reset")["open"] is True
        assert gate(case)["open"] is True
