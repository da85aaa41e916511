"""The cases by which the page tests its own engine are cases of the contract that come out as expected."""

import json
import subprocess
from pathlib import Path

import pytest

from tests.engine.judging import described, judge_case
from tests.fixtures.requirements import node_path

VECTORS = Path(__file__).parents[2] / "web/state/vectors.js"
SCRIPT = """
const { vectorsOf } = await import(process.argv[1]);
let text = "";
for await (const part of process.stdin) text += part;
const [words, results] = JSON.parse(text);
const vectors = vectorsOf(words);
console.log(JSON.stringify(vectors.map((one, i) => (results ? one.agrees(results[i]) : [one.check, one.case]))));
"""


def asked(results: list[dict] | None) -> list:
    command = [node_path(), "--input-type=module", "-e", SCRIPT, VECTORS.as_uri()]
    given = json.dumps([described(), results])
    return json.loads(subprocess.run(command, input=given, capture_output=True, text=True, check=True).stdout)


@pytest.fixture(scope="module")
def cases() -> list:
    return asked(None)


def test_every_check_has_one(cases: list) -> None:
    assert [check for check, _ in cases] == [told["check"] for told in described()["checks"]]


def test_each_is_judged_and_agrees(cases: list) -> None:
    results = [judge_case(case) for _, case in cases]
    assert [check for (check, _), result in zip(cases, results, strict=True) if "errors" in result] == []
    assert asked(results) == [True] * len(cases)
