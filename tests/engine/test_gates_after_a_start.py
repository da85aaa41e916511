"""The gates before leaving it running and before condemning, need by need. Source: CHECKS.md, Gates."""

from typing import Any

import pytest

from tests.engine.case_files import CASES, MT_25, amps, at, drops, megohms, net_oil, ohms, round_, signs
from tests.engine.healthy import Case, reading
from tests.engine.judging import described
from tests.engine.test_case_files import judged
from tests.engine.test_gates_before_a_start import attempt, whole

DECISION = {
    "decision": "repair",
    "cause": "contactor_pole",
    "repair": "part",
    "watch_until": at("23:00"),
    "at": at("22:40"),
}
FITTED = {"id": "part", "at": at("21:40"), "kind": "part_fitted", "what": "contactor", "by": "T. Okafor"}
START = [
    reading("start_current", {"L1": "140", "L2": "142", "L3": "141"}, "A", "starting", duration=0.3, capture="inrush"),
    reading("start_voltage", {"T1-T2": "452", "T2-T3": "453", "T3-T1": "452"}, "V", "starting"),
]


def run_in(since: int = 1200) -> list[Case]:
    """Return what is read after a quarter of an hour of running."""
    late = {"since_start": since}
    return [
        amps("30 31 30", **late),
        *net_oil("71", "41", since),
        reading("suction_pressure", "40", "psig", "running", **late),
        reading("suction_temperature", "42", "F", "running", probe="clamp", **late),
        reading("sump_temperature", "118", "F", "running", **late),
        reading("discharge_temperature", "205", "F", "running", probe="clamp", **late),
    ]


def repaired(*readings: Case, **parts: Any) -> Case:
    """Return B1 with a contactor fitted at 21:40 and rounds before and after it."""
    told = {"complaint": "unbalanced_current", "machine": {"tag": "B1", **MT_25}, "actions": [FITTED]}
    told["rounds"] = [round_("as_found", "21:00", drops("40 41 420")), round_("as_left", "22:00", *readings)]
    return {**told, "decision": DECISION, **parts}


def service(case: Case) -> dict[str, Any]:
    found: dict[str, Any] = judged(case)["gates"]["return_to_service"]
    return found


def condemn(case: Case) -> dict[str, Any]:
    found: dict[str, Any] = judged(case)["gates"]["condemn"]
    return found


def names(needs: list[dict[str, Any]]) -> list[str]:
    return [need["need"] for need in needs]


class TestReturnToService:
    def test_it_opens_on_a_witnessed_start_a_run_in_a_cause_and_a_watch_date(self) -> None:
        found = service(repaired(*START, *run_in()))
        assert (found["open"], found["unmet"], found["blocked_by"]) == (True, [], [])

    def test_a_start_needs_its_least_volts(self) -> None:
        assert names(service(repaired(START[0], *run_in()))["unmet"]) == ["witnessed_start"]

    def test_a_drive_shows_its_output_instead(self) -> None:
        machine = {"tag": "B1", **MT_25, "start": "drive"}
        output = reading("drive_output_current", {"U": "30", "V": "31", "W": "30"}, "A", "running")
        assert names(service(repaired(output, *run_in(), machine=machine))["unmet"]) == []

    @pytest.mark.parametrize(
        ("point", "need"),
        [
            ("running_current", "run_in_current"),
            ("pump_pressure", "run_in_net_oil"),
            ("suction_temperature", "run_in_superheat"),
            ("sump_temperature", "run_in_sump"),
            ("discharge_temperature", "run_in_discharge"),
        ],
    )
    def test_each_reading_of_the_run_in_is_needed(self, point: str, need: str) -> None:
        kept = [one for one in run_in() if one["point"] != point]
        assert names(service(repaired(*START, *kept))["unmet"]) == [need]

    def test_five_minutes_of_running_are_no_run_in(self) -> None:
        assert "run_in_current" in names(service(repaired(*START, *run_in(300)))["unmet"])

    def test_what_was_read_before_the_repair_proves_nothing(self) -> None:
        late = {**FITTED, "at": at("23:30")}
        assert "run_in_current" in names(service(repaired(*START, *run_in(), actions=[late]))["unmet"])

    def test_the_cause_is_named_or_stated_not_found(self) -> None:
        undecided = repaired(*START, *run_in(), decision={"decision": "restart", "watch_until": at("23:00")})
        assert names(service(undecided)["unmet"]) == ["cause_named"]
        stated = {"decision": "no_fault_found", "watch_until": at("23:00")}
        assert service(repaired(*START, *run_in(), decision=stated))["open"] is True

    def test_a_watch_date_is_needed(self) -> None:
        decision = {key: value for key, value in DECISION.items() if key != "watch_until"}
        assert names(service(repaired(*START, *run_in(), decision=decision))["unmet"]) == ["watch_date"]

    def test_what_is_open_keeps_it_shut(self) -> None:
        valve = {
            "id": "v",
            "at": at("21:50"),
            "kind": "valve_moved",
            "what": "suction valve",
            "before": "back",
            "after": "front",
        }
        assert names(service(repaired(*START, *run_in(), actions=[FITTED, valve]))["unmet"]) == ["closed_out"]
        back = {**valve, "id": "w", "at": at("21:55"), "before": "front", "after": "back"}
        assert service(repaired(*START, *run_in(), actions=[FITTED, valve, back]))["open"] is True

    def test_a_control_that_was_touched_is_made_to_trip(self) -> None:
        touched = {
            "id": "s",
            "at": at("21:45"),
            "kind": "setting_changed",
            "what": "overload dial",
            "before": "24",
            "after": "38",
        }
        case = repaired(*START, *run_in(), actions=[FITTED, touched])
        assert names(service(case)["unmet"]) == ["trip_test"]
        test = {"at": at("21:55"), "device": "overload", "what": "trip", "text": "test button", "by": "T. Okafor"}
        assert service({**case, "events": [test]})["open"] is True

    def test_a_fail_of_the_last_round_shuts_it(self) -> None:
        found = service(repaired(*START, *run_in(), drops("40 41 420")))
        assert found["blocked_by"] == ["pole_drop"]
        assert found["blocks"][0]["text"].startswith("Contactor poles failed")

    def test_a_trip_in_the_run_in_shuts_it(self) -> None:
        trip = {"at": at("22:30"), "device": "overload", "what": "trip"}
        assert service(repaired(*START, *run_in(), events=[trip]))["blocked_by"] == ["trip_in_run_in"]


def grounded(*readings: Case, **parts: Any) -> Case:
    """Return a breaker trip with everything a grounded winding must show."""
    low = [
        megohms("0.2", 72, meter="m1"),
        megohms("0.2", 72, meter="m2"),
        reading("cable_insulation_resistance", "900", "Mohm", "isolated"),
        reading("crankcase_pressure", "40", "psig", "stopped"),
    ]
    told = {"complaint": "breaker_trip", "machine": {"tag": "B1", **MT_25}}
    told["rounds"] = [round_("as_found", "21:00", *low, *readings)]
    told["signs"] = signs("trips_instantly", absent=("terminal_box_wet",))
    told["photos"] = [{"id": "plate", "shows": "plate"}]
    told["decision"] = {"decision": "condemn", "cause": "grounded_winding", "approver": "M. Castellanos"}
    return {**told, **parts}


class TestCondemn:
    def test_a_grounded_winding_with_all_its_proof(self) -> None:
        found = condemn(grounded())
        assert (found["for_cause"], found["unmet"], found["blocked_by"], found["open"]) == (
            "grounded_winding",
            [],
            [],
            True,
        )

    def test_the_cause_is_proposed_before_anyone_decides(self) -> None:
        assert condemn(grounded(decision=None))["for_cause"] == "grounded_winding"

    @pytest.mark.parametrize(
        ("parts", "need"),
        [
            ({"signs": signs("trips_instantly")}, "terminals_dry"),
            ({"photos": []}, "plate_photo"),
            ({"decision": {"decision": "condemn", "cause": "grounded_winding"}}, "approver"),
        ],
    )
    def test_nothing_of_it_may_be_missing(self, parts: Case, need: str) -> None:
        found = condemn(grounded(**parts))
        assert need in names(found["unmet"])
        assert found["open"] is False

    def test_one_reading_by_one_meter_is_not_enough(self) -> None:
        case = grounded()
        case["rounds"][0]["readings"] = case["rounds"][0]["readings"][:1] + case["rounds"][0]["readings"][2:]
        assert {"two_low_readings", "second_test"} <= set(names(condemn(case)["unmet"]))

    def test_leads_on_condemn_nothing(self) -> None:
        case = grounded()
        for one in case["rounds"][0]["readings"]:
            if one["point"] == "insulation_resistance":
                one["leads"] = "on"
        found = condemn(case)
        assert {"leads_off", "two_low_readings"} <= set(names(found["unmet"]))
        assert "grounded" in [told["pattern"] for told in found["warnings"]]

    def test_a_meter_that_cannot_decide_condemns_nothing(self) -> None:
        blunt = repaired(
            rounds=[round_("as_found", "21:00", ohms("0.7 0.7 0.8", leads="off"))],
            decision={"decision": "condemn", "cause": "shorted_turns", "approver": "M. Castellanos"},
        )
        found = condemn(blunt)
        assert "meter_cannot_decide" in found["blocked_by"]
        assert "unbalanced_windings" in [told["pattern"] for told in found["warnings"]]

    @pytest.mark.parametrize("cause", ["valve_failure", "cable_fault", "contactor_pole", "head_fan", "low_voltage"])
    def test_a_repair_is_no_reason_to_condemn(self, cause: str) -> None:
        decided = {"decision": "condemn", "cause": cause, "approver": "M. Castellanos"}
        found = condemn(grounded(decision=decided))
        assert (found["open"], found["blocked_by"]) == (False, ["cause_is_a_repair"])

    def test_shorted_turns_need_two_tests_zeroed_leads_and_a_roll(self) -> None:
        uneven = {"leads": "off", "lead_zero": "0.001"}
        twice = [ohms("0.402 0.402 0.480", meter="m1", **uneven), ohms("0.402 0.402 0.481", meter="m2", **uneven)]
        rolled = [amps("39 35 31"), amps("31 39 35", roll=1)]
        case = grounded(rounds=[round_("as_found", "21:00", *twice, *rolled)])
        case["decision"] = {**case["decision"], "cause": "shorted_turns"}
        assert condemn(case)["unmet"] == []
        case["rounds"] = [round_("as_found", "21:00", twice[0], *rolled)]
        assert {"balance_fails_twice", "second_test"} <= set(names(condemn(case)["unmet"]))
        case["rounds"] = [round_("as_found", "21:00", *twice)]
        assert "follows_motor" in names(condemn(case)["unmet"])

    def test_an_open_winding_must_be_cold(self) -> None:
        opened = ohms("OL OL 0.4", leads="off", winding_temperature=75, winding_temperature_unit="F")
        room = reading("ambient_temperature", "70", "F")
        decided = {"decision": "condemn", "cause": "open_winding", "approver": "M. Castellanos"}
        tight = {"id": "t", "at": at("21:30"), "kind": "cleaned", "what": "terminals, tight"}
        case = grounded(rounds=[round_("as_found", "21:00", opened, room)], decision=decided, actions=[tight])
        assert names(condemn(case)["unmet"]) == ["second_test"]
        hot = {**case, "signs": signs("motor_still_hot")}
        assert "cooled" in names(condemn(hot)["unmet"])
        assert "open_winding" in [told["pattern"] for told in condemn(hot)["warnings"]]

    def test_a_seized_machine_needs_volts_time_and_two_attempts_apart(self) -> None:
        known = [
            reading("suction_pressure", "60", "psig", "stopped"),
            reading("discharge_pressure", "62", "psig", "stopped"),
            reading("sump_temperature", "95", "F", "stopped"),
            reading("ambient_temperature", "70", "F"),
            reading("oil_level", "0.5", "fraction", "stopped"),
        ]
        decided = {"decision": "condemn", "cause": "seized", "approver": "M. Castellanos"}
        attempts = [*attempt("22:00"), *attempt("22:40")]
        attempts[2]["by"] = "R. Lindqvist"
        attempts[0]["by"] = "T. Okafor"
        case = grounded(rounds=[round_("as_found", "21:00", *known, *attempts)], decision=decided)
        case["signs"] = signs("commanded_unloaded", "hums_no_rotation")
        assert condemn(case)["unmet"] == []
        soon = {**case, "rounds": [round_("as_found", "21:00", *known, *attempt("22:00"))]}
        assert {"two_attempts", "second_test"} <= set(names(condemn(soon)["unmet"]))
        weak = {**case, "signs": [*case["signs"], *signs("on_generator")]}
        assert "seized" in [told["pattern"] for told in condemn(weak)["warnings"]]

    def test_nothing_shown_condemns_nothing(self) -> None:
        found = condemn({"complaint": "oil_trip", "machine": {"tag": "B1", **MT_25}, "rounds": []})
        assert (found["for_cause"], found["open"], names(found["unmet"])) == (None, False, ["condemnable_cause"])


def test_the_vocabulary_names_every_need_and_block_the_gates_come_up_with() -> None:
    told = {gate["gate"]: gate for gate in described()["gates"]}
    cases = [grounded(), repaired(*START, *run_in()), whole(signs=[], events=[]), *(make() for _, make, _, _ in CASES)]
    for cause in ("shorted_turns", "open_winding", "seized", "worn_bearings"):
        cases.append(grounded(decision={"decision": "condemn", "cause": cause}))
    for case in cases:
        for name, gate in judged(case)["gates"].items():
            needs = {need["need"] for need in gate["unmet"] + gate["met"]}
            assert needs <= {need["need"] for need in told[name]["needs"]}
            if name != "return_to_service":
                assert set(gate["blocked_by"]) <= {block["block"] for block in told[name]["blocks"]}
    for gate in told.values():
        assert all(not one["text"].startswith(("need.", "block.")) for one in gate["needs"] + gate["blocks"])
