"""Other software that is told what happens: its addresses, what was sent there, and what became of it."""

from typing import Annotated, Any

from fastapi import Form, Request, Response
from fastapi.responses import RedirectResponse

from rackside.access.caller import Caller
from rackside.hooks.events import TRIED, WHEN
from rackside.hooks.reasons import with_reasons
from rackside.hooks.registering import Wanted, register
from rackside.office.pages import OwnForm, SignedIn, Store, page, routes
from rackside.records import Database, Refused, machines, outbox, webhooks

router = routes()
Text = Annotated[str, Form()]
Ticked = Annotated[list[str] | None, Form()]
Json = dict[str, Any]
ON_A_PAGE = 50
EVENT_WORDS = WHEN | {outbox.TEST: TRIED}
STATE_WORDS = {"pending": "on its way", "delivered": "taken", "dead": "given up"}


@router.get("/webhooks")
def webhook_list(request: Request, database: Store, caller: SignedIn) -> Response:
    caller.need("admin")
    return _list(request, database, caller)


def _list(request: Request, database: Database, caller: Caller, status: int = 200, **told: Any) -> Response:
    with database.reading() as connection:
        known = {site["id"]: site["name"] for site in machines.sites(connection, caller.sites)}
        values = {"webhooks": webhooks.every(connection, caller.sites), "sites": known, "events": WHEN}
        values["counts"] = webhooks.counted(connection)
    return page(request, "webhooks.html", status, caller, **values, **told)


@router.post("/webhooks", dependencies=[OwnForm])
def add_webhook(
    request: Request,
    database: Store,
    caller: SignedIn,
    url: Text = "",
    event: Ticked = None,
    site: Ticked = None,
    note: Text = "",
) -> Response:
    """Remember an address and show its secret this once."""
    caller.need("admin")
    private = request.app.state.settings.webhooks_private
    wanted = Wanted(url.strip(), event or [], site or None, note.strip() or None)
    try:
        with database.writing() as connection:
            made = register(connection, wanted, caller.author, caller.sites, private)
    except Refused as refused:
        said = refused.members["errors"][0]["detail"]
        return _list(request, database, caller, 422, wrong=said, draft=wanted)
    return _one(request, database, caller, made["id"], status=201, made=made)


@router.get("/webhooks/{webhook_id}")
def webhook_page(
    request: Request, database: Store, caller: SignedIn, webhook_id: str, state: str = "", next: str | None = None
) -> Response:
    caller.need("admin")
    return _one(request, database, caller, webhook_id, state=state, after=next)


def _one(
    request: Request,
    database: Database,
    caller: Caller,
    webhook_id: str,
    state: str = "",
    after: str | None = None,
    status: int = 200,
    made: Json | None = None,
) -> Response:
    """Return the page of one address with its delivery log; `made` holds a secret to be shown this once."""
    chosen = state if state in STATE_WORDS else None
    with database.reading() as connection:
        webhook = webhooks.one(connection, webhook_id, caller.sites)
        found, following = webhooks.deliveries(connection, webhook_id, chosen, ON_A_PAGE, after)
        known = {site["id"]: site["name"] for site in machines.sites(connection, caller.sites)}
    log: Json = {"log": [with_reasons(delivery) for delivery in found], "next": following, "state": chosen}
    words = {"events": EVENT_WORDS, "state_words": STATE_WORDS, "sites": known}
    return page(request, "webhook.html", status, caller, webhook=webhook, made=made, **log, **words)


@router.post("/webhooks/{webhook_id}/secret", dependencies=[OwnForm])
def renew_secret(request: Request, database: Store, caller: SignedIn, webhook_id: str) -> Response:
    """Give a new secret and show it this once; for a day the old one signs too."""
    caller.need("admin")
    with database.writing() as connection:
        made = webhooks.renew_secret(connection, webhook_id, caller.sites)
    return _one(request, database, caller, webhook_id, made=made)


@router.post("/webhooks/{webhook_id}/test", dependencies=[OwnForm])
def try_webhook(database: Store, caller: SignedIn, webhook_id: str) -> Response:
    caller.need("admin")
    with database.writing() as connection:
        webhooks.send_test(connection, webhook_id, caller.author, caller.sites)
    return _to(webhook_id)


@router.post("/webhooks/{webhook_id}/telling", dependencies=[OwnForm])
def pause_or_resume(database: Store, caller: SignedIn, webhook_id: str, on: Text) -> Response:
    caller.need("admin")
    with database.writing() as connection:
        (webhooks.resume if on == "yes" else webhooks.pause)(connection, webhook_id, caller.sites)
    return _to(webhook_id)


@router.post("/webhooks/{webhook_id}/again", dependencies=[OwnForm])
def send_again(database: Store, caller: SignedIn, webhook_id: str, delivery: Text) -> Response:
    """Put a message that was given up on its way again."""
    caller.need("admin")
    with database.writing() as connection:
        webhooks.one(connection, webhook_id, caller.sites)
        webhooks.send_again(connection, webhook_id, delivery)
    return _to(webhook_id)


@router.post("/webhooks/{webhook_id}/remove", dependencies=[OwnForm])
def remove_webhook(database: Store, caller: SignedIn, webhook_id: str) -> Response:
    caller.need("admin")
    with database.writing() as connection:
        webhooks.remove(connection, webhook_id, caller.sites)
    return RedirectResponse("/office/webhooks", 303)


def _to(webhook_id: str) -> Response:
    return RedirectResponse(f"/office/webhooks/{webhook_id}#log", 303)
