"""The phone and the server run the same files: identical verdicts and sentences, values to 1e-12."""

import json
import random
from pathlib import Path
from typing import Any

from rackside.engine.points import POINTS
from tests.engine.judging import case_of, described
from tests.engine.runtimes import difference, on_cpython, on_micropython

VECTORS = sorted(Path(__file__).with_name("vectors").glob("*.json"))
PLATE = Path(__file__).with_name("vectors") / "b3_breaker_open.json"
AWKWARD_TEXTS = ["OL", ">2000", "<0.5", "0", "", "nan", "1_0", "٣", "-5", "1e3", "0.70", "99999999999", "00.5"]
RANDOM_CASES = 300


def requests() -> list[list[str]]:
    """Return one judge request for each vector, worked example and random case."""
    cases: list[Any] = [json.loads(path.read_text(encoding="utf-8")) for path in VECTORS]
    for check in described()["checks"]:
        example = check["example"]
        more = {key: example[key] for key in ("signs", "history", "neighbours", "events", "actions") if key in example}
        cases.append(case_of(example.get("machine", {}), example["readings"], **more))
    chance = random.Random(20261014)
    cases.extend(random_case(chance) for _ in range(RANDOM_CASES))
    return [["judge", json.dumps(case), "en"] for case in cases]


def random_case(chance: random.Random) -> dict[str, Any]:
    machine = json.loads(PLATE.read_text(encoding="utf-8"))["machine"]
    for key in list(machine):
        if chance.random() < 0.1:
            del machine[key]
    readings = [random_reading(chance) for _ in range(chance.randint(1, 14))]
    signs = [
        {"sign": sign, "present": chance.random() < 0.7} for sign in ("oil_foam", "motor_turned", "breaker_tripped")
    ]
    return case_of(machine, readings, signs=signs)


def random_reading(chance: random.Random) -> dict[str, Any]:
    point = chance.choice(POINTS)
    reading: dict[str, Any] = {"point": point.name}
    if point.units:
        reading["unit"] = chance.choice(point.units)
    if chance.random() < 0.8:
        reading["state"] = chance.choice(point.states)
    if point.kind == "word":
        reading["value"] = chance.choice([*point.words, "purple"])
    elif point.kind == "value":
        reading["value"] = random_value(chance, point.low, point.high)
    elif point.kind in ("legs", "absence"):
        middle = chance.uniform(point.low, point.high)
        reading["legs"] = {
            key: random_value(chance, middle * 0.95, middle * 1.05) for key in point.keys if chance.random() < 0.97
        }
    if chance.random() < 0.5:
        reading.update(leads=chance.choice(["on", "off"]), winding_temperature=chance.randint(-10, 110))
        reading.update(winding_temperature_unit=chance.choice(["F", "C"]), since_start=chance.randint(0, 400))
    return reading


def random_value(chance: random.Random, low: float, high: float) -> Any:
    if chance.random() < 0.08:
        return chance.choice(AWKWARD_TEXTS)
    value = chance.uniform(low, min(high, 1e6))
    return f"{value:.{chance.randint(0, 3)}f}" if chance.random() < 0.8 else value


def test_cpython_and_micropython_answer_alike() -> None:
    asked = requests()
    assert len(asked) > RANDOM_CASES + len(VECTORS) + 5
    there, _ = on_micropython(asked)
    here = on_cpython(asked)
    differences = [
        difference(json.loads(a), json.loads(b), f"case {i}") for i, (a, b) in enumerate(zip(here, there, strict=True))
    ]
    assert [told for told in differences if told] == []
    assert not [answer for answer in here if "errors" in json.loads(answer)]


def test_both_describe_the_same_words() -> None:
    there, _ = on_micropython([["describe", "en"]])
    assert difference(described(), json.loads(there[0])) == ""
