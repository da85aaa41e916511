"""Every check comes with a worked example that it reproduces, limits with sources, and sentences for its verdicts."""

import math
from typing import Any

import pytest

from rackside.engine.points import known_point
from rackside.engine.words import en
from tests.engine.judging import case_of, described, finding, judge_case

VOCABULARY = described()
CHECKS = [pytest.param(check, id=check["check"]) for check in VOCABULARY["checks"]]
STATUSES = {"published", "common practice", "from memory"}


@pytest.mark.parametrize("check", CHECKS)
def test_the_worked_example_comes_out(check: dict[str, Any]) -> None:
    example = check["example"]
    assert example["source"], "an example without its source proves nothing"
    more = {key: example[key] for key in ("signs", "history", "neighbours", "events", "actions") if key in example}
    result = judge_case(case_of(example.get("machine", {}), example["readings"], **more))
    found = finding(result, check["check"])
    assert found["verdict"] == example["verdict"], found["because"]
    if example.get("value") is None:
        assert found["value"] is None
    else:
        assert math.isclose(found["value"], example["value"], abs_tol=example["tolerance"])
        assert found["unit"] == example.get("unit", check["unit"])


@pytest.mark.parametrize("check", CHECKS)
def test_every_limit_names_its_source(check: dict[str, Any]) -> None:
    for limit in check["limits"]:
        assert limit["source"]["work"]
        assert limit["source"]["status"] in STATUSES
        assert limit["verdict"] in ("watch", "fail")
        assert ("above" in limit) != ("below" in limit)
        assert limit["unit"]


@pytest.mark.parametrize("check", CHECKS)
def test_every_check_reads_known_points_and_has_its_words(check: dict[str, Any]) -> None:
    assert check["reads"] and all(known_point(point) for point in check["reads"])
    assert check["title"] != check["check"], "no title in the word file"
    assert check["formula"]


def test_every_word_of_the_contract_is_spoken() -> None:
    for kind, member in (("signs", "sign"), ("complaints", "complaint"), ("causes", "cause"), ("points", "name")):
        for told in VOCABULARY[kind]:
            assert told.get("text", told.get("title")) not in (None, "", told[member]), told


def test_no_sentence_is_left_half_spoken() -> None:
    for key, template in en.SENTENCES.items():
        assert template.count("{") == template.count("}"), key
        # A fact is a part of a sentence: "... because the motor turned".
        assert template.endswith((".", "}")) or key.startswith("fact."), key
