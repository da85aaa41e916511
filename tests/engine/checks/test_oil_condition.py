"""Oil by eye and by acid kit."""

import pytest

from tests.engine.judging import findings, judge
from tests.engine.plant_readings import found


def oil(*readings, machine=None):
    return found("oil_condition", machine or {}, *readings)


def colour(word, **more):
    return {"point": "oil_colour", "value": word, **more}


def acid(word, **more):
    return {"point": "oil_acid", "value": word, **more}


# CHECKS.md, oil_condition.
@pytest.mark.parametrize(
    ("word", "verdict"),
    [
        ("clear", "pass"),
        ("straw", "pass"),
        ("amber", "watch"),
        ("dark", "watch"),
        ("red-brown", "watch"),
        ("milky", "watch"),
        ("black", "fail"),
        ("glitter", "fail"),
    ],
)
def test_colours(word, verdict):
    assert oil(colour(word))["verdict"] == verdict


@pytest.mark.parametrize(("seconds", "verdict"), [(600, "watch"), (1800, "fail")])
def test_milky_fails_only_after_the_sample_stood_half_an_hour(seconds, verdict):
    assert oil(colour("milky", seconds=seconds))["verdict"] == verdict


@pytest.mark.parametrize(("word", "verdict"), [("negative", "pass"), ("positive", "fail")])
def test_an_acid_test_alone_is_judged(word, verdict):
    assert oil(acid(word))["verdict"] == verdict


@pytest.mark.parametrize(
    ("of_colour", "of_acid", "verdict"),
    [
        ("straw", "positive", "fail"),
        ("black", "negative", "fail"),
        ("amber", "negative", "watch"),
        ("clear", "negative", "pass"),
    ],
)
def test_the_worse_of_both_carries(of_colour, of_acid, verdict):
    assert oil(colour(of_colour), acid(of_acid))["verdict"] == verdict


def test_the_newest_of_each_counts():
    before, after = "2026-10-14T21:00:00-05:00", "2026-10-14T23:00:00-05:00"
    told = oil(acid("positive", at=before), acid("negative", at=after), colour("clear", at=before))
    assert told["verdict"] == "pass"


def test_the_kit_must_fit_the_oil():
    assert "write on the machine which oil" in oil(acid("negative"))["because"]
    assert "this machine has POE 32" in oil(acid("negative"), machine={"oil": "POE 32"})["because"]


def test_a_colour_nobody_knows_is_sent_back():
    result = judge({}, [colour("purple")])
    assert findings(result, "oil_condition")[0]["verdict"] == "cannot_tell"
