"""The handbook's case files come to their causes, whatever the order of entry, and never say what they must not."""

import json
import random
from collections.abc import Callable
from typing import Any

import pytest

from rackside.engine import entry
from tests.engine.case_files import CASES, at, f1, f4, f6, f7, f10
from tests.engine.healthy import Case
from tests.engine.judging import judge_case
from tests.engine.runtimes import difference, on_cpython, on_micropython

NAMED = pytest.mark.parametrize(("make", "cause", "never"), [row[1:] for row in CASES], ids=[row[0] for row in CASES])
ORDERS = 15
READY = [{"sign": sign, "present": True} for sign in ("valves_stated", "terminal_cover_on")]


def judged(case: Case) -> dict[str, Any]:
    result = judge_case(case)
    assert "errors" not in result, result["errors"]
    return result


def words(result: dict[str, Any]) -> dict[str, str]:
    return {told["cause"]: told["word"] for told in result["causes"]}


def shuffled(case: Case, seed: int) -> Case:
    """Return the case as it would stand had everything been written down in another order."""
    rng = random.Random(seed)
    mixed: Case = json.loads(json.dumps(case))
    for name in ("rounds", "signs", "events", "actions", "neighbours"):
        rng.shuffle(mixed.get(name, []))
    for round_ in mixed["rounds"]:
        rng.shuffle(round_["readings"])
    return mixed


@NAMED
def test_it_comes_to_its_cause(make: Callable[[], Case], cause: str, never: tuple[str, ...]) -> None:
    result = judged(make())
    leader = result["causes"][0]
    assert (leader["cause"], leader["word"]) == (cause, "likely")
    assert leader["for"]
    assert sum(told["probability"] for told in result["causes"]) == pytest.approx(1.0, abs=1e-12)


@NAMED
def test_it_never_says_what_it_must_not(make: Callable[[], Case], cause: str, never: tuple[str, ...]) -> None:
    result = judged(make())
    assert {words(result)[name] for name in never} == {"not_shown"}
    assert result["gates"]["condemn"]["open"] is False
    assert result["gates"]["condemn"]["for_cause"] is None


@NAMED
def test_the_order_of_entry_changes_nothing(make: Callable[[], Case], cause: str, never: tuple[str, ...]) -> None:
    expected = judged(make())
    for seed in range(ORDERS):
        found = judged(shuffled(make(), seed))
        for part in ("causes", "next_tests", "look_for", "gates", "clocks", "open_items", "summary", "weighing"):
            assert found[part] == expected[part], (seed, part)


def as_entries(case: Case) -> list[Case]:
    """Return the log entries that a phone would have written for a case."""

    def made(kind: str, name: str, body: Case, when: str) -> Case:
        known = {"schema": 1, "call": "call", "base": [], "device": "d", "author": "T. Okafor"}
        return {"id": name, "kind": kind, "made_at": when, "body": body, **known}

    entries = [made("machine", "machine", case["machine"], at("00:00"))]
    entries.append(made("call", "call", {"machine": "machine", "complaint": case["complaint"]}, at("00:01")))
    for place, round_ in enumerate(case["rounds"]):
        name = f"round-{place}"
        entries.append(made("round", name, {"label": round_["label"], "at": round_["at"]}, round_["at"]))
        for reading in round_["readings"]:
            body = {key: value for key, value in reading.items() if key != "id"}
            entries.append(made("reading", f"{name}-{reading['id']}", {"round": name, **body}, reading["at"]))
    for kind in ("sign", "event", "action"):
        for place, body in enumerate(case.get(kind + "s", [])):
            entries.append(made(kind, f"{kind}-{place}", body, body.get("at", at("04:00"))))
    return entries


@pytest.mark.parametrize(("make", "cause"), [(f1, "overload_setting"), (f6, "floodback"), (f7, "never_ran")])
def test_entries_pushed_in_any_order_make_the_same_answer(make: Callable[[], Case], cause: str) -> None:
    entries = as_entries(make())
    answers = []
    for seed in range(ORDERS):
        mixed = random.Random(seed).sample(entries, len(entries))
        case = json.loads(entry.compose(json.dumps({"call": "call", "entries": mixed})))
        answers.append(judged(case))
    assert answers[0]["causes"][0]["cause"] == cause
    assert all(answer["causes"] == answers[0]["causes"] for answer in answers)
    assert all(answer["gates"] == answers[0]["gates"] for answer in answers)


def test_the_phone_says_the_same() -> None:
    asked = [["judge", json.dumps(make())] for _, make, _, _ in CASES]
    there, _ = on_micropython(asked)
    here = on_cpython(asked)
    assert [difference(json.loads(a), json.loads(b)) for a, b in zip(here, there, strict=True)] == [""] * len(CASES)


class TestDecisions:
    """What may be done. Source: HANDBOOK.md, F, truth table."""

    def test_f1_may_be_started_and_keeps_its_motor(self) -> None:
        result = judged({**f1(), "signs": f1()["signs"] + READY})
        assert result["gates"]["restart"]["open"] is True
        patterns = [told["pattern"] for told in result["gates"]["condemn"]["warnings"]]
        assert {"unbalanced_windings", "shorted_trips_breaker"} <= set(patterns)

    def test_f4_keeps_its_contactor(self) -> None:
        patterns = [told["pattern"] for told in judged(f4())["gates"]["condemn"]["warnings"]]
        assert "pitted_contactor" in patterns

    def test_f6_is_not_started_cold_and_names_the_pump_nobody_needs(self) -> None:
        result = judged({**f6(), "signs": f6()["signs"] + READY})
        assert "floodback_cold_sump" in result["gates"]["restart"]["blocked_by"]
        assert result["gates"]["restart"]["open"] is False
        assert "bad_pump" in [told["pattern"] for told in result["gates"]["condemn"]["warnings"]]

    def test_f7_starts_without_a_leads_off_test(self) -> None:
        """A trip proven `never ran` needs motor and cable together, and no leads off, before one start."""
        case = f7()
        found = case["rounds"][0]
        for reading in found["readings"]:
            if reading["point"] == "insulation_resistance":
                del reading["leads"]
        result = judged({**case, "rounds": [found], "signs": case["signs"] + READY, "actions": [], "at": at("02:50")})
        assert result["weighing"]["turned"] == "not"
        assert result["gates"]["reset"]["open"] is True
        restart = result["gates"]["restart"]
        assert restart["needs"] == ["crankcase_pressure"], restart["needs"]

    def test_f10_may_be_started_once_it_was_tested_hot(self) -> None:
        result = judged(f10())
        assert result["gates"]["reset"]["open"] is True
        assert "runs_hot" in [told["pattern"] for told in result["gates"]["condemn"]["warnings"]]
