"""Sites, the fleet with the worst machine first, and what refrigerant a site took."""

from typing import Any

from fastapi import Request, Response
from fastapi.responses import RedirectResponse
from sqlalchemy import Connection

from rackside.access.caller import Caller
from rackside.office.leak_rate import METHODS, RULE, RULE_READ, TRIGGER
from rackside.office.pages import OwnForm, Sent, SignedIn, Store, page, routes
from rackside.office.refrigerant_log import charge_members, racks_of
from rackside.office.trend_series import CHECKS, Mark, newest_marks, trends
from rackside.office.worst_first import Known, ranked
from rackside.office.writing import correct
from rackside.records import calls, clock, fleet, machines, trending, watches
from rackside.reports import text

router = routes()
Json = dict[str, Any]
# Trends of this many machines are read for marks; of a larger fleet each site's page reads its own.
MARKED = 60
SHOWN = 100


@router.get("/fleet")
def fleet_page(request: Request, database: Store, caller: SignedIn) -> Response:
    with database.reading() as connection:
        found = fleet.standing(connection, caller.sites)
        values = _worst_first(connection, caller, found)
    return page(request, "fleet.html", caller=caller, site=None, **values)


@router.get("/sites")
def site_list(request: Request, database: Store, caller: SignedIn) -> Response:
    with database.reading() as connection:
        sites = machines.sites(connection, caller.sites)
    return page(request, "sites.html", caller=caller, sites=sites)


@router.get("/sites/{site_id}")
def site_page(request: Request, database: Store, caller: SignedIn, site_id: str) -> Response:
    with database.reading() as connection:
        site = machines.site(connection, site_id, caller.sites)
        values = _worst_first(connection, caller, fleet.standing(connection, caller.sites, site_id))
        lately, after = calls.page(connection, caller.sites, site=site_id, limit=10)
    more = {"calls": lately, "after": after, "zone_words": text.zone_words(site)}
    return page(request, "site.html", caller=caller, site=site, **values, **more)


def _worst_first(connection: Connection, caller: Caller, found: list[Json]) -> Json:
    now = clock.now()
    repeated = watches.repeats(connection, caller.sites)
    due = watches.due(connection, caller.sites, limit=200)
    marks = {machine["id"]: _marks(connection, machine["id"]) for machine in found} if len(found) <= MARKED else {}
    known = Known(
        fleet.trips(connection, clock.written(now - watches.REPEATED_WITHIN), caller.sites),
        _by_machine(repeated),
        _by_machine([watch for watch in due if watch["overdue"]]),
        marks,
    )
    told = ranked(found, known, now)
    return {"machines": told[:SHOWN], "count": len(told), "repeats": repeated, "marked": len(found) <= MARKED}


def _by_machine(listed: list[Json]) -> dict[str, list[Json]]:
    found: dict[str, list[Json]] = {}
    for call in listed:
        found.setdefault(call["machine"]["id"], []).append(call)
    return found


def _marks(connection: Connection, machine_id: str) -> list[Mark]:
    oil = trending.additions(connection, "oil_added", machine=machine_id)
    return newest_marks(trends(trending.of_machine(connection, machine_id, CHECKS), oil))


@router.get("/sites/{site_id}/refrigerant")
def refrigerant_page(request: Request, database: Store, caller: SignedIn, site_id: str) -> Response:
    return _refrigerant_page(request, database, caller, site_id)


def _refrigerant_page(
    request: Request, database: Any, caller: Caller, site_id: str, status: int = 200, faults: Any = ()
) -> Response:
    with database.reading() as connection:
        site = machines.site(connection, site_id, caller.sites)
        found, _ = machines.page(connection, caller.sites, site=site_id, retired=True, limit=500)
        added = trending.additions(connection, "refrigerant_added", site=site_id)
    rule = {"rule": RULE, "rule_read": RULE_READ, "trigger": TRIGGER, "methods": METHODS}
    values = rule | racks_of(site, found, added) | {"faults": list(faults), "today": clock.written(clock.now())}
    where = {"where": text.zone(site), "zone_words": text.zone_words(site)}
    return page(request, "refrigerant.html", status, caller, site=site, **values, **where)


@router.post("/sites/{site_id}/refrigerant", dependencies=[OwnForm])
def charge_written(request: Request, database: Store, caller: SignedIn, site_id: str, form: Sent) -> Response:
    """Write down the racks' full charges and the one method of the site: a correction of the site."""
    caller.need("review")
    with database.reading() as connection:
        site = machines.site(connection, site_id, caller.sites)
    members, faults = charge_members(site, form)
    if faults:
        return _refrigerant_page(request, database, caller, site_id, 422, faults)
    correct(request, caller, site_id, members)
    return RedirectResponse(f"/office/sites/{site_id}/refrigerant", 303)
