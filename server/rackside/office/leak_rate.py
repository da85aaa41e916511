"""The leak rate of one rack from what was added to it: the two usual ways, with every input kept. Pure.

It computes and shows; whether a rule is met is for the owner and the text of the rule on that day.
"""

from datetime import datetime
from typing import Any, NamedTuple

Json = dict[str, Any]
YEAR = 365
TRIGGER = 20.0
WARNED = 0.9
RULE = (
    "US EPA, 40 CFR 84.106: leak repair for refrigerating appliances of 15 lb and more, from 1 January 2026; "
    "commercial refrigeration, cold stores included, 20 % a year"
)
# Racks of this charge and more need a leak detector of their own in that rule; more than this a year is reported.
LARGEST_CHARGE, CHRONIC = 1500.0, 125.0
SMALLEST_CHARGE = 15.0
RULE_READ = "as known to this program in November 2026; confirm the current text on the day you use it"
METHODS = {
    "annualizing": "annualizing: a visit's pounds over the full charge, times 365 over the days since the one before",
    "rolling": "rolling average: the pounds of the last 365 days over the full charge",
}


class Addition(NamedTuple):
    """What one visit added, all its readings together."""

    at: datetime
    pounds: float
    call: str
    by: str = ""


class Rate(NamedTuple):
    """A rate after one addition, with what it was computed from."""

    at: datetime
    pounds: float
    call: str
    days: int
    assumed: bool
    pounds_counted: float
    percent: float
    words: str
    by: str = ""


def rates(additions: list[Addition], full_charge: float, method: str) -> list[Rate]:
    """Return the rate after every addition, the latest first."""
    ordered = sorted(additions)
    computed = _rolling if method == "rolling" else _annualizing
    return [computed(ordered[: place + 1], full_charge) for place in range(len(ordered))][::-1]


def _annualizing(so_far: list[Addition], full_charge: float) -> Rate:
    last = so_far[-1]
    gap = (last.at - so_far[-2].at).days if len(so_far) > 1 else YEAR
    assumed = len(so_far) == 1 or gap > YEAR
    days = YEAR if assumed else max(gap, 1)
    percent = 100 * last.pounds / full_charge * YEAR / days
    return Rate(last.at, last.pounds, last.call, days, assumed, last.pounds, percent, _words(percent), last.by)


def _rolling(so_far: list[Addition], full_charge: float) -> Rate:
    last = so_far[-1]
    counted = sum(one.pounds for one in so_far if (last.at - one.at).days < YEAR)
    percent = 100 * counted / full_charge
    return Rate(last.at, last.pounds, last.call, YEAR, False, counted, percent, _words(percent), last.by)


def _words(percent: float) -> str:
    if percent > TRIGGER:
        return f"above the {TRIGGER:g} % the rule names"
    if percent > TRIGGER * WARNED:
        return f"within a tenth of the {TRIGGER:g} % the rule names"
    return f"below the {TRIGGER:g} % the rule names"
