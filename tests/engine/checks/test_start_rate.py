"""Starts in the last hour by kind of machine. Limits: CHECKS.md (makers' bulletins, trade practice)."""

import pytest

from tests.engine.electrical_readings import found, value


def rate(kind, starts, **more):
    return found(
        "start_rate", value("starts_last_hour", starts, at="2026-10-14T22:00:00Z"), machine={"type": kind}, **more
    )


@pytest.mark.parametrize(
    ("kind", "starts", "verdict"),
    [
        ("semi-hermetic-reciprocating", "6", "pass"),
        ("semi-hermetic-reciprocating", "7", "watch"),
        ("open-reciprocating", "10", "watch"),
        ("semi-hermetic-reciprocating", "11", "fail"),
        ("welded-scroll", "10", "pass"),
        ("welded-scroll", "12", "watch"),
        ("welded-scroll", "13", "fail"),
        ("semi-hermetic-screw", "4", "pass"),
        ("open-screw", "5", "watch"),
        ("semi-hermetic-screw", "7", "fail"),
    ],
)
def test_each_kind(kind, starts, verdict):
    assert rate(kind, starts)["verdict"] == verdict


def test_the_technicians_own_starts_are_not_counted():
    def start(at, by):
        return {"at": at, "device": "controller", "what": "start", "by": by}

    events = [
        start("2026-10-14T21:40:00Z", "T. Okafor"),
        start("2026-10-14T21:50:00Z", "T. Okafor"),
        start("2026-10-14T20:10:00Z", "T. Okafor"),
        start("2026-10-14T21:30:00Z", "unknown"),
    ]
    finding = rate("semi-hermetic-reciprocating", "8", events=events)
    assert (finding["verdict"], finding["value"]) == ("pass", 6.0)
    assert finding["detail"]["own_starts"] == 2


def test_the_type_is_asked_for():
    assert found("start_rate", value("starts_last_hour", "8"), machine={})["missing"] == ["machine type"]
