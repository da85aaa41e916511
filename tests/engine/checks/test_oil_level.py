"""The oil glass, read to an eighth."""

import pytest

from tests.engine.plant_readings import found, present, read


def glass(value, **more):
    return found("oil_level", {}, read("oil_level", value, "fraction"), **more)


# CHECKS.md, oil_level, with the eighth's own doubt of 0.072 (k = 2).
@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("0.5", "pass"),
        ("0.33", "pass"),
        ("0.67", "pass"),
        ("0.2", "watch"),
        ("0.875", "watch"),
        ("<0.125", "fail"),  # handbook F4: below an eighth
        ("0", "fail"),
        ("0.0", "fail"),
        ("1", "fail"),
        ("1.0", "fail"),
        ("0.125", "cannot_tell"),
    ],
)
def test_bands(value, verdict):
    assert glass(value)["verdict"] == verdict


def test_an_eighth_whatever_the_digits():
    assert glass("0.50")["uncertainty"] == glass("0.5")["uncertainty"] == pytest.approx(2 * 0.125 / 12**0.5)


def test_full_and_empty_look_alike():
    for value in ("1", "0", "0.5"):
        told = glass(value, signs=present("oil_line_not_seen"))
        assert told["verdict"] == "cannot_tell"
        assert "Don't add oil" in told["because"]


def test_a_line_seen_later_is_judged():
    signs = [{"sign": "oil_line_not_seen", "present": True, "at": "2026-10-14T21:30:00-05:00"}]
    later = read("oil_level", "0.5", "fraction", at="2026-10-14T23:00:00-05:00")
    assert found("oil_level", {}, later, signs=signs)["verdict"] == "pass"
    full = read("oil_level", "1", "fraction", at="2026-10-14T23:00:00-05:00")
    assert found("oil_level", {}, full, signs=signs)["verdict"] == "cannot_tell"


def test_half_in_percent_is_sent_back():
    told = glass("50")
    assert told["verdict"] == "cannot_tell"
    assert "can't be" in told["because"]


def test_own_limits_win_over_the_full_glass_too():
    own = {"oil_level": {"unit": "fraction", "fail": {"below": 0.2}, "source": "bulletin 4"}}
    told = found("oil_level", {"limits": own}, read("oil_level", "1", "fraction"))
    assert told["verdict"] == "pass"
