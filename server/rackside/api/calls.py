"""Calls for the office and for other software."""

import json
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Response
from pydantic import BaseModel, Field

from rackside.access.caller import Caller
from rackside.api import list_forms as forms
from rackside.api import results
from rackside.api.context import Base, Chosen, Reader, Reviewer
from rackside.api.entry_forms import CASE
from rackside.api.paging import After, Limit, Since, paged
from rackside.api.refusals import refuses
from rackside.engine import vocabulary
from rackside.records import Database, calls, judging
from rackside.sync import reviewing

router = APIRouter(prefix="/calls", tags=["calls"])
State = Literal["open", "submitted", "returned", "watching", "accepted", "closed"]
Complaint = Literal[tuple(vocabulary.COMPLAINTS)]  # type: ignore[valid-type]
CauseName = Literal[tuple(vocabulary.CAUSES)]  # type: ignore[valid-type]
CSV = {200: {"content": {"text/csv": {"schema": {"type": "string"}}}}}


@router.get("", response_model=forms.Calls, summary="List calls", description="Last changed first.")
def list_calls(
    caller: Reader,
    database: Base,
    state: Annotated[list[State] | None, Query(description="Only these states")] = None,
    site: Annotated[str | None, Query(description="Only this site, by its id")] = None,
    machine: Annotated[str | None, Query(description="Only this machine, by its id")] = None,
    assigned_to: Annotated[str | None, Query(description="Only this technician's, by name")] = None,
    complaint: Annotated[Complaint | None, Query(description="Only with this complaint")] = None,
    cause: Annotated[CauseName | None, Query(description="Only decided to be this cause")] = None,
    since: Since = None,
    limit: Limit = 50,
    next: After = None,
) -> dict[str, Any]:
    with database.reading() as connection:
        found, following = calls.page(
            connection, caller.sites, state or (), site, machine, assigned_to, limit, next, since, complaint, cause
        )
    return paged(found, following)


def seen_call(database: Database, caller: Caller, call_id: str) -> dict[str, Any]:
    """Return a call the caller may see."""
    with database.reading() as connection:
        return calls.one(connection, call_id, caller.sites)


@router.get(
    "/{call_id}",
    response_model=forms.WholeCall,
    responses=refuses("not_found"),
    summary="One call",
    description="With its rounds, photos, reviews and what followed it.",
)
def one_call(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    return seen_call(database, caller, call_id)


@router.get(
    "/{call_id}/case",
    responses=CASE | refuses("not_found", "engine_failed"),
    summary="A call as a case",
    description="What POST /analyse takes.",
)
def case_of_call(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    seen_call(database, caller, call_id)
    return judging.case_of(database, call_id)


@router.get(
    "/{call_id}/results",
    response_model=forms.Results,
    responses=refuses("not_found", "engine_failed"),
    summary="The judgement of a call",
    description="The server's own, of all its present entries, and whether the phone's agrees with it.",
)
def results_of_call(call_id: str, caller: Reader, database: Base) -> Response:
    return Response(results.text_of(database, seen_call(database, caller, call_id)), media_type="application/json")


@router.get(
    "/{call_id}/results.csv",
    response_class=Response,
    responses=CSV | refuses("not_found", "engine_failed"),
    summary="The judgement of a call as CSV",
    description="One line for each round, check and leg.",
)
def results_csv_of_call(call_id: str, caller: Reader, database: Base) -> Response:
    seen_call(database, caller, call_id)
    judged = judging.judged(database, call_id)
    named = {"Content-Disposition": f'attachment; filename="results-{call_id}.csv"'}
    return Response(results.csv_of(json.loads(judged.result)), media_type="text/csv; charset=utf-8", headers=named)


def _judgement(judged: judging.Judged) -> dict[str, Any]:
    told = {"id": judged.id, "entries": judged.upto, "digest": judged.digest, "judged_at": judged.judged_at}
    return told | {"result": json.loads(judged.result)}


@router.get(
    "/{call_id}/judgements",
    response_model=forms.Judgements,
    responses=refuses("not_found"),
    summary="Every judgement of a call",
    description="Newest first.",
)
def judgements_of_call(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    seen_call(database, caller, call_id)
    with database.reading() as connection:
        found = judging.all_of(connection, call_id)
    return {"items": [_judgement(judged) for judged in found], "next": None}


@router.post(
    "/{call_id}/judgements",
    status_code=201,
    response_model=forms.Judgement,
    responses=refuses("not_found", "engine_failed"),
    summary="Judge a call again",
    description="By today's rules. Earlier judgements stay.",
)
def judge_call_again(call_id: str, caller: Reader, database: Base) -> dict[str, Any]:
    caller.need("analyse")
    seen_call(database, caller, call_id)
    return _judgement(judging.judge_again(database, call_id, caller.author))


class Review(BaseModel, extra="forbid"):
    """What the office says of a call; `seen` is the `changed` of the call as it was read."""

    id: str = Field(description="A UUID made by the caller: sent again, it is the same review")
    outcome: Literal["accepted", "returned"]
    note: str | None = Field(None, max_length=4000)
    of: str | None = Field(None, description="The entry the note is about")
    seen: int = Field(ge=0, le=2**53)


@router.post(
    "/{call_id}/reviews",
    status_code=201,
    response_model=forms.Reviewed,
    responses={200: {"model": forms.Reviewed, "description": "The same review was there already"}}
    | refuses("not_found", "stale", "id_reused", "invalid_body", "missing_reference", "entry_too_large"),
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
