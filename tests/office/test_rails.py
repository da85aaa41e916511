"""The rail is one picture: what the report draws is what the rule says, and what the phone draws."""

import json
import subprocess
from pathlib import Path

import pytest

from rackside.reports.rails import rail_drawing
from tests.engine.judging import case_of, described, finding, judge_case
from tests.fixtures.requirements import node_path

HERE = Path(__file__).parent
MARKS = json.loads((HERE / "rail_marks.json").read_text())
CASES = json.loads((HERE / "rail_cases.json").read_text())
GEOMETRY = HERE.parents[1] / "web/components/rail-geometry.js"
ASK_PHONE = """
const { railGeometry } = await import(process.argv[1]);
let text = "";
for await (const part of process.stdin) text += part;
console.log(JSON.stringify(JSON.parse(text).map(railGeometry)));
"""


@pytest.fixture(scope="module")
def phone_drawings() -> list[dict]:
    command = [node_path(), "--input-type=module", "-e", ASK_PHONE, GEOMETRY.as_uri()]
    findings = json.dumps([case["finding"] for case in CASES])
    return json.loads(subprocess.run(command, input=findings, capture_output=True, text=True, check=True).stdout)


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_rail_follows_the_written_rule(case: dict) -> None:
    drawing = rail_drawing(case["finding"])
    columns = drawing["columns"]
    assert drawing["width"] == case["width"]
    assert [column["x"] for column in columns] == [30 + 60 * number for number in range(len(columns))]
    assert [column["y"] for column in columns] == pytest.approx(case["y"], abs=0.05)
    assert [column["off"] for column in columns] == case["off"]
    assert [column["verdict"] for column in columns] == case["verdicts"]
    assert columns[0]["band"] == (pytest.approx(case["band"], abs=0.05) if case["band"] else None)
    assert columns[0]["near"] == [pytest.approx(zone, abs=0.05) for zone in case["near"]]


@pytest.mark.parametrize("number", range(len(CASES)), ids=[case["name"] for case in CASES])
def test_phone_draws_the_same(number: int, phone_drawings: list[dict]) -> None:
    ours, theirs = rail_drawing(CASES[number]["finding"]), phone_drawings[number]
    assert ours["width"] == theirs["width"]
    ends = {"up": "high", "down": "low", "": None}
    for column, rail in zip(ours["columns"], theirs["rails"], strict=True):
        assert (column["x"], column["name"], column["verdict"]) == (rail["x"], rail["name"], rail["verdict"])
        assert column["y"] == pytest.approx(rail["y"], abs=0.11)
        assert ends[column["off"]] == rail["off"]
        assert column["band"] == (pytest.approx(rail["band"], abs=0.11) if rail["band"] else None)
        assert column["near"] == [pytest.approx(zone, abs=0.11) for zone in rail["near"]]
        assert (column["whisker"] is None) == (rail["whisker"] is None)


def worked_example(check: str) -> dict:
    (example,) = [told["example"] for told in described()["checks"] if told["check"] == check]
    more = {key: example[key] for key in ("signs", "history", "neighbours", "events", "actions") if key in example}
    return finding(judge_case(case_of(example.get("machine", {}), example["readings"], **more)), check)


def test_the_marks_cover_every_check() -> None:
    assert sorted(MARKS) == sorted(told["check"] for told in described()["checks"])


@pytest.mark.parametrize("check", MARKS)
def test_no_mark_of_a_worked_example_moves(check: str) -> None:
    """A mark that moves on purpose is changed in rail_marks.json, in the same commit as the rule."""
    columns = rail_drawing(worked_example(check))["columns"]
    assert [column["y"] for column in columns] == pytest.approx(MARKS[check]["y"], abs=0.11)
    assert [column["off"] for column in columns] == MARKS[check]["off"]


@pytest.mark.parametrize("check", [check for check in MARKS if len(MARKS[check]["y"]) > 1])
def test_a_mark_stands_where_its_verdict_says(check: str) -> None:
    """A leg that passes lies in the band, one that fails outside it."""
    drawing = rail_drawing(worked_example(check))
    for column in drawing["columns"]:
        if not column["band"] or not column["placed"]:
            continue
        top, bottom = column["band"]["y"], column["band"]["y"] + column["band"]["height"]
        inside = top - 0.1 <= column["y"] <= bottom + 0.1
        assert inside or column["verdict"] != "pass"
        assert not inside or column["verdict"] != "fail"
