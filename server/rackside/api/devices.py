"""A phone signs in, asks who it is, and signs out."""

from typing import Any

from fastapi import APIRouter, Response
from pydantic import BaseModel, Field

from rackside.access import devices, people
from rackside.access.caller import Caller
from rackside.api.context import Anyone, Base, Chosen
from rackside.api.refusals import refuses
from rackside.records import Refused

router = APIRouter(tags=["devices"])


class SignIn(BaseModel, extra="forbid"):
    """A name, its password, and what the phone is called (or its id, when it signs in again)."""

    name: str = Field(max_length=100)
    password: str = Field(max_length=1000)
    device: str = Field(min_length=1, max_length=100)


class SignedIn(BaseModel):
    token: str
    device: str = Field(description="The device's id: entries carry it")
    person: str = Field(description="The person's name: entries carry it as author")
    role: str
    sites: list[str]
    valid_until: str


class Me(BaseModel):
    device: str
    device_name: str
    person: str
    role: str
    rights: list[str]
    sites: list[str]
    all_sites: bool


@router.post(
    "/devices",
    status_code=201,
    response_model=SignedIn,
    responses=refuses("no_credentials", "slow_down"),
    summary="Sign a phone in",
    description="The token is shown this once. It is good offline until `valid_until`.",
)
def sign_in(asked: SignIn, database: Base, settings: Chosen) -> dict[str, Any]:
    with database.reading() as connection:
        person = people.verify(connection, asked.name, asked.password)
        sites = people.site_ids(connection, people.sites_of(connection, person))
    with database.writing() as connection:
        given = devices.sign_in(connection, person, asked.device, settings.device_days)
    return given | {"person": person.name, "role": person.role, "sites": sites}


@router.delete(
    "/devices/{device_id}",
    status_code=204,
    responses=refuses("not_found"),
    summary="Sign a device out",
    description="Ends its token: one's own, or any for an admin. What it holds stays on it.",
)
def sign_out(device_id: str, caller: Anyone, database: Base) -> Response:
    with database.writing() as connection:
        device = devices.one(connection, device_id)
        if device is None or not _may_end(caller, device):
            raise Refused("not_found", f"There is no device {device_id} of yours here.")
        devices.revoke(connection, device_id)
    return Response(status_code=204)


def _may_end(caller: Caller, device: Any) -> bool:
    mine = device.person_id == caller.person_id if caller.person_id else device.id == caller.device_id
    return mine or "admin" in caller.may


@router.get(
    "/me",
    response_model=Me,
    summary="Who the token speaks for",
    description="The person or key, the device, what it may do, and the sites it sees.",
)
def me(caller: Anyone, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        sites = people.site_ids(connection, caller.sites)
    told = {"device": caller.device_id, "device_name": caller.device_name, "person": caller.author, "role": caller.role}
    return told | {"rights": sorted(caller.may), "sites": sites, "all_sites": caller.sites is None}
