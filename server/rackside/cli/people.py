"""The commands for people and keys."""

import secrets
from typing import Annotated, Any

import typer

from rackside.access import devices, people, sites
from rackside.cli.asked import SiteIds, Url, fail, opened
from rackside.records import Refused

user = typer.Typer(help="People who sign in.", no_args_is_help=True)
key = typer.Typer(help="Keys of other software.", no_args_is_help=True)
Password = Annotated[str | None, typer.Option(envvar="RACKSIDE_PASSWORD", help="Made up when not given.")]
KeyName = Annotated[str, typer.Argument(help="The name of the software: it writes entries as this.")]


@user.command("add")
def add_user(
    name: Annotated[str, typer.Argument(help="The name entries will carry, for ever.")],
    role: Annotated[str, typer.Option(help="technician, office or admin.")] = "technician",
    site: SiteIds = None,
    password: Password = None,
    database: Url = None,
) -> None:
    """Add a person who may sign in."""
    given = password or secrets.token_urlsafe(12)
    try:
        with opened(database).writing() as connection:
            people.add(connection, name, given, role, sites.given(connection, site, None))
    except Refused as refused:
        raise fail(refused.detail) from None
    typer.echo(f"{name} ({role}) may sign in" + ("." if password else f" with the password {given}"))


@user.command("password")
def set_password(
    name: Annotated[str, typer.Argument(help="Whose password.")], password: Password = None, database: Url = None
) -> None:
    """Give a person a new password, after an import for example: archives hold none."""
    given = password or secrets.token_urlsafe(12)
    try:
        with opened(database).writing() as connection:
            people.set_password(connection, people.id_of(connection, name), given)
    except Refused as refused:
        raise fail(refused.detail) from None
    typer.echo(f"{name} may sign in" + ("." if password else f" with the password {given}"))


@key.command("add")
def add_key(
    name: KeyName,
    scope: Annotated[list[str], typer.Option(help="read, write, analyse or admin; again for more.")],
    site: SiteIds = None,
    days: Annotated[int | None, typer.Option(help="Days it is good for. None: for ever.")] = None,
    database: Url = None,
) -> None:
    """Make a key for other software; it is shown this once."""
    try:
        with opened(database).writing() as connection:
            made = devices.add_key(connection, name, scope, sites.given(connection, site, None), days)
    except Refused as refused:
        raise fail(refused.detail) from None
    typer.echo(made["token"])


@key.command("renew")
def renew_key(name: KeyName, database: Url = None) -> None:
    """Give a key a new token, shown this once; the old one ends."""
    typer.echo(_with_key(name, database, devices.renew))


@key.command("end")
def end_key(name: KeyName, database: Url = None) -> None:
    """Let a key do nothing more; what it wrote stays its."""
    _with_key(name, database, devices.revoke)
    typer.echo(f"{name} has ended.")


@key.command("list")
def list_keys(database: Url = None) -> None:
    """Print every key: name, scopes, sites, last use, end."""
    with opened(database).reading() as connection:
        for one in devices.every(connection):
            if one["scopes"] is not None:
                until = f"good until {one['valid_until'] or 'ended by hand'}"
                ended = f"ended {one['revoked_at']}" if one["revoked_at"] else until
                seen = f"last seen {one['last_seen'] or 'never'}"
                typer.echo(f"{one['name']}: {', '.join(one['scopes'])}; {_where(one['sites'])}; {seen}; {ended}")


def _where(sites: list[str] | None) -> str:
    return "all sites" if sites is None else f"only the sites {', '.join(sites)}"


def _with_key(name: str, database: str | None, act: Any) -> Any:
    try:
        with opened(database).writing() as connection:
            return act(connection, devices.key_named(connection, name))
    except Refused as refused:
        raise fail(refused.detail) from None
