"""People, and the phones and keys that speak for them."""

from typing import Annotated

from fastapi import Form, Request, Response
from fastapi.responses import RedirectResponse

from rackside.access import devices, people
from rackside.access.caller import ROLES
from rackside.office.pages import OwnForm, SignedIn, Store, page, routes
from rackside.records import Refused

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
            people.add(connection, name.strip(), password, role)
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
    with database.reading() as connection:
        found = devices.every(connection)
    return page(request, "devices.html", caller=caller, devices=found)


@router.post("/devices/{device_id}/end", dependencies=[OwnForm])
def end_sign_in(database: Store, caller: SignedIn, device_id: str) -> Response:
    """End a phone's or key's sign-in; what it holds stays on it."""
    caller.need("admin")
    with database.writing() as connection:
        if not devices.revoke(connection, device_id):
            raise Refused("not_found", f"There is no device {device_id} here.")
    return RedirectResponse("/office/devices", 303)
