"""The entries of a call make the same case on phone and server, in whatever order they come."""

import itertools
import json
import random
from typing import Any

from rackside.engine import entry
from tests.engine.judging import judge_case
from tests.engine.runtimes import difference, on_micropython

LEGS = {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"}


def made(id: str, kind: str, body: dict[str, Any], minute: int = 0, **more: Any) -> dict[str, Any]:
    made_at = f"2026-10-14T21:{minute:02}:00-05:00"
    return {
        "id": id,
        "schema": 1,
        "kind": kind,
        "call": "c1",
        "base": [],
        "made_at": made_at,
        "device": "d1",
        "author": "T. Okafor",
        "body": body,
    } | more


def log() -> list[dict[str, Any]]:
    reading = {"round": "round1", "point": "line_voltage", "legs": LEGS, "unit": "V", "state": "stopped"}
    return [
        made(
            "s1",
            "site",
            {"name": "Cold Store", "supply": {"nominal_voltage": 480}, "altitude": {"value": 900, "unit": "ft"}},
        ),
        made("m1", "machine", {"site": "s1", "rack": "B", "tag": "B3", "rated_voltage": 460}),
        made("meter1", "meter", {"name": "clamp", "kind": "clamp", "points": {"running_current": {"percent": 2}}}),
        made("c1", "call", {"machine": "m1", "complaint": "oil_trip", "opened_at": "2026-10-14T21:00:00-05:00"}),
        made("round1", "round", {"label": "as_found", "at": "2026-10-14T21:05:00-05:00"}, 5),
        made("r1", "reading", reading, 6),
        made("g1", "sign", {"sign": "oil_foam", "present": True}, 7),
        made("g2", "sign", {"sign": "oil_foam", "present": False}, 8),
        made("n1", "reading", {**reading, "neighbour": {"tag": "B2", "like": True, "running": True}}, 9),
        made("a1", "action", {"kind": "jumper_on", "what": "oil control"}, 10),
        made("o1", "override", {"gate": "restart", "need": "sump_temperature", "reason": "stopped 5 min"}, 11),
    ]


def composed(entries: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    case: dict[str, Any] = json.loads(entry.compose(json.dumps({"call": "c1", "entries": entries, **more})))
    assert "errors" not in judge_case(case), judge_case(case)["errors"]
    return case


def test_entries_become_a_case() -> None:
    case = composed(log())
    assert case["complaint"] == "oil_trip"
    assert case["machine"] == {
        "tag": "B3",
        "rated_voltage": 460,
        "supply": {"nominal_voltage": 480},
        "site_altitude": 900,
        "site_altitude_unit": "ft",
    }
    assert [(r["id"], r["label"], [one["id"] for one in r["readings"]]) for r in case["rounds"]] == [
        ("round1", "as_found", ["r1"])
    ]
    assert case["rounds"][0]["readings"][0]["by"] == "T. Okafor"
    assert [(sign["sign"], sign["present"]) for sign in case["signs"]] == [("oil_foam", False)]
    assert [(other["tag"], [one["id"] for one in other["readings"]]) for other in case["neighbours"]] == [
        ("B2", ["n1"])
    ]
    assert case["overrides"][0]["by"] == "T. Okafor"
    assert case["meters"]["meter1"]["kind"] == "clamp"


def test_the_order_of_entries_changes_nothing() -> None:
    whole = composed(log())
    chance = random.Random(3)
    for _ in range(30):
        shuffled = log()
        chance.shuffle(shuffled)
        assert composed(shuffled) == whole


def test_a_correction_replaces_only_the_members_it_gives() -> None:
    correction = made("r1b", "reading", {"legs": {**LEGS, "L1-L2": "471"}}, 12, base=["r1"])
    cleared = made("r1c", "reading", {"state": None}, 13, base=["r1b"])
    reading = composed([*log(), correction, cleared])["rounds"][0]["readings"][0]
    assert reading["id"] == "r1"
    assert reading["legs"]["L1-L2"] == "471"
    assert reading["unit"] == "V"
    assert "state" not in reading


def test_two_versions_are_judged_by_the_servers_counter_and_told() -> None:
    mine = made("x", "reading", {"legs": {**LEGS, "L1-L2": "471"}}, 30, base=["r1"], cursor=20)
    theirs = made("y", "reading", {"legs": {**LEGS, "L1-L2": "465"}}, 12, base=["r1"], cursor=21)
    for order in itertools.permutations([mine, theirs]):
        case = composed([*log(), *order])
        assert case["rounds"][0]["readings"][0]["legs"]["L1-L2"] == "471"
        found = judge_case(case)["rounds"][0]["findings"][0]
        assert "two versions" in found["because"]
    settled = made("z", "reading", {"legs": {**LEGS, "L1-L2": "465"}}, 40, base=["x", "y"], cursor=22)
    reading = composed([*log(), mine, theirs, settled])["rounds"][0]["readings"][0]
    assert reading["legs"]["L1-L2"] == "465"
    assert "extra" not in reading


def test_corrections_of_different_members_do_not_clash() -> None:
    unit = made("x", "reading", {"state": "running"}, 12, base=["r1"], cursor=20)
    legs = made("y", "reading", {"legs": {**LEGS, "L1-L2": "465"}}, 12, base=["r1"], cursor=21)
    reading = composed([*log(), unit, legs])["rounds"][0]["readings"][0]
    assert (reading["state"], reading["legs"]["L1-L2"]) == ("running", "465")
    assert "extra" not in reading


def test_a_retraction_removes_and_its_own_retraction_restores() -> None:
    gone = made("t1", "retraction", {"of": "r1", "why": "wrong machine"}, 20)
    assert composed([*log(), gone])["rounds"][0]["readings"] == []
    back = made("t2", "retraction", {"of": "t1", "why": "right after all"}, 21)
    assert len(composed([*log(), gone, back])["rounds"][0]["readings"]) == 1


def test_a_retracted_correction_leaves_what_it_corrected() -> None:
    correction = made("r1b", "reading", {"legs": {**LEGS, "L1-L2": "471"}}, 12, base=["r1"])
    gone = made("t1", "retraction", {"of": "r1b", "why": "misread"}, 13)
    assert composed([*log(), correction, gone])["rounds"][0]["readings"][0]["legs"] == LEGS


def test_circular_and_dangling_bases_do_not_hang() -> None:
    one = made("p", "reading", {"unit": "V"}, 12, base=["q"])
    other = made("q", "reading", {"unit": "V"}, 12, base=["p"])
    lost = made("w", "reading", {"unit": "V"}, 12, base=["nowhere"])
    assert [r["id"] for r in composed([*log(), one, other, lost])["rounds"][0]["readings"]] == ["r1"]


def test_the_phone_composes_opens_adds_and_looks_alike() -> None:
    told = json.dumps({"call": "c1", "entries": log(), "history": []})
    level = {"round": "round1", "point": "oil_level", "value": "0.5", "unit": "fraction"}
    colour = {"round": "round1", "point": "oil_colour", "value": "straw"}
    more = json.dumps([made("r2", "reading", level, 14), made("r3", "reading", colour, 15)])
    typed = json.dumps({"round": "round1", "reading": {"point": "line_voltage", "legs": {"L1-L2": "478"}, "unit": "V"}})
    asked = [
        ["compose", told],
        ["open", told, "en"],
        ["add", more],
        ["look", typed],
        ["look", json.dumps({"round": "?", "reading": {}})],
    ]
    there, _ = on_micropython(asked)
    here = [getattr(entry, door)(*given) for door, *given in asked]
    for one, other in zip(here, there, strict=True):
        assert difference(json.loads(one), json.loads(other)) == ""
    assert json.loads(here[2])["upto"] == [*(entry["id"] for entry in log()), "r2", "r3"]
    looked = json.loads(here[3])["findings"]
    assert {found["check"] for found in looked} >= {"supply_voltage_unbalance"}
    assert looked[0]["missing"] == ["line_voltage L2-L3", "line_voltage L3-L1"]
    assert "errors" in json.loads(here[4])


def test_a_look_judges_the_typed_reading_beside_the_kept_ones() -> None:
    entry.open(json.dumps({"call": "c1", "entries": log(), "history": []}))
    legs = {"L1-L2": "462", "L2-L3": "463", "L3-L1": "455"}
    typed = {"round": "round1", "reading": {"point": "line_voltage", "legs": legs, "unit": "V", "state": "running"}}
    found = {told["check"]: told for told in json.loads(entry.look(json.dumps(typed)))["findings"]}
    assert found["supply_voltage_unbalance"]["verdict"] == "watch"
    assert found["supply_voltage_level"]["verdict"] == "pass"
