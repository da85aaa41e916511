"""What a phone marks on a call: the words it shows there stand in the office too, and odd forms hurt nobody."""

import re
from pathlib import Path

import pytest

from rackside.reports.job_marks import DONE_WORDS, SAFE, STEP_WORDS, change_words, marks_of

WEB = Path(__file__).parents[2] / "web"


def words_of(block: str) -> dict[str, str]:
    """Return the phone's own words of one block of its word file."""
    text = (WEB / "words" / "en.js").read_text()
    return dict(re.findall(r'(\w+): "((?:[^"\\]|\\.)*)"', re.search(block + r": \{(.*?)\n?\s*\}", text, re.S)[1]))


def test_the_words_are_the_phones_own() -> None:
    assert words_of(r"\n    step") == STEP_WORDS
    assert words_of(r"safe: \{\s*step") == {mark: DONE_WORDS[mark] for mark in SAFE}
    listed = re.search(r"SAFE = \[(.*?)\]", (WEB / "state" / "job.js").read_text())[1]
    assert tuple(re.findall(r'"(\w+)"', listed)) == SAFE


def test_marks_are_told_in_the_order_of_the_work() -> None:
    extra = {"done": {"tried": "2026-10-14T22:12:00-05:00", "locked": "2026-10-14T22:10:00-05:00"}}
    extra["skipped"] = {"oil": {"reason": "no gauge", "at": "2026-10-14T22:20:00-05:00"}}
    told = marks_of(extra)
    assert [mark["mark"] for mark in told["done"]] == ["locked", "tried"]
    assert told["unmarked"] == [DONE_WORDS["staged"], DONE_WORDS["waited"]]
    assert told["left_out"] == [
        {"step": "oil", "words": "Oil side", "reason": "no gauge", "at": "2026-10-14T22:20:00-05:00"}
    ]


@pytest.mark.parametrize("odd", [None, [], "x", {"done": []}, {"done": {"locked": 7}}, {"skipped": {"oil": "tired"}}])
def test_odd_forms_are_told_without_a_fault(odd: object) -> None:
    told = marks_of(odd)
    assert all(isinstance(mark["at"], str) for mark in told["done"])
    assert all(isinstance(step["reason"], str) for step in told["left_out"])
    assert change_words(odd, odd) == "nothing that is shown here"


def test_a_change_says_only_what_changed() -> None:
    before = {"done": {"locked": "t1"}, "skipped": {"oil": {"reason": "no gauge"}}}
    after = {"done": {"locked": "t1", "tried": "t2"}, "skipped": {"start": {"reason": "no power"}}, "colour": "red"}
    assert change_words(before, after) == (
        "marked done: Start tried: nothing moved; left out: One witnessed start, because no power; "
        "taken up again: Oil side; noted beside it: colour"
    )
    assert change_words(after, None) == (
        "no longer marked done: Its own disconnect open, locked and tagged; "
        "no longer marked done: Start tried: nothing moved; taken up again: One witnessed start"
    )
