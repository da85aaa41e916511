"""Who is told of events, and the log of what was told."""

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Response
from pydantic import BaseModel, Field

from rackside.api.context import Admin, Base, Chosen
from rackside.api.paging import After, Limit, paged
from rackside.api.refusals import refuses
from rackside.api.told import Listed, Told
from rackside.hooks.addresses import url_fault
from rackside.records import Refused, webhooks
from rackside.records.outbox import EVENTS

router = APIRouter(prefix="/webhooks", tags=["webhooks"])
State = Literal["pending", "delivered", "dead"]
Event = Literal[tuple(EVENTS)]  # type: ignore[valid-type]
EXAMPLE = {
    "url": "https://shop.example/rackside",
    "events": ["call.submitted", "call.reviewed"],
    "note": "the scheduler",
}


class NewWebhook(BaseModel, extra="forbid", json_schema_extra={"example": EXAMPLE}):
    """An address to be told of events; `sites` null means all the caller may see."""

    url: str = Field(min_length=1, max_length=2000)
    events: list[Event] = Field(min_length=1, max_length=len(EVENTS))
    sites: list[str] | None = Field(None, max_length=1000)
    note: str | None = Field(None, max_length=200)


class Webhook(Told):
    id: str
    url: str
    events: list[str]
    sites: list[str] | None
    note: str | None
    created_at: str
    created_by: str
    ended_at: str | None = Field(description="Since when it is told nothing, because it answered 410")


class WebhookMade(Webhook):
    secret: str = Field(description="Shown this once: what messages are signed with")


class Webhooks(Listed):
    items: list[Webhook]


class Attempt(Told):
    at: str
    status: int | None
    error: str | None


class Delivery(Told):
    """A message and every attempt to deliver it."""

    id: str = Field(description="The webhook-id of the message")
    event: str
    state: State
    attempts: int
    created_at: str
    call: str | None
    next_at: str | None = Field(description="When it is tried next")
    log: list[Attempt]
    payload: dict[str, Any]


class Deliveries(Listed):
    items: list[Delivery]


@router.get("", response_model=Webhooks, summary="List webhooks", description="Newest first; secrets are never shown.")
def list_webhooks(caller: Admin, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        return paged(webhooks.every(connection, caller.sites), None)


@router.post(
    "",
    status_code=201,
    response_model=WebhookMade,
    summary="Ask to be told of events",
    description="The secret is shown this once. The address must be https and public, unless the server's settings "
    "allow others.",
)
def add_webhook(asked: NewWebhook, caller: Admin, database: Base, settings: Chosen) -> dict[str, Any]:
    fault = url_fault(asked.url, settings.webhooks_private)
    if fault:
        raise Refused("invalid_query", f"/url: {fault}", errors=[{"pointer": "/url", "detail": fault}])
    sites = _allowed(asked.sites, caller.sites)
    with database.writing() as connection:
        return webhooks.add(connection, asked.url, list(asked.events), sites, asked.note, caller.author)


def _allowed(asked: list[str] | None, seen: frozenset[str] | None) -> list[str] | None:
    if asked is None:
        return None if seen is None else sorted(seen)
    foreign = [site for site in asked if seen is not None and site not in seen]
    if foreign:
        told = f"{foreign[0]} is not a site of yours."
        raise Refused("invalid_query", f"/sites: {told}", errors=[{"pointer": "/sites", "detail": told}])
    return asked


@router.get(
    "/{webhook_id}",
    response_model=Webhook,
    responses=refuses("not_found"),
    summary="One webhook",
    description="Without its secret.",
)
def one_webhook(webhook_id: str, caller: Admin, database: Base) -> dict[str, Any]:
    with database.reading() as connection:
        return webhooks.one(connection, webhook_id, caller.sites)


@router.delete(
    "/{webhook_id}",
    status_code=204,
    responses=refuses("not_found"),
    summary="Be told no more",
    description="Forgets the address, what waits to be sent there, and its delivery log.",
)
def remove_webhook(webhook_id: str, caller: Admin, database: Base) -> Response:
    with database.writing() as connection:
        webhooks.remove(connection, webhook_id, caller.sites)
    return Response(status_code=204)


@router.get(
    "/{webhook_id}/deliveries",
    response_model=Deliveries,
    responses=refuses("not_found"),
    summary="The delivery log",
    description="Newest first: every message with every attempt.",
)
def deliveries_of_webhook(
    webhook_id: str,
    caller: Admin,
    database: Base,
    state: Annotated[State | None, Query(description="Only in this state")] = None,
    limit: Limit = 50,
    next: After = None,
) -> dict[str, Any]:
    with database.reading() as connection:
        webhooks.one(connection, webhook_id, caller.sites)
        return paged(*webhooks.deliveries(connection, webhook_id, state, limit, next))


@router.post(
    "/{webhook_id}/deliveries/{delivery_id}/again",
    response_model=Delivery,
    responses=refuses("not_found"),
    summary="Send a message again",
    description="Now, with all its attempts before it anew: for a dead one whose receiver was mended.",
)
def send_again(webhook_id: str, delivery_id: str, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        webhooks.one(connection, webhook_id, caller.sites)
        return webhooks.send_again(connection, webhook_id, delivery_id)
