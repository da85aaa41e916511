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
