"""What refrigerant each rack of a site took, and what it should hold. Pure.

A site has no member of its own for charges: they stand under `extra`, by rack, in pounds.
"""

import re
from datetime import UTC, tzinfo
from typing import Any

from rackside.office import leak_trail
from rackside.office.leak_rate import LARGEST_CHARGE, METHODS, SMALLEST_CHARGE, Addition, Rate, rates
from rackside.records import clock

Json = dict[str, Any]
POUNDS = re.compile(r"\d{1,6}(\.\d{1,3})?")
KILOGRAM = 2.2046226218
OZONE = ("R-12", "R-22", "R-401A", "R-402A", "R-408A", "R-409A", "R-502")
# A unit that an older phone wrote; the point itself is read in pounds.
FACTORS = {"lb": 1.0, "kg": KILOGRAM}


def racks_of(site: Json, machines: list[Json], added: list[Json], where: tzinfo | None = None) -> Json:
    """Return each rack with its refrigerant, charge, additions, rates and trail; and additions nobody can count."""
    own = site.get("extra") or {}
    charges, method = own.get("full_charge_lb") or {}, own.get("leak_method") or "annualizing"
    rack_of = {machine["id"]: machine["rack"] or "" for machine in machines}
    events, unread = _events(added, rack_of)
    trail, racks = leak_trail.trail_of(site), []
    for rack in sorted({*rack_of.values(), *events}):
        kinds = sorted({m["refrigerant"] for m in machines if (m["rack"] or "") == rack and m["refrigerant"]})
        charge = charges.get(rack)
        found = rates(events.get(rack, []), float(charge), method) if charge else []
        told = {"rack": rack, "refrigerants": kinds, "charge": charge, "rates": found}
        told |= {"additions": sorted(events.get(rack, []), reverse=True), "reach": _reach(kinds, charge)}
        racks.append(told | _trail(trail, rack, found, charge, where or UTC))
    return {"racks": racks, "method": method, "unread": unread}


def _trail(trail: list[Json], rack: str, found: list[Rate], charge: str | None, where: tzinfo) -> Json:
    above = leak_trail.open_rate(found, where)
    return {
        "trail": [one | {"title": leak_trail.KINDS[one["kind"]]} for one in trail if one.get("rack") == rack],
        "recovered": leak_trail.recovered(trail, rack),
        "above": above,
        "steps": leak_trail.steps(above[1], trail, rack) if above else [],
        "years": leak_trail.years(found, float(charge), where) if charge else [],
    }


def _reach(kinds: list[str], charge: str | None) -> list[str]:
    """Return why the rule that the page names may not be the one for a rack, or asks more of it."""
    told = []
    if "R-744" in kinds:
        told.append("R-744 is not among the refrigerants this rule names; local rules may be.")
    if old := [kind for kind in kinds if kind in OZONE]:
        told.append(f"{', '.join(old)}: for ozone-depleting refrigerant 40 CFR 82.157 is the rule, from 50 lb.")
    if charge and float(charge) < SMALLEST_CHARGE:
        told.append(f"Its full charge is below the {SMALLEST_CHARGE:g} lb from which the rule runs.")
    if charge and float(charge) >= LARGEST_CHARGE:
        told.append(f"From {LARGEST_CHARGE:,.0f} lb the rule asks for automatic leak detection; none is recorded here.")
    return told


def _events(added: list[Json], rack_of: dict[str, str]) -> tuple[dict[str, list[Addition]], list[Json]]:
    """Return one addition for each visit and rack, and the readings that hold no number of pounds."""
    by_visit: dict[tuple[str, str], Addition] = {}
    unread = []
    for one in added:
        pounds = _pounds(one)
        if pounds is None:
            unread.append(one)
            continue
        key = (rack_of.get(one["machine"], ""), one["call"])
        held = by_visit.get(key)
        by_visit[key] = Addition(
            clock.read(one["at"]), pounds + (held.pounds if held else 0.0), one["call"], one.get("by") or one["author"]
        )
    events: dict[str, list[Addition]] = {}
    for (rack, _), addition in by_visit.items():
        events.setdefault(rack, []).append(addition)
    return events, unread


def _pounds(one: Json) -> float | None:
    factor = FACTORS.get(one.get("unit") or "lb")
    value = str(one.get("value", ""))
    return float(value) * factor if factor and POUNDS.fullmatch(value) else None


def charge_members(site: Json, form: dict[str, str]) -> tuple[Json, list[str]]:
    """Return the correction a form asks for, and what is wrong with it; the rest of `extra` stays."""
    faults, charges = [], {}
    for name, typed in form.items():
        if not name.startswith("charge-") or not typed.strip():
            continue
        if not POUNDS.fullmatch(typed.strip()) or float(typed) <= 0:
            faults.append(f"Rack {name.removeprefix('charge-')}: {typed.strip()!r} is no number of pounds above 0.")
        else:
            charges[name.removeprefix("charge-")] = typed.strip()
    method = form.get("method", "")
    if method not in METHODS:
        faults.append("Choose one method; a site keeps to it.")
    kept = {**(site.get("extra") or {}), "full_charge_lb": charges, "leak_method": method}
    return {"extra": kept}, faults
