"""Sites, and the fleet with the worst machine first."""

from typing import Any

from fastapi import Request, Response
from sqlalchemy import Connection

from rackside.access.caller import Caller
from rackside.office.pages import SignedIn, Store, page, routes
from rackside.office.trend_series import CHECKS, Mark, newest_marks, trends
from rackside.office.worst_first import Known, ranked
from rackside.records import Database, calls, clock, fleet, machines, marking, trending, watches
from rackside.reports import text

router = routes()
Json = dict[str, Any]
SHOWN = 100


@router.get("/fleet")
def fleet_page(request: Request, database: Store, caller: SignedIn) -> Response:
    with database.reading() as connection:
        found = fleet.standing(connection, caller.sites)
    values = _worst_first(database, caller, found)
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
        found = fleet.standing(connection, caller.sites, site_id)
        lately, after = calls.page(connection, caller.sites, site=site_id, limit=10)
    values = _worst_first(database, caller, found)
    more = {"calls": lately, "after": after, "zone_words": text.zone_words(site)}
    return page(request, "site.html", caller=caller, site=site, **values, **more)


def _worst_first(database: Database, caller: Caller, found: list[Json]) -> Json:
    now = clock.now()
    marks = marking.of_machines(database, [machine["id"] for machine in found], _marks)
    with database.reading() as connection:
        repeated = watches.repeats(connection, caller.sites)
        due = watches.due(connection, caller.sites, limit=200)
        trips = fleet.trips(connection, clock.written(now - watches.REPEATED_WITHIN), caller.sites)
    overdue = _by_machine([watch for watch in due if watch["overdue"]])
    known = Known(
        trips, _by_machine(repeated), overdue, {one: [Mark(*mark) for mark in told] for one, told in marks.items()}
    )
    told = ranked(found, known, now)
    return {"machines": told[:SHOWN], "count": len(told), "repeats": repeated}


def _by_machine(listed: list[Json]) -> dict[str, list[Json]]:
    found: dict[str, list[Json]] = {}
    for call in listed:
        found.setdefault(call["machine"]["id"], []).append(call)
    return found


def _marks(connection: Connection, machine_id: str) -> list[Mark]:
    oil = trending.additions(connection, "oil_added", machine=machine_id)
    return newest_marks(trends(trending.of_machine(connection, machine_id, CHECKS), oil))
