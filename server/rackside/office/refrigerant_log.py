"""What refrigerant each rack of a site took, and what it should hold. Pure.

A site has no member of its own for charges: they stand under `extra`, by rack, in pounds.
"""

import re
from typing import Any

from rackside.office.leak_rate import METHODS, Addition, rates
from rackside.records import clock

Json = dict[str, Any]
POUNDS = re.compile(r"\d{1,6}(\.\d{1,3})?")
KILOGRAM = 2.2046226218
# A unit that an older phone wrote; the point itself is read in pounds.
FACTORS = {"lb": 1.0, "kg": KILOGRAM}


def racks_of(site: Json, machines: list[Json], added: list[Json]) -> Json:
    """Return each rack with its refrigerant, charge, additions and rates; and additions nobody can count."""
    own = site.get("extra") or {}
    charges, method = own.get("full_charge_lb") or {}, own.get("leak_method") or "annualizing"
    rack_of = {machine["id"]: machine["rack"] or "" for machine in machines}
    events, unread = _events(added, rack_of)
    racks = []
    for rack in sorted({*rack_of.values(), *events}):
        kinds = {machine["refrigerant"] for machine in machines if (machine["rack"] or "") == rack}
        charge = charges.get(rack)
        found = rates(events.get(rack, []), float(charge), method) if charge else []
        told = {"rack": rack, "refrigerants": sorted(filter(None, kinds)), "charge": charge, "rates": found}
        racks.append(told | {"additions": sorted(events.get(rack, []), reverse=True)})
    return {"racks": racks, "method": method, "unread": unread}


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
        by_visit[key] = Addition(clock.read(one["at"]), pounds + (held.pounds if held else 0.0), one["call"])
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
