"""Coil volts by whether it was called. Limits: 85 to 110 % (IEC 60947-4-1, NEMA ICS 2), 10 % not called (CHECKS.md)."""

import pytest

from tests.engine.electrical_readings import found, value
from tests.engine.judging import findings, judge


def coil(volts, **about):
    return value("coil_voltage", volts, **about)


@pytest.mark.parametrize(
    ("volts", "called", "verdict"),
    [
        ("112", True, "pass"),
        ("101", True, "fail"),
        ("102", True, "cannot_tell"),
        ("132", True, "cannot_tell"),
        ("134", True, "fail"),
        ("0.4", False, "pass"),
        ("60", False, "fail"),
        ("118", None, "cannot_tell"),
    ],
)
def test_each_band(volts, called, verdict):
    about = {} if called is None else {"called": called}
    assert found("coil_voltage", coil(volts, **about))["verdict"] == verdict


def test_the_worse_of_pull_in_and_sealed_carries():
    # A good sealed reading after a bad pull-in does not hide it.
    low = coil("96", called=True, moment="pull_in", at="2026-10-14T22:00:00Z")
    good = coil("118", called=True, moment="sealed", at="2026-10-14T22:01:00Z")
    finding = found("coil_voltage", low, good)
    assert (finding["verdict"], finding["value"]) == ("fail", pytest.approx(80.0))


def test_a_later_pull_in_replaces_the_earlier():
    low = coil("96", called=True, moment="pull_in", at="2026-10-14T22:00:00Z")
    again = coil("112", called=True, moment="pull_in", at="2026-10-14T22:09:00Z")
    assert found("coil_voltage", low, again)["verdict"] == "pass"


def test_a_reading_not_called_does_not_hide_one_called():
    low = coil("96", called=True, at="2026-10-14T22:00:00Z")
    idle = coil("0.2", called=False, at="2026-10-14T22:05:00Z")
    assert found("coil_voltage", low, idle)["verdict"] == "fail"


def test_not_saying_whether_it_was_called_is_asked_for():
    (finding,) = findings(judge({"coil_voltage": 120}, [coil("118")]), "coil_voltage")
    assert finding["missing"] == ["called"]
    assert "called?" in finding["because"]
