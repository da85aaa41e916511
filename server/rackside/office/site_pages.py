"""Sites, and the fleet with the worst machine first."""

from typing import Any

from fastapi import Request, Response
from sqlalchemy import Connection

from rackside.access.caller import Caller
from rackside.office.pages import SignedIn, Store, page, routes
from rackside.office.trend_series import CHECKS, Mark, newest_marks, trends
from rackside.office.worst_first import Known, ranked
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
