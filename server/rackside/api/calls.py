"""Calls for the office and for other software."""

import json
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Response
from pydantic import BaseModel, Field

from rackside.access.caller import Caller
from rackside.api import results
from rackside.api.context import Base, Chosen, Reader, Reviewer
from rackside.api.paging import After, Limit, Since, paged
from rackside.records import Database, calls, comparing, judging
from rackside.sync import reviewing

router = APIRouter(prefix="/calls", tags=["calls"])
State = Literal["open", "submitted", "returned", "watching", "accepted", "closed"]


@router.get("", summary="List calls", description="Last changed first.")
def list_calls(
    caller: Reader,
    database: Base,
    state: Annotated[list[State] | None, Query(description="Only these states")] = None,
    site: Annotated[str | None, Query(description="Only this site")] = None,
    machine: Annotated[str | None, Query(description="Only this machine")] = None,
    assigned_to: Annotated[str | None, Query(description="Only this technician's")] = None,
    since: Since = None,
    limit: Limit = 50,
    next: After = None,
) -> dict[str, Any]:
    with database.reading() as connection:
        found, following = calls.page(
            connection, caller.sites, state or (), site, machine, assigned_to, limit, next, since
        )
    return paged(found, following)


def seen_call(database: Database, caller: Caller, call_id: str) -> dict[str, Any]:
    """Return a call the caller may see."""
    with database.reading() as connection:
        return calls.one(connection, call_id, caller.sites)


@router.get("/{call_id}", summary="One call", description="With its rounds, photos, reviews and what followed it.")
def one_call(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    return seen_call(database, caller, call_id)


@router.get("/{call_id}/case", summary="A call as a case", description="What POST /analyse takes.")
def case_of_call(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    seen_call(database, caller, call_id)
    return judging.case_of(database, call_id)


@router.get(
    "/{call_id}/results",
    summary="The judgement of a call",
    description="The server's own, of all its present entries, and whether the phone's agrees with it.",
)
def results_of_call(call_id: str, caller: Reader, database: Base) -> Response:
    call = seen_call(database, caller, call_id)
    judged = judging.judged(database, call_id)
    head = {"call": call_id, "machine": call["machine"]["id"], "state": call["state"], "judged_at": judged.judged_at}
    tail = {"phone": comparing.phone_of(database, call_id), "entries": judged.upto}
    text = json.dumps(head)[:-1] + ',"result":' + judged.result + "," + json.dumps(tail)[1:]
    return Response(text, media_type="application/json")


@router.get("/{call_id}/results.csv", summary="The judgement of a call as CSV")
def results_csv_of_call(call_id: str, caller: Reader, database: Base) -> Response:
    seen_call(database, caller, call_id)
    judged = judging.judged(database, call_id)
    named = {"Content-Disposition": f'attachment; filename="results-{call_id}.csv"'}
    return Response(results.csv_of(json.loads(judged.result)), media_type="text/csv; charset=utf-8", headers=named)


def _judgement(judged: judging.Judged) -> dict[str, Any]:
    told = {"id": judged.id, "entries": judged.upto, "digest": judged.digest, "judged_at": judged.judged_at}
    return told | {"result": json.loads(judged.result)}


@router.get("/{call_id}/judgements", summary="Every judgement of a call", description="Newest first.")
def judgements_of_call(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    seen_call(database, caller, call_id)
    with database.reading() as connection:
        found = judging.all_of(connection, call_id)
    return {"items": [_judgement(judged) for judged in found], "next": None}


@router.post(
    "/{call_id}/judgements",
    status_code=201,
    summary="Judge a call again",
    description="By today's rules. Earlier judgements stay.",
)
def judge_call_again(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    caller.need("analyse")
    seen_call(database, caller, call_id)
    return _judgement(judging.judge_again(database, call_id, caller.author))


class Review(BaseModel, extra="forbid"):
    """What the office says of a call; `seen` is the `changed` of the call as it was read."""

    id: str = Field(examples=["0b6f4f0e-6a5e-4a1e-8a55-9d1c4e1f2a10"])
    outcome: Literal["accepted", "returned"]
    note: str | None = Field(None, max_length=4000)
    of: str | None = Field(None, description="The entry the note is about")
    seen: int = Field(ge=0, le=2**53)


@router.post(
    "/{call_id}/reviews",
    status_code=201,
    summary="Accept a call or send it back",
    description="Writes a `review` entry. When entries came after `seen`: 412 with what came since.",
)
def review_call(
    call_id: str, review: Review, caller: Reviewer, database: Base, settings: Chosen, response: Response
) -> dict[str, Any]:
    seen_call(database, caller, call_id)
    reviewed = reviewing.review(database, caller, call_id, review.model_dump(), settings.entry_limit)
    if reviewed.repeated:
        response.status_code = 200
    return {"entry": reviewed.entry, "call": seen_call(database, caller, call_id)}
