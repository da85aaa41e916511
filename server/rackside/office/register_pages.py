"""Machines entered at the office from a table: a paste or a CSV file."""

from typing import Any

from fastapi import Request, Response
from fastapi.responses import RedirectResponse

from rackside.access.caller import Caller
from rackside.office.pages import OwnForm, Sent, SignedIn, Store, page, routes
from rackside.office.register_form import COLUMNS, read
from rackside.office.writing import keep, made
from rackside.records import Database, machines

router = routes()
Json = dict[str, Any]


@router.get("/sites/{site_id}/register")
def register_page(request: Request, database: Store, caller: SignedIn, site_id: str) -> Response:
    site, _ = _site(database, caller, site_id)
    return _page(request, caller, site, "tag,rack,model,serial,type,refrigerant,rated_load_current\n")


def _page(
    request: Request, caller: Caller, site: Json, table: str, status: int = 200, faults: Any = (), found: Any = ()
) -> Response:
    values = {"table": table, "faults": list(faults), "found": list(found), "columns": COLUMNS}
    return page(request, "register.html", status, caller, site=site, **values)


@router.post("/sites/{site_id}/register", dependencies=[OwnForm])
def register_written(request: Request, database: Store, caller: SignedIn, site_id: str, form: Sent) -> Response:
    """Enter every machine of the table in one transaction, or none of them."""
    site, taken = _site(database, caller, site_id)
    table = form.get("file") or form.get("table", "")
    bodies, faults = read(table, site_id, taken)
    if faults:
        return _page(request, caller, site, table, 422, faults)
    if form.get("step") != "keep":
        return _page(request, caller, site, table, found=bodies)
    keep(request, caller, *(made(caller, "machine", body) for body in bodies))
    return RedirectResponse(f"/office/sites/{site_id}", 303)


def _site(database: Database, caller: Caller, site_id: str) -> tuple[Json, set[str]]:
    caller.need("review")
    with database.reading() as connection:
        site = machines.site(connection, site_id, caller.sites)
        found, _ = machines.page(connection, caller.sites, site=site_id, retired=True, limit=500)
    return site, {machine["tag"] for machine in found if machine["tag"]}
