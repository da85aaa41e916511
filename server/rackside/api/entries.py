"""Push and pull of the log."""

import json
from typing import Annotated, Any

import structlog
from fastapi import APIRouter, BackgroundTasks, Query, Response
from pydantic import BaseModel, Field

from rackside import host
from rackside.api.bodies import described
from rackside.api.context import Base, Body, Chosen, Reader, Writer
from rackside.api.errors import CODES
from rackside.api.refusals import refuses
from rackside.records import Database, Refused, clock, judging, log
from rackside.records.log import Logged
from rackside.sync import pull, push
from rackside.sync.push import Answer

router = APIRouter(tags=["entries"])
failures = structlog.get_logger("rackside.judging")


class EntryAnswer(BaseModel):
    """What became of one entry."""

    id: str | None
    status: str = Field(description="accepted, repeated or refused")
    cursor: int | None = None
    code: str | None = None
    detail: str | None = None
    remedy: str | None = None
    errors: list[dict[str, str]] | None = Field(None, description="Each fault of a refused entry with its JSON pointer")


class Pushed(BaseModel):
    results: list[EntryAnswer]
    photos_wanted: list[str]
    cursor: int
    epoch: str
    server_time: str


@router.post(
    "/entries",
    response_model=Pushed,
    responses=refuses("batch_too_large", "epoch_changed"),
    summary="Push entries",
    description="At most 500, in one transaction. Each gets its own answer, in the order sent; a repeat moves nothing.",
    openapi_extra=described("Push"),
)
def push_entries(body: Body, caller: Writer, database: Base, settings: Chosen, later: BackgroundTasks) -> Response:
    entries, epoch = _batch(body, caller.device_id, caller.device_name, settings.batch_limit)
    outcome = push.push(database, caller, epoch, entries, settings.entry_limit)
    submitted = _submitted(outcome.taken)
    if submitted:
        later.add_task(judge_all, database, submitted)
    told = {"photos_wanted": outcome.photos_wanted, "cursor": outcome.cursor, "epoch": outcome.epoch}
    tail = json.dumps(told | {"server_time": clock.written(clock.now())})
    text = '{"results": [' + ", ".join(map(result_of, outcome.answers)) + "], " + tail[1:]
    return Response(text, media_type="application/json", background=later)


def _batch(body: Any, device_id: str, device_name: str, limit: int) -> tuple[list[Any], str | None]:
    if not isinstance(body, dict) or not isinstance(body.get("entries"), list):
        _wrong("/entries", "A list of entries is needed.")
    unknown = sorted(set(body) - {"device", "epoch", "entries"})
    if unknown:
        _wrong("/" + unknown[0], "Unknown member. Known here: device, epoch, entries.")
    if body.get("device") not in (device_id, device_name):
        _wrong("/device", f"This token belongs to the device {device_id}.")
    if body.get("epoch") is not None and not isinstance(body["epoch"], str):
        _wrong("/epoch", "Must be the epoch of an earlier answer, or null.")
    if len(body["entries"]) > limit:
        raise Refused("batch_too_large", f"{len(body['entries'])} entries were sent; at most {limit} are taken.")
    return body["entries"], body.get("epoch")


def _wrong(pointer: str, detail: str) -> None:
    raise Refused("invalid_query", f"{pointer}: {detail}", errors=[{"pointer": pointer, "detail": detail}])


def result_of(answer: Answer) -> str:
    """Return the answer to one entry as JSON; of an entry in the log the id needs no escaping, it is a UUID."""
    if answer.refused is None:
        head = f'{{"id": "{answer.id}", "status": "{answer.status}", "cursor": {answer.cursor}, '
        return head + '"code": null, "detail": null, "remedy": null}'
    refused = answer.refused
    why = {"code": refused.code, "detail": refused.detail, "remedy": CODES[refused.code].remedy}
    head = {"id": answer.id, "status": answer.status, "cursor": None}
    return json.dumps(head | why | {"errors": refused.members.get("errors", [])})


def _submitted(taken: list[Logged]) -> list[str]:
    return sorted({logged.entry["call"] for logged in taken if logged.entry["kind"] in ("submission", "decision")})


def judge_all(database: Database, calls: list[str]) -> None:
    """Judge calls whose answer somebody will soon want; what fails here is judged when asked for."""
    for call_id in calls:
        try:
            judging.judged(database, call_id)
        except (host.EngineFailed, host.InvalidCase, Refused) as error:
            failures.error("a call could not be judged", call=call_id, error=str(error))


class Pulled(BaseModel):
    items: list[dict[str, Any]]
    cursor: int
    more: bool
    scope: str
    epoch: str
    server_time: str


@router.get(
    "/entries",
    response_model=Pulled,
    responses=refuses("epoch_changed", "scope_changed", "not_found"),
    summary="Pull entries",
    description=(
        "Oldest first, from a cursor on. Store the items and the cursor in one transaction. "
        "With `call`, the entries of one call, however old."
    ),
)
def pull_entries(
    caller: Reader,
    database: Base,
    after: Annotated[int, Query(ge=0, le=2**53, description="The cursor of the last page; 0 for all")] = 0,
    limit: Annotated[int, Query(ge=1, le=1000, description="Most items on the page")] = 500,
    call: Annotated[str | None, Query(description="Only the entries of this call")] = None,
    scope: Annotated[str | None, Query(description="The scope of the last page, if known")] = None,
    epoch: Annotated[str | None, Query(description="The epoch of the last page, if known")] = None,
) -> Response:
    if call is not None:
        pulled = pull.pull_call(database, caller, call, after, limit)
    else:
        pulled = pull.pull(database, caller, after, limit, scope, epoch)
    return Response(page_text(pulled.page, pulled.scope, pulled.epoch), media_type="application/json")


def page_text(page: log.Page, scope: str, epoch: str) -> str:
    """Return a page as JSON; its entries are JSON already."""
    tail = {"cursor": page.cursor, "more": page.more, "scope": scope, "epoch": epoch}
    tail["server_time"] = clock.written(clock.now())
    return '{"items":[' + ",".join(page.documents) + "]," + json.dumps(tail)[1:]
