"""People, and the phones and keys that speak for them."""

from typing import Annotated, Any

from fastapi import Form, Request, Response
from fastapi.responses import RedirectResponse

from rackside.access import devices, people, sites
from rackside.access.caller import KEY_SCOPES, ROLES
from rackside.office.pages import OwnForm, SignedIn, Store, page, routes
from rackside.office.phone_words import age, held, silence
from rackside.records import Refused, clock, deliveries, machines

router = routes()
Text = Annotated[str, Form()]


@router.get("/people")
def people_list(request: Request, database: Store, caller: SignedIn) -> Response:
    caller.need("review")
    with database.reading() as connection:
        everyone = people.everyone(connection)
    return page(request, "people.html", caller=caller, people=everyone, roles=list(ROLES), wrong="", draft="")


@router.post("/people", dependencies=[OwnForm])
def add_person(request: Request, database: Store, caller: SignedIn, name: Text, role: Text, password: Text) -> Response:
    caller.need("admin")
    try:
        with database.writing() as connection:
            people.add(connection, name.strip(), password, role, sites.given(connection, None, caller.sites))
    except Refused as refused:
        with database.reading() as connection:
            everyone = people.everyone(connection)
        values = {"people": everyone, "roles": list(ROLES), "wrong": refused.detail, "draft": name}
        return page(request, "people.html", 422, caller, **values)
    return RedirectResponse("/office/people", 303)


@router.post("/people/{person_id}/service", dependencies=[OwnForm])
def sign_in_allowed(database: Store, caller: SignedIn, person_id: str, active: Text) -> Response:
    """Let a person sign in no more, or again; what they wrote stays theirs."""
    caller.need("admin")
    if person_id == caller.person_id:
        raise Refused("invalid_query", "Nobody shuts themselves out: another admin has to.")
    with database.writing() as connection:
        known = person_id in {person["id"] for person in people.everyone(connection)}
        if not known:
            raise Refused("not_found", f"There is no person {person_id} here.")
        (people.activate if active == "yes" else people.deactivate)(connection, person_id)
    return RedirectResponse("/office/people", 303)


@router.get("/devices")
def device_list(request: Request, database: Store, caller: SignedIn) -> Response:
    caller.need("review")
    return _devices(request, database, caller)


def _devices(request: Request, database: Store, caller: SignedIn, status: int = 200, **told: Any) -> Response:
    with database.reading() as connection:
        found = devices.every(connection)
        brought = deliveries.last(connection, [device["id"] for device in found])
        owed = deliveries.photos_wanted(connection)
        known = machines.sites(connection)
        values = {
            "sites": known,
            "names": {site["id"]: site["name"] for site in known},
            "scopes": KEY_SCOPES,
            "age": age,
            "brought": brought,
        }
    now = clock.now()
    for device in found:
        device["held"] = held(brought.get(device["id"]), owed.get(device["id"]), now) if device["person"] else []
        device["silence"] = "" if device["revoked_at"] else silence(device["last_seen"], now)
    return page(request, "devices.html", status, caller, devices=found, **values, **told)


@router.post("/keys", dependencies=[OwnForm])
def add_key(
    request: Request,
    database: Store,
    caller: SignedIn,
    name: Text,
    scope: Annotated[list[str] | None, Form()] = None,
    site: Annotated[list[str] | None, Form()] = None,
    days: Text = "",
) -> Response:
    """Make a key and show its token this once."""
    caller.need("admin")
    try:
        good_for = int(days) if days.strip() else None
        with database.writing() as connection:
            made = devices.add_key(
                connection, name.strip(), scope or [], sites.given(connection, site or None, caller.sites), good_for
            )
    except ValueError:
        return _devices(request, database, caller, 422, wrong="The days are a whole number, or empty.")
    except Refused as refused:
        return _devices(request, database, caller, 422, wrong=refused.detail)
    return _devices(request, database, caller, 201, made=made)


@router.post("/devices/{device_id}/end", dependencies=[OwnForm])
def end_sign_in(database: Store, caller: SignedIn, device_id: str) -> Response:
    """End a phone's or key's sign-in; what it holds stays on it."""
    caller.need("admin")
    with database.writing() as connection:
        if not devices.revoke(connection, device_id):
            raise Refused("not_found", f"There is no device {device_id} here.")
    return RedirectResponse("/office/devices", 303)
