"""How long the judge takes over a full case of 40 readings, on both runtimes."""

import json
import time
from itertools import chain, cycle, islice
from statistics import median, quantiles
from typing import Any

from rackside.engine import entry
from tests.engine.judging import described
from tests.engine.runtimes import on_micropython

READINGS, ROUNDS, TIMES = 40, ("as_found", "interim", "as_left"), 60


def full_case() -> dict[str, Any]:
    """Return the worked examples of all checks as the readings of one call in three rounds, 40 in all."""
    examples = [check["example"] for check in described()["checks"]]
    readings = islice(cycle(chain.from_iterable(example["readings"] for example in examples)), READINGS)
    numbered = [{**reading, "id": f"r{index}"} for index, reading in enumerate(readings)]
    rounds = [{"label": label, "readings": numbered[at :: len(ROUNDS)]} for at, label in enumerate(ROUNDS)]
    machine = {key: value for example in examples for key, value in example.get("machine", {}).items()}
    return {"machine": machine, "rounds": rounds}


def entry_of(kind: str, name: str, body: dict[str, Any]) -> dict[str, Any]:
    """Return an entry of the one call as the phone keeps it."""
    head = {"id": name, "schema": 1, "kind": kind, "base": [], "made_at": "2026-10-14T21:40:00-05:00"}
    return {**head, "call": None if kind == "machine" else "call", "device": "d", "author": "T. Okafor", "body": body}


def full_call() -> dict[str, Any]:
    """Return the full case as the entries of one call."""
    case = full_case()
    entries = [entry_of("machine", "machine", case["machine"]), entry_of("call", "call", {"machine": "machine"})]
    for number, round_ in enumerate(case["rounds"]):
        entries.append(entry_of("round", f"round-{number}", {"label": round_["label"]}))
        for reading in round_["readings"]:
            name, body = reading["id"], {key: value for key, value in reading.items() if key != "id"}
            entries.append(entry_of("reading", name, {**body, "round": f"round-{number}"}))
    return {"call": "call", "entries": entries, "history": []}


def told(what: str, seconds: list[float]) -> float:
    middle, high = median(seconds) * 1000, quantiles(seconds, n=20)[-1] * 1000
    print(f"\n{what}: median {middle:.1f} ms, p95 {high:.1f} ms over {len(seconds)} runs")
    return middle


def test_judge_on_cpython() -> None:
    text, seconds = json.dumps(full_case()), []
    for _ in range(TIMES):
        started = time.perf_counter()
        answer = entry.judge(text)
        seconds.append(time.perf_counter() - started)
    assert "errors" not in json.loads(answer)
    assert told("judge of 40 readings on CPython (budget 10 ms)", seconds) <= 10


def test_judge_on_micropython() -> None:
    answers, seconds = on_micropython([["judge", json.dumps(full_case()), "en"]] * TIMES)
    assert "errors" not in json.loads(answers[-1])
    assert (
        told("judge of 40 readings on MicroPython under Node, four times (budget 400 ms)", [4 * one for one in seconds])
        <= 400
    )


def test_look_at_the_field_under_the_thumb() -> None:
    typed = {
        "point": "line_voltage",
        "legs": {"L1-L2": "462", "L2-L3": "463", "L3-L1": "455"},
        "unit": "V",
        "state": "running",
    }
    look = ["look", json.dumps({"round": "round-0", "reading": typed})]
    begun = ["look", json.dumps({"round": "round-0", "reading": {**typed, "legs": {"L1-L2": "462"}}})]
    opening = ["open", json.dumps(full_call()), "en"]
    texts, seconds = [], []
    entry.open(opening[1])
    for _ in range(TIMES):
        started = time.perf_counter()
        texts.append(entry.look(look[1]))
        seconds.append(time.perf_counter() - started)
    told("look at one reading of a full call on CPython", seconds)
    answers, on_the_phone = on_micropython([opening, *[look] * TIMES, *[begun] * TIMES])
    assert all(json.loads(text)["findings"] for text in [*texts, *answers[1:]])
    print(f"\nopen a full call on MicroPython under Node, once, four times: {4000 * on_the_phone[0]:.0f} ms")
    whole, first = on_the_phone[1 : TIMES + 1], on_the_phone[TIMES + 1 :]
    for what, seconds in (("look", whole), ("look at the first of three legs", first)):
        middle = told(f"{what} on MicroPython under Node, four times (budget 50 ms)", [4 * one for one in seconds])
        assert middle <= 50
