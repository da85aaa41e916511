"""Pages that list: calls by what they wait for, machines, one machine with its history."""

from typing import Annotated, Any
from uuid import uuid4

from fastapi import Query, Request, Response
from fastapi.responses import RedirectResponse

from rackside.access.caller import Caller
from rackside.office.pages import OwnForm, SignedIn, Store, page, routes
from rackside.office.plate import plate_lines
from rackside.office.trend_rows import trend_rows
from rackside.records import Refused, calls, clock, machines
from rackside.records.states import STATES
from rackside.sync.fields import SCHEMA
from rackside.sync.push import push

router = routes()
Json = dict[str, Any]
# What waits for the office first, then what waits for the technician, then what only time changes.
WAITING = ("submitted", "returned", "open", "watching")
SETTLED = ("accepted", "closed")
SHOWN = 20


def today(request: Request, database: Store, caller: SignedIn) -> Response:
    with database.reading() as connection:
        counts = calls.count_by_state(connection, caller.sites)
        groups = [
            {"state": state, "count": counts[state], "calls": _page_of(connection, caller, [state])[0]}
            for state in WAITING
        ]
        settled, _ = _page_of(connection, caller, SETTLED)
    groups.append({"state": "settled", "count": None, "calls": settled})
    return page(request, "today.html", caller=caller, groups=groups, counts=counts)


@router.get("/calls")
def call_list(
    request: Request,
    database: Store,
    caller: SignedIn,
    state: str = "",
    place: Annotated[str | None, Query(alias="next")] = None,
) -> Response:
    if state and state not in STATES:
        raise Refused("invalid_query", f"There is no state {state!r}; calls are {', '.join(STATES)}.")
    with database.reading() as connection:
        found, after = _page_of(connection, caller, [state] if state else (), 50, place)
    return page(request, "calls.html", caller=caller, calls=found, state=state, after=after, states=STATES)


def _page_of(connection: Any, caller: Caller, states: Any, limit: int = SHOWN, after: str | None = None) -> Any:
    return calls.page(connection, caller.sites, states, limit=limit, after=after)


@router.get("/machines")
def machine_list(request: Request, database: Store, caller: SignedIn) -> Response:
    with database.reading() as connection:
        found, _ = machines.page(connection, caller.sites, retired=True, limit=500)
    found.sort(key=lambda machine: (machine["site"]["name"] or "", machine["rack"] or "", machine["tag"] or ""))
    return page(request, "machines.html", caller=caller, machines=found)


@router.get("/machines/{machine_id}")
def machine_page(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    with database.reading() as connection:
        machine = machines.one(connection, machine_id, caller.sites)
        site = machines.site(connection, machine["site"]["id"], caller.sites)
        found, _ = calls.page(connection, caller.sites, machine=machine_id, limit=100)
        points = machines.trends(connection, machine_id)
    values = {"site": site, "calls": found, "plate": plate_lines(machine["plate"]), "trends": trend_rows(points)}
    return page(request, "machine.html", caller=caller, machine=machine, **values)


@router.post("/machines/{machine_id}/confirmation", dependencies=[OwnForm])
def confirm_plate(request: Request, database: Store, caller: SignedIn, machine_id: str) -> Response:
    """Accept a machine's plate as it stands: a review entry about the machine."""
    caller.need("review")
    with database.reading() as connection:
        machines.one(connection, machine_id, caller.sites, rounds=0)
    head = {"id": str(uuid4()), "schema": SCHEMA, "kind": "review", "call": None, "base": []}
    made = {"made_at": clock.written(clock.now()), "device": caller.device_id, "author": caller.author}
    entry = head | made | {"body": {"outcome": "accepted", "of": machine_id}}
    answer = push(database, caller, None, [entry], request.app.state.settings.entry_limit).answers[0]
    if answer.refused:
        raise answer.refused
    return RedirectResponse(f"/office/machines/{machine_id}", 303)
