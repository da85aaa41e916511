"""What a trend draws and what it marks: the alarm ideas of handbook D4, each at its own edge."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from rackside.office import chart
from rackside.office.trend_series import CHECKS, Trend, newest_marks, trends

START = datetime(2026, 1, 1, tzinfo=UTC)


def point(check: str, visit: int, value: float, label: str = "as_left", **more: Any) -> dict:
    at = (START + timedelta(days=30 * visit, hours=label == "as_left")).isoformat()
    told = {"check": check, "at": at, "label": label, "value": value, "unit": "", "verdict": "pass"}
    return told | {"call": f"call {visit}", "legs": [], "detail": {}} | more


def drawn(oil: tuple = (), **checks: list[dict]) -> dict[str, Trend]:
    found = {check: checks.get(check, []) for check in CHECKS}
    return {trend.key: trend for trend in trends(found, list(oil))}


def insulation(visit: int, at_40c: float, winding: float = 25.0) -> dict:
    return point("insulation", visit, at_40c, detail={"at_40c": at_40c, "winding_c": winding})


def test_only_what_was_measured_is_drawn() -> None:
    assert drawn() == {}
    assert list(drawn(start_rate=[point("start_rate", 0, 3)])) == ["starts"]


def test_a_visit_counts_once_as_left_where_that_was_measured() -> None:
    readings = [point("start_rate", 0, 9, "as_found"), point("start_rate", 0, 3), point("start_rate", 1, 5, "as_found")]
    assert [spot.value for spot in drawn(start_rate=readings)["starts"].lines[0].spots] == [3, 5]


@pytest.mark.parametrize(
    ("readings", "marked"),
    [
        ([insulation(0, 200), insulation(1, 150), insulation(2, 100)], ["call 2"]),
        ([insulation(0, 200), insulation(1, 150), insulation(2, 101)], []),
        ([insulation(0, 200), insulation(1, 90, winding=40)], []),
        ([insulation(0, 200), insulation(1, 190), insulation(2, 180), insulation(3, 95)], ["call 3"]),
        ([insulation(0, 19.9)], ["call 0"]),
    ],
)
def test_insulation_is_marked_when_it_halved_in_two_visits_at_like_temperature(readings: list, marked: list) -> None:
    assert [mark.call for mark in drawn(insulation=readings)["insulation"].marks] == marked


def poles(visit: int, *ohms: float) -> dict:
    legs = [{"leg": leg, "mohm": mohm} for leg, mohm in zip(("L1-T1", "L2-T2", "L3-T3"), ohms, strict=True)]
    return point("pole_drop", visit, 40, legs=legs)


def test_a_pole_is_marked_by_its_rise_and_by_its_distance_to_the_others() -> None:
    quiet = drawn(pole_drop=[poles(0, 1.2, 1.3, 1.2), poles(1, 1.75, 1.3, 1.2)])["poles"]
    assert [line.name for line in quiet.lines] == ["L1-T1", "L2-T2", "L3-T3"]
    assert [mark.words for mark in quiet.marks] == []
    risen = drawn(pole_drop=[poles(0, 1.2, 1.3, 1.3), poles(1, 1.9, 1.4, 1.3)])["poles"].marks
    assert [mark.words for mark in risen if mark.call == "call 1"] == [
        "L1-T1 more than half up on the visit before",
    ]
    apart = drawn(pole_drop=[poles(0, 1.2, 1.9, 1.2)])["poles"].marks
    assert [mark.words for mark in apart] == ["poles more than half apart"]


def test_net_oil_falls_only_against_a_like_sump() -> None:
    def visit(number: int, net: float, sump: float) -> tuple[dict, dict]:
        detail = {"saturated": -20.0}
        return point("net_oil_pressure", number, net), point(
            "sump_superheat", number, sump + 20.0, unit="F", detail=detail
        )

    fallen = [visit(0, 34, 118), visit(1, 27, 110)]
    trend = drawn(net_oil_pressure=[one for one, _ in fallen], sump_superheat=[two for _, two in fallen])["net_oil"]
    assert [mark.call for mark in trend.marks] == ["call 1"]
    assert trend.beside is not None
    assert [spot.value for spot in trend.beside.spots] == [118, 110]
    hot = [visit(0, 34, 118), visit(1, 27, 140)]
    trend = drawn(net_oil_pressure=[one for one, _ in hot], sump_superheat=[two for _, two in hot])["net_oil"]
    assert trend.marks == []


def test_amps_starts_ratio_and_oil_have_their_marks() -> None:
    found = drawn(
        oil=({"at": START.isoformat(), "value": "16", "unit": "floz", "call": "call 0"},),
        current_against_expected=[
            point("current_against_expected", 0, -10.1),
            point("current_against_expected", 1, 10),
        ],
        running_current_unbalance=[
            point("running_current_unbalance", 0, 12, detail={"ratio_to_voltage_unbalance": 10.4}),
            point("running_current_unbalance", 1, 8, detail={"ratio_to_voltage_unbalance": 9.9}),
        ],
        start_current=[
            point("start_current", 0, 0.8, detail={"duration": 0.25}),
            point("start_current", 1, 0.8, detail={"duration": 0.5}),
        ],
        start_rate=[point("start_rate", 0, 8), point("start_rate", 1, 9)],
    )
    marked = {key: [mark.call for mark in trend.marks] for key, trend in found.items()}
    expected = {"expected": ["call 0"], "unbalance": ["call 0"], "start": ["call 1"], "starts": ["call 1"]}
    assert marked == expected | {"oil_added": ["call 0"]}
    assert [mark.words for mark in newest_marks([found["starts"]])] == ["Starts: more than 8 starts in an hour"]
    assert newest_marks([found["expected"]]) == []


def test_a_plot_of_one_point_or_one_value_has_a_place_for_it() -> None:
    for line in ([(5.0, 3.0)], [(5.0, 0.0), (6.0, 0.0)]):
        told = chart.drawing([line])
        assert all(chart.LEFT <= x <= chart.RIGHT and chart.TOP <= y <= chart.BOTTOM for x, y in told["lines"][0])
        assert told["ticks"]


def test_ticks_are_round_numbers_inside_the_picture() -> None:
    told = chart.drawing([[(0.0, 0.2), (1.0, 31.7)]], [20.0])
    assert [tick["said"] for tick in told["ticks"]] == ["0", "10", "20", "30"]
    assert all(chart.TOP <= tick["y"] <= chart.BOTTOM for tick in told["ticks"])
