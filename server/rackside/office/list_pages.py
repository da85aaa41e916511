"""Pages that list: calls by what they wait for, calls by any filter, machines."""

from typing import Annotated, Any

from fastapi import Query, Request, Response
from sqlalchemy import Connection

from rackside import host
from rackside.access.caller import Caller
from rackside.office.pages import SignedIn, Store, page, routes
from rackside.records import Refused, calls, machines, watches
from rackside.records.calls import COUNTED
from rackside.records.states import STATES

router = routes()
Json = dict[str, Any]
# What waits for the office first, then what waits for the technician, then what only time changes.
WAITING = ("submitted", "returned", "open", "watching")
SETTLED = ("accepted", "closed")
SHOWN, LISTED = 20, 50
FILTERS = ("site", "machine", "assigned_to", "complaint", "cause")


def today(request: Request, database: Store, caller: SignedIn) -> Response:
    with database.reading() as connection:
        counts = calls.count_by_state(connection, caller.sites)
        groups: list[Json] = [
            {"state": state, "count": counts[state], "calls": _page_of(connection, caller, [state])[0]}
            for state in WAITING
        ]
        settled, _ = _page_of(connection, caller, SETTLED)
        due = watches.due(connection, caller.sites)
        repeats = watches.repeats(connection, caller.sites, limit=20)
    groups.append({"state": "settled", "count": None, "calls": settled})
    values = {"groups": groups, "counts": counts, "due": due, "repeats": repeats, "most": COUNTED}
    return page(request, "today.html", caller=caller, **values)


def _page_of(connection: Connection, caller: Caller, states: Any) -> Any:
    return calls.page(connection, caller.sites, states, limit=SHOWN)


@router.get("/calls")
def call_list(
    request: Request,
    database: Store,
    caller: SignedIn,
    state: str = "",
    site: str = "",
    machine: str = "",
    assigned_to: str = "",
    complaint: str = "",
    cause: str = "",
    place: Annotated[str | None, Query(alias="next")] = None,
) -> Response:
    if state and state not in STATES:
        raise Refused("invalid_query", f"There is no state {state!r}; calls are {', '.join(STATES)}.")
    typed = {"site": site, "machine": machine, "assigned_to": assigned_to, "complaint": complaint, "cause": cause}
    wanted = {name: value.strip() or None for name, value in typed.items()}
    states = [state] if state else []
    with database.reading() as connection:
        found, after = calls.page(connection, caller.sites, states, limit=LISTED, after=place, **wanted)
        count = _count(connection, caller, states, wanted)
        sites = machines.sites(connection, caller.sites)
    chosen = {name: value for name, value in {"state": state, **wanted}.items() if value}
    values = {"calls": found, "count": count, "most": COUNTED, "after": after, "chosen": chosen, "states": STATES}
    return page(request, "calls.html", caller=caller, sites=sites, words=_words(), **values)


def _count(connection: Connection, caller: Caller, states: list[str], wanted: dict[str, str | None]) -> int:
    column = {"site": "site_id", "machine": "machine_id"}
    return calls.count(
        connection, caller.sites, states, **{column.get(name, name): value for name, value in wanted.items()}
    )


def _words() -> Json:
    told = host.describe()
    return {
        "complaint": [(one["complaint"], one["text"]) for one in told["complaints"]],
        "cause": [(one["cause"], one["text"]) for one in told["causes"]],
    }


@router.get("/machines")
def machine_list(request: Request, database: Store, caller: SignedIn, retired: str = "") -> Response:
    with database.reading() as connection:
        found, after = machines.page(connection, caller.sites, retired=retired == "yes", limit=500)
    found.sort(key=lambda machine: (machine["site"]["name"] or "", machine["rack"] or "", machine["tag"] or ""))
    values = {"machines": found, "retired": retired == "yes", "more": after is not None}
    return page(request, "machines.html", caller=caller, **values)
