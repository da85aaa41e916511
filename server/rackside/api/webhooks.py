"""Who is told of events, and the log of what was told."""

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Response
from pydantic import BaseModel, Field

from rackside.api.context import Admin, Base, Chosen
from rackside.api.paging import After, Limit, paged
from rackside.api.refusals import refuses
from rackside.api.told import Listed, Told
from rackside.hooks.reasons import with_reasons
from rackside.hooks.registering import Wanted, register
from rackside.records import webhooks
from rackside.records.outbox import EVENTS

router = APIRouter(prefix="/webhooks", tags=["webhooks"])
State = Literal["pending", "delivered", "dead"]
Event = Literal[tuple(EVENTS)]  # type: ignore[valid-type]


class NewWebhook(BaseModel, extra="forbid"):
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
    paused_at: str | None = Field(description="Since when its messages wait, because somebody paused it")
    old_secret_until: str | None = Field(description="Until when the secret before this one signs too")


class WebhookMade(Webhook):
    secret: str = Field(description="Shown this once: what messages are signed with")


class Webhooks(Listed):
    items: list[Webhook]


class Attempt(Told):
    at: str
    status: int | None = Field(description="What the address answered; null when it did not")
    error: str | None
    reason: str = Field(description="What became of it, in words")


class Delivery(Told):
    """A message and every attempt to deliver it."""

    id: str = Field(description="The webhook-id of the message")
    event: str = Field(description="One of those asked for, or webhook.test")
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
    wanted = Wanted(asked.url, list(asked.events), asked.sites, asked.note)
    with database.writing() as connection:
        return register(connection, wanted, caller.author, caller.sites, settings.webhooks_private)


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


@router.post(
    "/{webhook_id}/pause",
    response_model=Webhook,
    responses=refuses("not_found"),
    summary="Hold messages back",
    description="Events are written down and wait until the webhook is resumed; a test is sent all the same.",
)
def pause_webhook(webhook_id: str, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        return webhooks.pause(connection, webhook_id, caller.sites)


@router.post(
    "/{webhook_id}/resume",
    response_model=Webhook,
    responses=refuses("not_found"),
    summary="Send what waits, and go on",
    description="After a pause, or after the address answered 410 and was told no more.",
)
def resume_webhook(webhook_id: str, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        return webhooks.resume(connection, webhook_id, caller.sites)


@router.post(
    "/{webhook_id}/secret",
    response_model=WebhookMade,
    responses=refuses("not_found"),
    summary="Give a new secret",
    description="Shown this once. For a day messages carry two signatures, by the new secret and by the old one, so "
    "that the receiver can change over without losing any.",
)
def renew_secret(webhook_id: str, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        return webhooks.renew_secret(connection, webhook_id, caller.sites)


@router.post(
    "/{webhook_id}/test",
    status_code=201,
    response_model=Delivery,
    responses=refuses("not_found"),
    summary="Try the address",
    description="Sends a message of type `webhook.test`, signed like every other and tried once. The delivery log says "
    "what became of it.",
)
def try_webhook(webhook_id: str, caller: Admin, database: Base) -> dict[str, Any]:
    with database.writing() as connection:
        return with_reasons(webhooks.send_test(connection, webhook_id, caller.author, caller.sites))


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
        found, following = webhooks.deliveries(connection, webhook_id, state, limit, next)
    return paged([with_reasons(delivery) for delivery in found], following)


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
        return with_reasons(webhooks.send_again(connection, webhook_id, delivery_id))
