"""The commands for webhooks: other software that is told what happens."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Annotated, Any

import typer

from rackside.cli.asked import SiteIds, Url, chosen, fail, opened
from rackside.hooks.reasons import with_reasons
from rackside.hooks.registering import Wanted, register
from rackside.records import Refused, webhooks

webhook = typer.Typer(help="Addresses that are told what happens.", no_args_is_help=True)
Id = Annotated[str, typer.Argument(help="The id that `webhook list` shows.")]
BY = "rackside webhook"
MOST = 500
Json = dict[str, Any]


def _within(transaction: AbstractContextManager[Any], act: Callable[..., Any], *asked: Any) -> Any:
    """Do something in a transaction; a refusal ends the command with its sentence."""
    try:
        with transaction as connection:
            return act(connection, *asked)
    except Refused as refused:
        raise fail(refused.detail) from None


@webhook.command("add")
def add_webhook(
    url: Annotated[str, typer.Argument(help="Where to send messages: https, on the public internet.")],
    event: Annotated[list[str], typer.Option(help="Like call.submitted; again for more.")],
    site: SiteIds = None,
    note: Annotated[str | None, typer.Option(help="What it is for.")] = None,
    database: Url = None,
) -> None:
    """Tell an address what happens; print its id and its secret, which is shown this once."""
    wanted, private = Wanted(url, event, site, note), chosen().webhooks_private
    made = _within(opened(database).writing(), register, wanted, BY, None, private)
    typer.echo(f"{made['id']} {made['secret']}")


@webhook.command("list")
def list_webhooks(database: Url = None) -> None:
    """Print every address: id, what it is told of, how it stands."""
    for one in _within(opened(database).reading(), webhooks.every):
        typer.echo(f"{one['id']} {one['url']}: {', '.join(one['events'])}; {_standing(one)}")


def _standing(one: Json) -> str:
    if one["ended_at"]:
        return f"told nothing since {one['ended_at']}, it answered 410"
    return f"paused since {one['paused_at']}" if one["paused_at"] else "told as things happen"


@webhook.command("log")
def show_log(
    webhook_id: Id,
    state: Annotated[str | None, typer.Option(help="Only pending, delivered or dead.")] = None,
    database: Url = None,
) -> None:
    """Print the newest messages to an address and what became of each attempt."""
    if state is not None and state not in webhooks.STATES:
        raise fail(f"States are {', '.join(webhooks.STATES)}.", 2)
    reading = opened(database).reading()
    found, _ = _within(reading, _log_of, webhook_id, state)
    for delivery in map(with_reasons, found):
        typer.echo(f"{delivery['created_at']} {delivery['event']} {delivery['state']} {delivery['id']}")
        for attempt in delivery["log"]:
            typer.echo(f"  {attempt['at']} {attempt['reason']}")


def _log_of(connection: Any, webhook_id: str, state: str | None) -> Any:
    webhooks.one(connection, webhook_id)
    return webhooks.deliveries(connection, webhook_id, state, MOST, None)


@webhook.command("test")
def try_webhook(webhook_id: Id, database: Url = None) -> None:
    """Put a test message on its way; the running server sends it, and the log says what became of it."""
    told = _within(opened(database).writing(), webhooks.send_test, webhook_id, BY)
    typer.echo(f"{told['id']} is on its way: see `rackside webhook log {webhook_id}`.")


@webhook.command("again")
def send_again(
    webhook_id: Id, delivery: Annotated[str, typer.Argument(help="The message's id.")], database: Url = None
) -> None:
    """Send a message again that was given up."""
    told = _within(opened(database).writing(), webhooks.send_again, webhook_id, delivery)
    typer.echo(f"{told['id']} is on its way.")


@webhook.command("secret")
def renew_secret(webhook_id: Id, database: Url = None) -> None:
    """Print a new secret, shown this once; for a day the old one signs too."""
    typer.echo(_within(opened(database).writing(), webhooks.renew_secret, webhook_id)["secret"])


@webhook.command("pause")
def pause_webhook(webhook_id: Id, database: Url = None) -> None:
    """Let messages wait."""
    typer.echo(_standing(_within(opened(database).writing(), webhooks.pause, webhook_id)))


@webhook.command("resume")
def resume_webhook(webhook_id: Id, database: Url = None) -> None:
    """Send what waits, and go on telling."""
    typer.echo(_standing(_within(opened(database).writing(), webhooks.resume, webhook_id)))


@webhook.command("remove")
def remove_webhook(webhook_id: Id, database: Url = None) -> None:
    """Forget an address with its log and what waits to be sent there."""
    _within(opened(database).writing(), webhooks.remove, webhook_id)
    typer.echo("It is told nothing more.")
