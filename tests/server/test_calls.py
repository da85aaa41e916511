"""Calls: their state, their judgement, their review, and how they are listed."""

import csv
import io
import json
import uuid
from typing import Any

import pytest

from rackside import host
from tests.server.house import MADE_AT, House, Phone, Story, line_voltage, story
from tests.server.test_pull import in_days, settle


@pytest.fixture
def office(house: House) -> Phone:
    return house.phone("M. Castellanos", "office")


@pytest.fixture
def told(okafor: Phone) -> Story:
    made = story(okafor)
    okafor.keep(*made.entries)
    return made


def state(phone: Phone, told: Story) -> str:
    return phone.get(f"/calls/{told.call}")["state"]


def test_the_state_of_a_call_follows_its_entries(office: Phone, okafor: Phone, told: Story) -> None:
    assert state(okafor, told) == "open"
    okafor.write("submission", {"note": "done"}, told.call)
    assert state(okafor, told) == "submitted"
    office.write("review", {"outcome": "returned", "note": "leads off, please"}, told.call)
    assert state(okafor, told) == "returned"
    okafor.write("submission", {}, told.call)
    assert state(okafor, told) == "submitted"
    okafor.write("decision", {"decision": "run_under_watch", "watch_until": in_days(1)}, told.call)
    office.write("review", {"outcome": "accepted"}, told.call)
    assert state(okafor, told) == "watching"


@pytest.mark.parametrize(
    ("watch_until", "expected"), [(None, "accepted"), (in_days(-1), "closed"), (in_days(1), "watching")]
)
def test_an_accepted_call_watches_until_its_window_has_passed(
    office: Phone, okafor: Phone, told: Story, watch_until: str | None, expected: str
) -> None:
    settle(okafor, office, told, watch_until)
    assert state(okafor, told) == expected
    listed = okafor.get("/calls", state=expected)["items"]
    assert [call["id"] for call in listed] == [told.call]
    for other in {"open", "submitted", "returned", "watching", "accepted", "closed"} - {expected}:
        assert okafor.get("/calls", state=other)["items"] == []


def test_a_call_never_reopens_but_a_review_can_be_taken_back(office: Phone, okafor: Phone, told: Story) -> None:
    settle(okafor, office, told)
    okafor.write("submission", {}, told.call)
    assert state(okafor, told) == "accepted"
    review = okafor.get(f"/calls/{told.call}")["reviews"][0]
    office.write("retraction", {"of": review["id"], "why": "wrong call"}, told.call)
    assert state(okafor, told) == "submitted"


def test_results_judge_the_present_entries(okafor: Phone, told: Story) -> None:
    first = okafor.get(f"/calls/{told.call}/results")
    assert (first["call"], first["machine"], first["state"]) == (told.call, told.machine, "open")
    assert first["entries"] == 5
    assert first["phone"] is None
    assert verdict(first, "supply_voltage_unbalance") == "pass"
    assert okafor.get(f"/calls/{told.call}/results")["judged_at"] == first["judged_at"], "nothing new: not judged anew"
    okafor.write(
        "round", {"label": "as_left", "at": "2026-10-14T23:00:00-05:00"}, told.call, id=(left := str(uuid.uuid4()))
    )
    okafor.write("reading", line_voltage(left, "440", "480", "480"), told.call)
    later = okafor.get(f"/calls/{told.call}/results")
    assert later["entries"] == 7
    assert verdict(later, "supply_voltage_unbalance", 1) == "fail"


def verdict(results: dict[str, Any], check: str, round_: int = 0) -> str:
    findings = results["result"]["rounds"][round_]["findings"]
    return next(finding["verdict"] for finding in findings if finding["check"] == check)


def test_a_corrected_plate_is_judged_anew(okafor: Phone, told: Story) -> None:
    assert verdict(okafor.get(f"/calls/{told.call}/results"), "supply_voltage_level") == "pass"
    okafor.write("machine", {"rated_voltage": 230, "supply": {"nominal_voltage": 240}}, base=[told.machine])
    assert verdict(okafor.get(f"/calls/{told.call}/results"), "supply_voltage_level") == "fail"


def test_judging_again_keeps_every_judgement(okafor: Phone, told: Story) -> None:
    okafor.get(f"/calls/{told.call}/results")
    okafor.write("sign", {"sign": "knock", "present": True}, told.call)
    again = okafor.http.post(f"/api/v1/calls/{told.call}/judgements")
    assert again.status_code == 201
    kept = okafor.get(f"/calls/{told.call}/judgements")["items"]
    assert [judgement["entries"] for judgement in kept] == [6, 5]
    assert kept[0]["result"] == again.json()["result"]


def test_the_case_of_a_call_is_judged_alike_by_analyse(okafor: Phone, told: Story) -> None:
    case = okafor.get(f"/calls/{told.call}/case")
    answer = okafor.http.post("/api/v1/analyse", json=case)
    assert answer.json() == okafor.get(f"/calls/{told.call}/results")["result"]


def phone_judges(okafor: Phone, told: Story, result: dict[str, Any]) -> None:
    upto = [item["id"] for item in okafor.pull()]
    okafor.write("judgement", {"engine": result["engine"], "upto": upto, "result": result}, told.call)


def test_the_phone_s_judgement_agrees(okafor: Phone, told: Story) -> None:
    phone_judges(okafor, told, okafor.get(f"/calls/{told.call}/results")["result"])
    okafor.write("submission", {}, told.call)
    phone = okafor.get(f"/calls/{told.call}/results")["phone"]
    assert (phone["agrees"], phone["differences"]) == (True, [])


def test_a_phone_that_judged_in_another_language_agrees(okafor: Phone, told: Story) -> None:
    case = okafor.get(f"/calls/{told.call}/case")
    spanish = host.judge(case, "es")
    assert "Tabla 1, tensión de utilización" in json.dumps(spanish, ensure_ascii=False)
    phone_judges(okafor, told, spanish)
    okafor.write("submission", {}, told.call)
    phone = okafor.get(f"/calls/{told.call}/results")["phone"]
    assert (phone["agrees"], phone["differences"]) == (True, [])


def test_a_difference_is_shown_where_it_is(okafor: Phone, told: Story) -> None:
    result = okafor.get(f"/calls/{told.call}/results")["result"]
    result["rounds"][0]["findings"][0]["verdict"] = "fail"
    phone_judges(okafor, told, result)
    phone = okafor.get(f"/calls/{told.call}/results")["phone"]
    assert phone["agrees"] is False
    assert [one["pointer"] for one in phone["differences"]] == ["/rounds/0/findings/0/verdict"]
    assert okafor.get(f"/calls/{told.call}/results")["phone"] == phone


def test_a_plate_corrected_later_is_no_difference(okafor: Phone, told: Story) -> None:
    phone_judges(okafor, told, okafor.get(f"/calls/{told.call}/results")["result"])
    okafor.write("machine", {"rated_voltage": 230, "supply": {"nominal_voltage": 240}}, base=[told.machine])
    results = okafor.get(f"/calls/{told.call}/results")
    assert verdict(results, "supply_voltage_level") == "fail", "judged with the new plate"
    assert (results["phone"]["agrees"], results["phone"]["differences"]) == (True, [])


def test_a_meter_that_no_reading_names_may_stand_in_what_the_phone_judged(okafor: Phone, told: Story) -> None:
    result = okafor.get(f"/calls/{told.call}/results")["result"]
    okafor.write("meter", {"kind": "multimeter", "name": "spare"})
    phone_judges(okafor, told, result)
    assert okafor.get(f"/calls/{told.call}/results")["phone"]["agrees"] is True


def test_an_entry_of_another_call_is_not_one_the_phone_judged_here(okafor: Phone, told: Story) -> None:
    result = okafor.get(f"/calls/{told.call}/results")["result"]
    other = okafor.write("call", {"machine": told.machine, "complaint": "routine", "opened_at": MADE_AT}, "own")
    upto = [told.call, other["id"]]
    okafor.write("judgement", {"engine": result["engine"], "upto": upto, "result": result}, told.call)
    assert okafor.get(f"/calls/{told.call}/results")["phone"]["agrees"] is None


@pytest.mark.parametrize("since", ["nothing", "corrected", "taken back"])
def test_other_earlier_rounds_are_not_compared(office: Phone, okafor: Phone, told: Story, since: str) -> None:
    settle(okafor, office, told)
    body = {"machine": told.machine, "complaint": "oil_trip", "opened_at": "2026-10-20T08:00:00-05:00"}
    call = okafor.write("call", body)["id"]
    rounds = [past["extra"]["content_hash"] for past in okafor.get(f"/machines/{told.machine}")["history"]]
    result = okafor.get(f"/calls/{call}/results")["result"]
    said = {"engine": result["engine"], "upto": [call], "result": result, "extra": {"history": rounds}}
    okafor.write("judgement", said, call)
    reading = told.entries[4]["id"]
    if since == "corrected":
        okafor.write("reading", {"legs": {"L1-L2": "470"}}, told.call, base=[reading])
    if since == "taken back":
        okafor.write("retraction", {"of": reading, "why": "wrong machine"}, told.call)
    agrees = okafor.get(f"/calls/{call}/results")["phone"]["agrees"]
    assert len(rounds) == 1
    assert agrees is (True if since == "nothing" else None)


@pytest.mark.parametrize("extra", ["x", ["x"], 3, {}, {"history": "x"}, {"history": None}])
def test_extra_members_of_another_form_do_no_harm(okafor: Phone, told: Story, extra: Any) -> None:
    result = okafor.get(f"/calls/{told.call}/results")["result"]
    body = {"engine": result["engine"], "upto": [told.call], "result": result, "extra": extra}
    okafor.write("judgement", body, told.call)
    assert okafor.get(f"/calls/{told.call}/results")["phone"]["agrees"] in (False, None)


@pytest.mark.parametrize("change", ["engine", "entries"])
def test_other_engines_and_other_entries_are_not_compared(okafor: Phone, told: Story, change: str) -> None:
    result = okafor.get(f"/calls/{told.call}/results")["result"]
    upto = [item["id"] for item in okafor.pull()] + ([str(uuid.uuid4())] if change == "entries" else [])
    engine = result["engine"] | ({"digest": "0" * 64} if change == "engine" else {})
    okafor.write("judgement", {"engine": engine, "upto": upto, "result": result}, told.call)
    assert okafor.get(f"/calls/{told.call}/results")["phone"] == {"engine": engine, "agrees": None, "differences": []}


def test_results_as_csv_have_a_line_for_each_round_check_and_leg(okafor: Phone, told: Story) -> None:
    result = okafor.get(f"/calls/{told.call}/results")["result"]
    answer = okafor.http.get(f"/api/v1/calls/{told.call}/results.csv")
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    lines = list(csv.DictReader(io.StringIO(answer.text)))
    names = ["round", "at", "check", "leg", "value", "unit", "uncertainty", "limit", "verdict", "source"]
    assert list(lines[0]) == names
    expected = [
        (round_["label"], finding["check"], leg["leg"])
        for round_ in result["rounds"]
        for finding in round_["findings"]
        for leg in finding["legs"] or [{"leg": ""}]
    ]
    assert [(line["round"], line["check"], line["leg"]) for line in lines] == expected
    balance = next(line for line in lines if line["check"] == "supply_voltage_unbalance")
    assert (balance["leg"], float(balance["value"]), balance["unit"]) == ("L1-L2", 478, "V")
    assert "MG 1" in balance["source"]


def review(office: Phone, told: Story, **told_more: Any) -> Any:
    body = {"id": str(uuid.uuid4()), "outcome": "accepted", "seen": 10**6} | told_more
    return office.http.post(f"/api/v1/calls/{told.call}/reviews", json=body)


def test_the_office_reviews_a_call_and_the_phone_gets_the_note(office: Phone, okafor: Phone, told: Story) -> None:
    okafor.write("submission", {}, told.call)
    answer = review(office, told, outcome="returned", note="Leads off, please.")
    assert answer.status_code == 201
    assert answer.json()["call"]["state"] == "returned"
    entry = okafor.pull()[-1]
    assert (entry["kind"], entry["author"], entry["body"]["note"]) == ("review", "M. Castellanos", "Leads off, please.")


def test_a_review_of_a_stale_page_is_refused_with_what_came_since(office: Phone, okafor: Phone, told: Story) -> None:
    okafor.write("submission", {}, told.call)
    late = okafor.write("sign", {"sign": "knock", "present": True}, told.call)
    answer = review(office, told, seen=6)
    assert (answer.status_code, answer.json()["code"]) == (412, "stale")
    assert [one["id"] for one in answer.json()["since"]] == [late["id"]]
    assert review(office, told, seen=7).status_code == 201


def test_a_review_sent_again_is_the_same_review(office: Phone, okafor: Phone, told: Story) -> None:
    okafor.write("submission", {}, told.call)
    body = {"id": str(uuid.uuid4()), "seen": 6}
    assert review(office, told, **body).status_code == 201
    assert review(office, told, **body).status_code == 200
    other = review(office, told, **body, note="Something else")
    assert (other.status_code, other.json()["code"]) == (409, "id_reused")
    assert len(okafor.get(f"/calls/{told.call}")["reviews"]) == 1


def test_a_technician_reviews_nothing(okafor: Phone, told: Story) -> None:
    answer = review(okafor, told)
    assert (answer.status_code, answer.json()["code"]) == (403, "not_allowed")


def test_a_machine_counts_as_confirmed_until_it_changes(office: Phone, okafor: Phone, told: Story) -> None:
    assert okafor.get(f"/machines/{told.machine}")["confirmed"] is False
    office.write("review", {"outcome": "accepted", "of": told.machine})
    assert okafor.get(f"/machines/{told.machine}")["confirmed"] is True
    okafor.write("machine", {"rated_load_current": 36}, base=[told.machine])
    assert okafor.get(f"/machines/{told.machine}")["confirmed"] is False


def test_lists_page_by_change_newest_first(okafor: Phone) -> None:
    calls = [story(okafor, f"T{number}") for number in range(5)]
    for told in calls:
        okafor.keep(*told.entries)
    okafor.write("sign", {"sign": "knock", "present": True}, calls[1].call)
    first = okafor.get("/calls", limit=3)
    rest = okafor.get("/calls", limit=3, next=first["next"])
    order = [call["id"] for call in [*first["items"], *rest["items"]]]
    assert order == [calls[number].call for number in (1, 4, 3, 2, 0)]
    assert rest["next"] is None
    assert [call["id"] for call in okafor.get("/calls", since=str(first["items"][1]["changed"]))["items"]] == [
        calls[1].call
    ]
    assert okafor.get("/calls", since=in_days(1))["items"] == []
    assert len(okafor.get("/calls", since=in_days(-1))["items"]) == 5
    assert okafor.get("/calls", machine=calls[2].machine)["items"][0]["id"] == calls[2].call


def test_a_call_that_follows_takes_its_predecessor_as_history(office: Phone, okafor: Phone, told: Story) -> None:
    settle(okafor, office, told, in_days(1))
    body = {"machine": told.machine, "opened_at": "2026-10-20T08:00:00-05:00", "follows": told.call}
    after = okafor.write("call", body)
    assert okafor.get(f"/calls/{told.call}")["followed_by"] == [after["id"]]
    history = okafor.get(f"/calls/{after['id']}/case")["history"]
    assert [past["readings"][0]["id"] for past in history] == [told.entries[4]["id"]]
    assert okafor.get(f"/calls/{told.call}/case").get("history") is None


def test_a_case_knows_the_meters_of_earlier_readings(office: Phone, okafor: Phone, told: Story) -> None:
    meter = okafor.write("meter", {"name": "Clamp 1", "kind": "clamp", "resolution": 0.1})["id"]
    okafor.write("reading", {**line_voltage(told.round, "479", "480", "478"), "meter": meter}, told.call)
    settle(okafor, office, told, in_days(1))
    body = {"machine": told.machine, "opened_at": "2026-10-20T08:00:00-05:00", "follows": told.call}
    after = okafor.write("call", body)
    assert list(okafor.get(f"/calls/{after['id']}/case")["meters"]) == [meter]


def test_machines_come_with_the_history_of_a_case(office: Phone, okafor: Phone, told: Story) -> None:
    settle(okafor, office, told)
    machines = okafor.get("/machines", site=told.site, history=5)["items"]
    assert [machine["id"] for machine in machines] == [told.machine]
    case = {"machine": {}, "rounds": [], "history": machines[0]["history"]}
    answer = okafor.http.post("/api/v1/analyse", json=case)
    assert answer.status_code == 200, answer.text
    assert machines[0]["history"][0]["call"] == told.call


def test_trends_are_the_findings_of_submitted_calls(office: Phone, okafor: Phone, told: Story) -> None:
    settle(okafor, office, told)
    okafor.get(f"/calls/{told.call}/results")
    points = okafor.get(f"/machines/{told.machine}/trends", check="supply_voltage_unbalance")["items"]
    assert [(point["call"], point["verdict"]) for point in points] == [(told.call, "pass")]
    assert points[0]["value"] == pytest.approx(0.2087, abs=1e-3)


def test_a_retired_machine_is_hidden_never_gone(okafor: Phone, told: Story) -> None:
    okafor.write("machine", {"retired": True}, base=[told.machine])
    assert okafor.get("/machines")["items"] == []
    assert okafor.get("/machines", retired=True)["items"][0]["id"] == told.machine
    assert okafor.get(f"/machines/{told.machine}")["retired"] is True


def test_calls_are_found_by_words_and_watches_by_their_day(office: Phone, okafor: Phone, told: Story) -> None:
    settle(okafor, office, told, in_days(1))
    [watch] = okafor.get("/watches")["items"]
    assert (watch["id"], watch["overdue"]) == (told.call, False)
    found = okafor.get("/search", words="tannery cold")["items"]
    assert [(one["kind"], one["id"]) for one in found] == [("site", told.site)]
    assert okafor.get("/search", words="tannery", before=found[0]["cursor"])["items"] == []
    assert okafor.get("/search", 422, words="")["code"] == "invalid_query"


def test_the_results_of_many_calls_come_page_by_page(office: Phone, okafor: Phone, told: Story) -> None:
    other = story(okafor, "C1")
    okafor.keep(*other.entries)
    for one in (told, other):
        okafor.write("submission", {}, one.call)
    first = office.get("/results", limit=1)
    rest = office.get("/results", limit=1, next=first["next"])
    assert [one["call"] for one in first["items"] + rest["items"]] == [other.call, told.call]
    assert rest["next"] is None
    assert first["items"][0] == office.get(f"/calls/{other.call}/results")
    assert office.get("/results", state="open")["items"] == []
    assert len(office.get("/results", since=first["items"][0]["entries"] - 1)["items"]) == 1
    table = list(csv.DictReader(io.StringIO(office.http.get("/api/v1/results.csv").text)))
    own = list(csv.DictReader(io.StringIO(office.http.get(f"/api/v1/calls/{told.call}/results.csv").text)))
    mine = [line for line in table if line["call"] == told.call]
    assert [{name: line[name] for name in own[0]} for line in mine] == own
    assert {line["tag"] for line in table} == {"B3", "C1"}
