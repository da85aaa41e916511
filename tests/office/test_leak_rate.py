"""Leak rates by hand: both methods, the first addition, several of one visit, and words that promise nothing."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from rackside.office import leak_trail
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


def rack_of(site_extra: dict, *readings: dict, refrigerant: str = "R-448A") -> dict:
    machines = [{"id": "a", "rack": "A", "refrigerant": refrigerant}]
    (rack,) = racks_of({"extra": site_extra}, machines, list(readings), ZoneInfo("America/Chicago"))["racks"]
    return rack


def written(kind: str, on: str, **more: str) -> dict:
    return {"id": f"{kind} {on}", "rack": "A", "kind": kind, "on": on, "by": "M. Castellanos", **more}


def test_a_rate_above_the_rules_number_lists_what_it_asks_and_what_is_written_down() -> None:
    trail = [
        written("repaired", "2026-03-09", what="flare of the liquid line"),
        written("first_test", "2026-03-10", result="held"),
        written("inspected", "2026-01-05"),
        written("recovered", "2026-03-09", pounds="11.5"),
        written("recovered", "2025-03-09", pounds="2"),
    ]
    extra = {"full_charge_lb": {"A": "100"}, "leak_method": "rolling", "refrigerant_trail": trail}
    rack = rack_of(extra, reading("one", "25"))
    assert rack["above"][1].isoformat() == "2026-03-01"
    told = {step.title: ([one["on"] for one in step.found], step.until) for step in rack["steps"]}
    assert told["Leak repaired"] == (["2026-03-09"], date(2026, 3, 31))
    assert told["First test that the repair holds"][0] == ["2026-03-10"]
    assert told["Later test that the repair holds"] == ([], None)
    assert told["Looked for leaks"][0] == [], "what was done before the rate does not count for it"
    assert rack["recovered"] == 13.5
    assert rack_of(extra, reading("one", "5"))["steps"] == []


def test_pounds_are_added_up_by_the_sites_own_calendar_year() -> None:
    # Half past midnight UTC on 1 January is still the old year in Chicago.
    new_year = {**reading("new", "60"), "at": "2026-01-01T00:30:00+00:00"}
    rack = rack_of({"full_charge_lb": {"A": "80"}}, new_year, reading("one", "104"))
    assert [(year["year"], year["pounds"], year["percent"]) for year in rack["years"]] == [
        (2026, 104.0, pytest.approx(130.0)),
        (2025, 60.0, pytest.approx(75.0)),
    ]


@pytest.mark.parametrize(
    ("refrigerant", "charge", "said"),
    [
        ("R-744", "300", "R-744 is not among the refrigerants"),
        ("R-22", "300", "40 CFR 82.157 is the rule, from 50 lb"),
        ("R-448A", "12", "below the 15 lb"),
        ("R-448A", "1500", "automatic leak detection; none is recorded here"),
    ],
)
def test_where_the_named_rule_may_not_be_the_one_it_says_so(refrigerant: str, charge: str, said: str) -> None:
    (told,) = rack_of({"full_charge_lb": {"A": charge}}, refrigerant=refrigerant)["reach"]
    assert said in told
    assert rack_of({"full_charge_lb": {"A": "300"}})["reach"] == []


def test_what_is_written_down_is_checked_and_keeps_only_what_belongs_to_it() -> None:
    form = {"rack": "A", "kind": "recovered", "on": "2026-03-09", "pounds": "11.5", "result": "held", "what": " flare "}
    told, faults = leak_trail.read(form, ["A"], "M. Castellanos")
    assert faults == []
    del told["id"]
    assert told == {
        "rack": "A", "kind": "recovered", "on": "2026-03-09", "pounds": "11.5", "what": "flare", "by": "M. Castellanos"
    }  # fmt: skip
    wrong = {"rack": "Z", "kind": "first_test", "on": "soon", "result": ""}
    assert len(leak_trail.read(wrong, ["A"], "x")[1]) == 3
    assert leak_trail.read(form | {"pounds": "some"}, ["A"], "x")[1] == [
        "Pounds recovered are a number, with a decimal point where it has one."
    ]


def test_a_trail_of_another_form_hurts_nobody() -> None:
    for odd in ("x", [1], [{"kind": "repaired"}], [{"kind": "repaired", "on": 5, "rack": "A"}], {"a": 1}):
        assert rack_of({"full_charge_lb": {"A": "80"}, "refrigerant_trail": odd}, reading("one", "30"))["trail"] == []


def test_charges_keep_what_else_the_site_says() -> None:
    site = {"extra": {"key": "under the mat"}}
    members, faults = charge_members(site, {"charge-A": "620", "charge-B": "", "method": "rolling"})
    assert faults == []
    assert members == {"extra": {"key": "under the mat", "full_charge_lb": {"A": "620"}, "leak_method": "rolling"}}
    _, faults = charge_members(site, {"charge-A": "-5", "method": "guess"})
    assert "Rack A: '-5' is no number of pounds above 0." in faults
    assert "Choose one method" in faults[1]
