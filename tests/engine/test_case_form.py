"""A bad case lists every fault with its JSON pointer; a bad reading is a finding, never an error."""

import copy
import json
import random
from typing import Any

import pytest

from rackside.engine import entry
from rackside.engine.call import Call
from rackside.engine.case import faults_of
from tests.engine.judging import case_of, findings, judge, judge_case

GOOD = case_of(
    {"tag": "A3", "rated_voltage": 460, "rated_load_current": 34.0},
    [
        {
            "point": "line_voltage",
            "legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "479"},
            "unit": "V",
            "state": "running",
        },
        {"point": "insulation_resistance", "not_taken": "meter left in the truck"},
        {"point": "oil_level", "value": "0.5", "unit": "fraction"},
    ],
)
SHAPES = [None, True, 0, -1, 1e308, "", "x", "OL", [], {}, [[]], {"": {}}, ["a"], "2026-10-14T21:40:00-05:00"]
FUZZED = 100_000
JUDGED_OF = 40


def faults(case: Any) -> list[tuple[str, str]]:
    return [(fault["pointer"], fault["detail"]) for fault in judge_case(case).get("errors", [])]


def test_every_fault_is_listed_with_its_pointer() -> None:
    case = copy.deepcopy(GOOD)
    case["machine"]["rated_voltag"] = 460
    case["machine"]["type"] = "rotary"
    case["rounds"][0]["readings"][0]["legs"]["L1-L4"] = "3"
    case["rounds"][0]["readings"][2]["point"] = "oil_hight"
    case["signs"] = [{"sign": "smells_funny", "present": "yes"}]
    case["complaint"] = "it_is_broken"
    del case["rounds"][0]["label"]
    pointers = [pointer for pointer, _ in faults(case)]
    assert pointers == [
        "/complaint",
        "/machine/rated_voltag",
        "/machine/type",
        "/rounds/0/label",
        "/rounds/0/readings/0/legs/L1-L4",
        "/rounds/0/readings/2/point",
        "/signs/0/sign",
        "/signs/0/present",
    ]


@pytest.mark.parametrize("missing", ["machine", "rounds"])
def test_the_two_required_members_are_named(missing: str) -> None:
    case = copy.deepcopy(GOOD)
    del case[missing]
    assert [pointer for pointer, _ in faults(case)] == ["/" + missing]


def test_extra_is_free() -> None:
    case = copy.deepcopy(GOOD)
    case["extra"] = case["machine"]["extra"] = case["rounds"][0]["readings"][0]["extra"] = {"anything": [1]}
    assert faults(case) == []


def test_a_pointer_escapes_its_key() -> None:
    case = copy.deepcopy(GOOD)
    case["a/b~c"] = 1
    assert faults(case)[0][0] == "/a~1b~0c"


@pytest.mark.parametrize("text", ["", "{", "[1]", '"case"', "[" * 5000, "null"])
def test_what_is_no_case_is_told(text: str) -> None:
    assert json.loads(entry.judge(text))["errors"][0]["pointer"] == ""


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"legs": {"L1-L2": "478", "L2-L3": "480"}}, "reading.missing_legs"),
        ({"legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": None}}, "reading.missing_legs"),
        ({"legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "nan"}}, "reading.unreadable"),
        ({"legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "-5"}}, "reading.implausible"),
        ({"legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "47900"}}, "reading.implausible"),
        ({"legs": {"L1-L2": "478", "L2-L3": "480", "L3-L1": "OL"}}, "reading.over_limit_here"),
        ({"unit": "A"}, "reading.wrong_unit"),
        ({"unit": None}, "reading.no_unit"),
        ({"state": "isolated"}, "reading.wrong_state"),
        ({"not_taken": "cover will not come off"}, "reading.not_taken"),
    ],
)
def test_a_bad_reading_is_a_finding(change: dict[str, Any], said: str) -> None:
    reading = {**GOOD["rounds"][0]["readings"][0], **change}
    found = findings(judge(GOOD["machine"], [reading]), "supply_voltage_unbalance")
    assert [finding["verdict"] for finding in found] == ["cannot_tell"]
    assert found[0]["said"]["key"] == said
    assert len(found[0]["because"]) > 20


def test_no_mutation_of_a_case_raises_or_answers_out_of_shape() -> None:
    """All are parsed; one in JUDGED_OF is judged to the end, causes and gates included."""
    chance = random.Random(7)
    for number in range(FUZZED):
        case = mutated(chance)
        if number % JUDGED_OF:
            assert faults_of(case) or Call(case)
            continue
        told = judge_case(case)
        assert ("errors" in told) != ("summary" in told)
        for finding in [f for round_ in told.get("rounds", []) for f in round_["findings"]]:
            assert finding["verdict"] in ("pass", "watch", "fail", "cannot_tell")
            assert finding["because"]


def mutated(chance: random.Random) -> Any:
    """Return the good case with one to four members replaced, dropped or doubled somewhere."""
    case = copy.deepcopy(GOOD)
    for _ in range(chance.randint(1, 4)):
        holder = chance.choice(holders(case))
        key = chance.choice(list(holder) if isinstance(holder, dict) else list(range(len(holder)))) if holder else None
        if key is None:
            continue
        if chance.random() < 0.2:
            del holder[key]
        elif isinstance(holder, dict) and chance.random() < 0.2:
            holder[chance.choice(["extra", "roll", "state", "meter", "at", "signs", "events", "x"])] = copy.deepcopy(
                chance.choice(SHAPES)
            )
        else:
            holder[key] = copy.deepcopy(chance.choice(SHAPES))
    return case


def holders(case: Any) -> list[Any]:
    found, waiting = [], [case]
    while waiting:
        one = waiting.pop()
        if isinstance(one, (dict, list)):
            found.append(one)
            waiting.extend(one.values() if isinstance(one, dict) else one)
    return found


def test_an_own_limit_in_a_unit_that_cannot_fit_is_told_and_the_usual_one_used() -> None:
    own = {"supply_voltage_unbalance": {"unit": "A", "watch": {"above": 1}, "source": "bulletin 7"}}
    found = findings(judge({"limits": own}, [GOOD["rounds"][0]["readings"][0]]), "supply_voltage_unbalance")[0]
    assert found["verdict"] == "pass"
    assert found["also"][-1]["key"] == "limit.own_unit"
