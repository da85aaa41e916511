"""Find by words what somebody wrote, and the watches that fall due."""

from typing import Annotated, Any

from fastapi import APIRouter, Query

from rackside.api.context import Base, Reader
from rackside.api.list_forms import MachineName, SiteName
from rackside.api.paging import Limit, paged
from rackside.api.told import Listed, Told
from rackside.records import searching, watches

router = APIRouter()


class Found(Told):
    """A call, machine or site whose entries hold every word asked for."""

    id: str
    kind: str
    cursor: int


class FoundThings(Listed):
    items: list[Found]


class Watch(Told):
    """An accepted call whose machine is under watch."""

    id: str
    watch_until: str
    overdue: bool
    decision: str | None
    cause: str | None
    machine: MachineName
    site: SiteName


class Watches(Listed):
    items: list[Watch]


@router.get(
    "/search",
    tags=["calls"],
    response_model=FoundThings,
    summary="Find calls, machines and sites by words",
    description="Every word asked for, or one that begins with it, stands in some entry. Latest mentioned first.",
)
def search(
    caller: Reader,
    database: Base,
    words: Annotated[str, Query(min_length=1, max_length=200, description="The words to look for")],
    before: Annotated[int | None, Query(ge=0, le=2**53, description="The `cursor` of the last one found")] = None,
    limit: Limit = 50,
) -> dict[str, Any]:
    with database.reading() as connection:
        rows = searching.find(connection, words, caller.sites, limit, before)
    return paged([{"id": row.thing_id, "kind": _kind(row), "cursor": row.cursor} for row in rows], None)


def _kind(row: Any) -> str:
    return "call" if row.call else "machine" if row.machine else "site"


@router.get(
    "/watches",
    tags=["calls"],
    response_model=Watches,
    summary="Watches that fall due",
    description="Those that end soon, or ended with nothing measured since the decision; the earliest first.",
)
def due_watches(caller: Reader, database: Base, limit: Limit = 50) -> dict[str, Any]:
    with database.reading() as connection:
        return paged(watches.due(connection, caller.sites, limit), None)
