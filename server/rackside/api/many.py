"""Results of many calls at once, for software that pulls them."""

import json
from typing import Annotated, Any, NamedTuple
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Query, Request, Response

from rackside.api import results
from rackside.api.calls import CSV, State
from rackside.api.context import Base, Reader
from rackside.api.list_forms import ManyResults
from rackside.api.paging import After, Since
from rackside.api.refusals import refuses
from rackside.records import calls

router = APIRouter(prefix="/results", tags=["results"])
SENT_IN: tuple[State, ...] = ("submitted", "returned", "watching", "accepted", "closed")
Few = Annotated[int, Query(ge=1, le=100, description="Most calls on a page")]
Json = dict[str, Any]


class Asked(NamedTuple):
    """One page of calls, and the way to the next."""

    calls: list[Json]
    next: str | None


def asked_calls(
    caller: Reader,
    database: Base,
    state: Annotated[list[State] | None, Query(description="Only these states; all that were sent in if none")] = None,
    site: Annotated[str | None, Query(description="Only this site, by its id")] = None,
    machine: Annotated[str | None, Query(description="Only this machine, by its id")] = None,
    since: Since = None,
    limit: Few = 50,
    next: After = None,
) -> Asked:
    with database.reading() as connection:
        found = calls.page(connection, caller.sites, state or SENT_IN, site, machine, None, limit, next, since)
    return Asked(*found)


Page = Annotated[Asked, Depends(asked_calls)]


@router.get(
    "",
    response_model=ManyResults,
    responses=refuses("engine_failed"),
    summary="Judgements of many calls",
    description="Last changed first: each as GET /calls/{id}/results answers it.",
)
def results_of_calls(page: Page, database: Base) -> Response:
    texts = [results.text_of(database, call) for call in page.calls]
    text = '{"items":[' + ",".join(texts) + '],"next":' + json.dumps(page.next) + "}"
    return Response(text, media_type="application/json")


@router.get(
    ".csv",
    response_class=Response,
    responses=CSV | refuses("engine_failed"),
    summary="Judgements of many calls as CSV",
    description="As results.csv of a call, each line beginning with whose it is. The next page is named by the header "
    '`Link: <…>; rel="next"`.',
)
def results_csv_of_calls(page: Page, database: Base, request: Request) -> Response:
    headers = {"Content-Disposition": 'attachment; filename="results.csv"'}
    if page.next:
        others = [(name, value) for name, value in request.query_params.multi_items() if name != "next"]
        headers["Link"] = f'<{request.url.path}?{urlencode([*others, ("next", page.next)])}>; rel="next"'
    return Response(results.csv_of_many(database, page.calls), media_type="text/csv; charset=utf-8", headers=headers)
