"""People and keys, for an admin."""

from typing import Any, Literal

from fastapi import APIRouter, Response
from pydantic import BaseModel, Field

from rackside.access import devices, people, sites
from rackside.api import list_forms as forms
from rackside.api.context import Admin, Base
from rackside.api.paging import paged
from rackside.api.refusals import refuses
from rackside.records import Refused

router = APIRouter(tags=["people"])


class NewPerson(BaseModel, extra="forbid"):
    """A person who may sign in; `sites` null means all that the caller sees."""

    name: str = Field(min_length=1, max_length=100)
    password: str = Field(min_length=8, max_length=1000)
    role: Literal["technician", "office", "admin"]
    sites: list[str] | None = None


class SitesSeen(BaseModel, extra="forbid"):
    """Which sites a person sees; null means all that the caller sees."""

    sites: list[str] | None


class NewKey(BaseModel, extra="forbid"):
    """A key for other software, named as the device it writes as; `sites` null means all that the caller sees."""

    name: str = Field(min_length=1, max_length=100)
    scopes: list[Literal["read", "write", "analyse", "admin"]]
    sites: list[str] | None = None
    days: int | None = Field(None, ge=1, le=3660, description="Days it is good for; null for ever")


@router.get(
    "/people", response_model=forms.People, summary="List people", description="By name, those who sign in no more too."
)
def list_people(caller: Admin, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        return paged(people.everyone(connection), None)


@router.post(
    "/people",
    status_code=201,
    response_model=forms.Person,
    summary="Add a person",
    description="The name is for ever: entries carry it.",
)
def add_person(person: NewPerson, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        seen = sites.given(connection, person.sites, caller.sites)
        person_id = people.add(connection, person.name, person.password, person.role, seen)
        return _one(connection, person_id)


@router.put(
    "/people/{person_id}/sites",
    response_model=forms.Person,
    responses=refuses("not_found"),
    summary="Say which sites a person sees",
    description="Their phones are told to pull again from the beginning.",
)
def put_sites(person_id: str, asked: SitesSeen, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        _one(connection, person_id)
        people.set_sites(connection, person_id, sites.given(connection, asked.sites, caller.sites))
        return _one(connection, person_id)


@router.delete(
    "/people/{person_id}",
    status_code=204,
    responses=refuses("not_found"),
    summary="Let a person sign in no more",
    description="Their entries stay theirs.",
)
def end_person(person_id: str, caller: Admin, database: Base) -> Response:
    with database.writing() as connection:
        _one(connection, person_id)
        people.deactivate(connection, person_id)
    return Response(status_code=204)


def _one(connection: Any, person_id: str) -> dict[str, Any]:
    for person in people.everyone(connection):
        if person["id"] == person_id:
            return person
    raise Refused("not_found", f"There is no person {person_id} here.")


@router.get(
    "/devices",
    response_model=forms.Devices,
    summary="List devices and keys",
    description="Tokens are never shown again.",
)
def list_devices(caller: Admin, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        return paged(devices.every(connection), None)


@router.post(
    "/keys",
    status_code=201,
    response_model=forms.Key,
    summary="Make a key",
    description="The token is shown this once.",
)
def add_key(key: NewKey, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        limit = sites.given(connection, key.sites, caller.sites)
        return devices.add_key(connection, key.name, list(key.scopes), limit, key.days)


@router.post(
    "/keys/{key_id}/renew",
    response_model=forms.Renewed,
    responses=refuses("not_found"),
    summary="Give a key a new token",
    description="Shown this once. The old one ends; name, scopes, sites and time stay.",
)
def renew_key(key_id: str, caller: Admin, database: Base) -> dict[str, str]:
    with database.writing() as connection:
        return {"id": key_id, "token": devices.renew(connection, key_id, caller.sites)}
