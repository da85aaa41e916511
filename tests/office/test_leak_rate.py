"""Leak rates by hand: both methods, the first addition, several of one visit, and words that promise nothing."""

from datetime import UTC, datetime, timedelta

import pytest

from rackside.office.leak_rate import Addition, rates
from rackside.office.refrigerant_log import charge_members, racks_of

DAY = datetime(2026, 3, 1, 10, tzinfo=UTC)


def added(day: int, pounds: float) -> Addition:
    return Addition(DAY + timedelta(days=day), pounds, f"call {day}")


def test_annualizing_takes_the_days_since_the_addition_before() -> None:
    later, first = rates([added(73, 30.0), added(0, 20.0)], 500.0, "annualizing")
    assert (first.days, first.assumed, first.percent) == (365, True, pytest.approx(4.0))
    # 30 lb of 500 in 73 days: 6 % five times a year.
    assert (later.days, later.assumed, later.percent) == (73, False, pytest.approx(30.0))
    assert later.words == "above the 20 % the rule names"


def test_a_gap_of_more_than_a_year_counts_as_a_year() -> None:
    later, _ = rates([added(0, 20.0), added(500, 30.0)], 500.0, "annualizing")
    assert (later.days, later.assumed, later.percent) == (365, True, pytest.approx(6.0))


def test_rolling_counts_the_last_365_days() -> None:
    last, middle, _ = rates([added(0, 50.0), added(200, 30.0), added(400, 19.0)], 500.0, "rolling")
    assert (middle.pounds_counted, middle.percent) == (80.0, pytest.approx(16.0))
    assert (last.pounds_counted, last.percent) == (49.0, pytest.approx(9.8))


def test_close_to_the_trigger_is_said() -> None:
    assert rates([added(0, 95.0)], 500.0, "rolling")[0].words == "within a tenth of the 20 % the rule names"
    assert rates([added(0, 90.0)], 500.0, "rolling")[0].words == "below the 20 % the rule names"


def reading(call: str, value: str, machine: str = "a", unit: str | None = "lb", day: int = 0) -> dict:
    at = (DAY + timedelta(days=day)).isoformat()
    return {"call": call, "machine": machine, "value": value, "unit": unit, "at": at, "author": "T. Okafor"}


def test_additions_of_one_visit_are_one_and_what_is_no_number_is_shown_apart() -> None:
    site = {"extra": {"full_charge_lb": {"A": "100"}, "leak_method": "rolling"}}
    machines = [{"id": "a", "rack": "A", "refrigerant": "R-448A"}, {"id": "b", "rack": "B", "refrigerant": "R-448A"}]
    told = racks_of(
        site,
        machines,
        [
            reading("one", "2"),
            reading("one", "3.5"),
            reading("two", "1", "b"),
            reading("three", ">4"),
            reading("x", "1", "a", "bar"),
        ],
    )
    rack_a, rack_b = told["racks"]
    assert [(rate.pounds, rate.percent) for rate in rack_a["rates"]] == [(5.5, pytest.approx(5.5))]
    assert rack_b["rates"] == []
    assert [addition.pounds for addition in rack_b["additions"]] == [1.0]
    assert [one["call"] for one in told["unread"]] == ["three", "x"]


def test_charges_keep_what_else_the_site_says() -> None:
    site = {"extra": {"key": "under the mat"}}
    members, faults = charge_members(site, {"charge-A": "620", "charge-B": "", "method": "rolling"})
    assert faults == []
    assert members == {"extra": {"key": "under the mat", "full_charge_lb": {"A": "620"}, "leak_method": "rolling"}}
    _, faults = charge_members(site, {"charge-A": "-5", "method": "guess"})
    assert "Rack A: '-5' is no number of pounds above 0." in faults
    assert "Choose one method" in faults[1]
