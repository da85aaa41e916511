"""The refrigerant log of a site: what was added, the rates, and what is written down about leaks."""

from typing import Any

from fastapi import Request, Response
from fastapi.responses import RedirectResponse

from rackside.access.caller import Caller
from rackside.office import leak_trail
from rackside.office.leak_rate import CHRONIC, METHODS, RULE, RULE_READ, TRIGGER
from rackside.office.pages import OwnForm, Sent, SignedIn, Store, page, routes
from rackside.office.refrigerant_log import charge_members, racks_of
from rackside.office.writing import correct
from rackside.records import Database, machines, trending
from rackside.reports import text

router = routes()
Json = dict[str, Any]


@router.get("/sites/{site_id}/refrigerant")
def refrigerant_page(request: Request, database: Store, caller: SignedIn, site_id: str) -> Response:
    return _page(request, database, caller, site_id)


def _page(
    request: Request, database: Database, caller: Caller, site_id: str, status: int = 200, **more: Any
) -> Response:
    with database.reading() as connection:
        site = machines.site(connection, site_id, caller.sites)
        found, _ = machines.page(connection, caller.sites, site=site_id, retired=True, limit=500)
        added = trending.additions(connection, "refrigerant_added", site=site_id)
    where = text.zone(site)
    rule = {"rule": RULE, "rule_read": RULE_READ, "trigger": TRIGGER, "chronic": CHRONIC, "methods": METHODS}
    rule |= {"kinds": leak_trail.KINDS, "results": leak_trail.RESULTS, "repair_days": leak_trail.REPAIR_DAYS}
    values = rule | racks_of(site, found, added, where) | {"faults": [], "typed": {}}
    shown = {"site": site, "where": where, "zone_words": text.zone_words(site)}
    return page(request, "refrigerant.html", status, caller, **shown, **(values | more))


@router.post("/sites/{site_id}/refrigerant", dependencies=[OwnForm])
def charge_written(request: Request, database: Store, caller: SignedIn, site_id: str, form: Sent) -> Response:
    """Write down the racks' full charges and the one method of the site: a correction of the site."""
    site = _editable(database, caller, site_id)
    members, faults = charge_members(site, form)
    if faults:
        return _page(request, database, caller, site_id, 422, faults=faults)
    correct(request, caller, site_id, members)
    return RedirectResponse(f"/office/sites/{site_id}/refrigerant", 303)


@router.post("/sites/{site_id}/refrigerant/trail", dependencies=[OwnForm])
def trail_written(request: Request, database: Store, caller: SignedIn, site_id: str, form: Sent) -> Response:
    """Write down what was recovered, repaired, tested or looked for; or take back what was written by mistake."""
    site = _editable(database, caller, site_id)
    held = leak_trail.trail_of(site)
    if form.get("drop"):
        kept = [one for one in held if one.get("id") != form["drop"]]
    else:
        told, faults = leak_trail.read(form, _racks(database, caller, site_id), caller.author)
        if len(held) >= leak_trail.MOST:
            faults.append(f"{leak_trail.MOST} lines are held for this site; take back what no longer matters.")
        if faults:
            return _page(request, database, caller, site_id, 422, faults=faults, typed=form)
        kept = [*held, told]
    correct(request, caller, site_id, {"extra": {**(site.get("extra") or {}), "refrigerant_trail": kept}})
    return RedirectResponse(f"/office/sites/{site_id}/refrigerant#trail", 303)


def _racks(database: Database, caller: Caller, site_id: str) -> list[str]:
    with database.reading() as connection:
        found, _ = machines.page(connection, caller.sites, site=site_id, retired=True, limit=500)
    return sorted({machine["rack"] or "" for machine in found})


def _editable(database: Database, caller: Caller, site_id: str) -> Json:
    caller.need("review")
    with database.reading() as connection:
        return machines.site(connection, site_id, caller.sites)
