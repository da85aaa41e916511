"""What is written down about leaks beside the pounds added: recovered, repaired, tested, inspected. Pure.

A site has no member of its own for it: it stands in the site's `extra.refrigerant_trail`, as the office wrote it.
"""

import re
from datetime import date, timedelta
from typing import Any, NamedTuple
from uuid import uuid4

from rackside.office.leak_rate import TRIGGER, Rate

Json = dict[str, Any]
KINDS = {
    "recovered": "Refrigerant recovered",
    "leak_found": "Leak found",
    "repaired": "Leak repaired",
    "first_test": "First test that the repair holds",
    "later_test": "Later test that the repair holds",
    "inspected": "Looked for leaks",
}
AFTER_RATE = ("leak_found", "repaired", "first_test", "later_test", "inspected")
TESTS = ("first_test", "later_test")
RESULTS = {"held": "held", "leaked": "leaked"}
REPAIR_DAYS = 30
POUNDS = re.compile(r"\d{1,6}(\.\d{1,3})?")
LONGEST, MOST = 400, 500


class Step(NamedTuple):
    """One thing the rule asks after a rate above its number, and what the record holds of it."""

    title: str
    found: list[Json]
    until: date | None


def read(form: dict[str, str], racks: list[str], author: str) -> tuple[Json, list[str]]:
    """Return what a form writes down, and what is wrong with it."""
    told = {name: form.get(name, "").strip() for name in ("rack", "kind", "on", "pounds", "result", "what")}
    faults = []
    if told["rack"] not in racks:
        faults.append("Choose one of the site's racks.")
    if told["kind"] not in KINDS:
        faults.append("Choose what was done.")
    if _day(told["on"]) is None:
        faults.append("The day is a date: year, month and day.")
    if told["kind"] == "recovered" and not POUNDS.fullmatch(told["pounds"]):
        faults.append("Pounds recovered are a number, with a decimal point where it has one.")
    if told["kind"] in TESTS and told["result"] not in RESULTS:
        faults.append("Say of a test whether the repair held.")
    if len(told["what"]) > LONGEST:
        faults.append(f"The note has {len(told['what'])} characters; {LONGEST} fit.")
    kept = {name: value for name, value in told.items() if value and _belongs(name, told["kind"])}
    return kept | {"rack": told["rack"], "id": str(uuid4()), "by": author}, faults


def _belongs(name: str, kind: str) -> bool:
    return {"pounds": kind == "recovered", "result": kind in TESTS}.get(name, True)


def trail_of(site: Json) -> list[Json]:
    """Return what a site's record holds, the latest first; what has another form is left out."""
    held = (site.get("extra") or {}).get("refrigerant_trail")
    listed = held if isinstance(held, list) else []
    whole = [one for one in listed if isinstance(one, dict) and one.get("kind") in KINDS and _day(one.get("on"))]
    return sorted(whole, key=lambda one: str(one["on"]), reverse=True)


def recovered(trail: list[Json], rack: str) -> float:
    """Return the pounds taken out of a rack, as far as they are written down."""
    pounds = [str(one.get("pounds", "")) for one in trail if one["kind"] == "recovered" and one.get("rack") == rack]
    return sum(float(one) for one in pounds if POUNDS.fullmatch(one))


def open_rate(rates: list[Rate], where: Any) -> tuple[Rate, date] | None:
    """Return the latest rate above the rule's number, with its day; None where no rate is."""
    above = [rate for rate in rates if rate.percent > TRIGGER]
    return (above[0], above[0].at.astimezone(where).date()) if above else None


def steps(day: date, trail: list[Json], rack: str) -> list[Step]:
    """Return what the rule asks after a rate above its number, with what was written down from that day on."""
    own = [one for one in trail if one.get("rack") == rack and str(one["on"]) >= day.isoformat()]
    until = {"repaired": day + timedelta(days=REPAIR_DAYS)}
    return [Step(KINDS[kind], [one for one in own if one["kind"] == kind], until.get(kind)) for kind in AFTER_RATE]


def years(rates: list[Rate], charge: float, where: Any) -> list[Json]:
    """Return the pounds added in each calendar year of the site, and their share of the full charge."""
    pounds: dict[int, float] = {}
    for rate in rates:
        year = rate.at.astimezone(where).year
        pounds[year] = pounds.get(year, 0.0) + rate.pounds
    return [
        {"year": year, "pounds": added, "percent": 100 * added / charge}
        for year, added in sorted(pounds.items(), reverse=True)
    ]


def _day(text: Any) -> date | None:
    try:
        return date.fromisoformat(text)
    except (TypeError, ValueError):
        return None
