"""Machines and sites: the register, history and trends."""

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query

from rackside import host
from rackside.api import list_forms as forms
from rackside.api.context import Base, Reader
from rackside.api.paging import After, Limit, Since, paged
from rackside.api.refusals import refuses
from rackside.records import machines

router = APIRouter(tags=["machines"])
Check = Literal[host.checks()]  # type: ignore[valid-type]


@router.get(
    "/machines",
    response_model=forms.Machines,
    summary="List machines",
    description="Last changed first. With `history`, each has its last rounds as the history of a case.",
)
def list_machines(
    caller: Reader,
    database: Base,
    site: Annotated[str | None, Query(description="Only those of this site, by its id")] = None,
    history: Annotated[int | None, Query(ge=0, le=50, description="How many earlier rounds to give with each")] = None,
    retired: Annotated[bool, Query(description="Retired ones too")] = False,
    since: Since = None,
    limit: Limit = 50,
    next: After = None,
) -> dict[str, Any]:
    with database.reading() as connection:
        found, following = machines.page(connection, caller.sites, site, retired, history, limit, next, since)
    return paged(found, following)


@router.get(
    "/machines/{machine_id}",
    response_model=forms.Machine,
    responses=refuses("not_found"),
    summary="One machine",
    description="Its plate and its last rounds.",
)
def one_machine(
    machine_id: str,
    caller: Reader,
    database: Base,
    history: Annotated[int, Query(ge=0, le=50, description="How many earlier rounds to give")] = 5,
) -> dict[str, Any]:
    with database.reading() as connection:
        return machines.one(connection, machine_id, caller.sites, history)


@router.get(
    "/machines/{machine_id}/trends",
    response_model=forms.Trends,
    responses=refuses("not_found"),
    summary="A machine's numbers over time",
    description="The findings of its calls' last judgements, oldest first.",
)
def trends_of_machine(
    machine_id: str,
    caller: Reader,
    database: Base,
    check: Annotated[list[Check] | None, Query(description="Only these checks")] = None,
    since: Since = None,
    limit: Limit = 500,
) -> dict[str, Any]:
    with database.reading() as connection:
        machines.one(connection, machine_id, caller.sites, 0)
        found = machines.trends(connection, machine_id, check or (), since, limit)
    return {"machine": machine_id, "items": found, "next": None}


@router.get(
    "/sites", response_model=forms.Sites, summary="List sites", description="Those the caller may see, by name."
)
def list_sites(caller: Reader, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        return paged(machines.sites(connection, caller.sites), None)


@router.get("/meters", response_model=forms.Meters, summary="List meters", description="By name.")
def list_meters(caller: Reader, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        return paged(machines.meters(connection), None)
