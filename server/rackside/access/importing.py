"""People from rows of a table."""

import secrets
from collections.abc import Collection
from typing import Any, NamedTuple

from sqlalchemy import Connection, select

from rackside.access import people
from rackside.access.people import PEOPLE, SITES
from rackside.records import Refused

MEMBERS = ("name", "role", "sites", "password")
Json = dict[str, Any]


class PersonRow(NamedTuple):
    """What becomes of a row; a password that was made up is told once."""

    number: int
    status: str
    id: str | None = None
    errors: tuple[Json, ...] = ()
    password: str | None = None


def take_people(connection: Connection, rows: list[Any], sees: Collection[str] | None = None) -> list[PersonRow]:
    """Add the people of the rows, or say which sites those known see, in the caller's transaction."""
    names = {row.id: row.name for row in connection.execute(select(SITES.c.id, SITES.c.name))}
    if sees is not None:
        names = {site: name for site, name in names.items() if site in sees}
        rows = [_limited(row, sorted(names)) for row in rows]
    return [_take(connection, names, number, row) for number, row in enumerate(rows, 1)]


def _limited(row: Any, sites: list[str]) -> Any:
    """Return a row in which no sites means those of the caller, not all."""
    return row | {"sites": sites} if isinstance(row, dict) and row.get("sites") is None else row


def _take(connection: Connection, sites: dict[str, str], number: int, row: Any) -> PersonRow:
    try:
        _check(row)
        seen = None if row.get("sites") is None else [_site(sites, one) for one in row["sites"]]
        known = connection.execute(select(PEOPLE).where(PEOPLE.c.name == row["name"])).first()
        if known is not None:
            return _known(connection, number, known, row, seen)
        password = row.get("password") or secrets.token_urlsafe(12)
        person = people.add(connection, row["name"], password, row.get("role", "technician"), seen)
        return PersonRow(number, "new", person, (), None if row.get("password") else password)
    except Refused as refused:
        told = refused.members.get("errors") or [{"pointer": "", "detail": refused.detail}]
        return PersonRow(number, "wrong", None, tuple(told))


def _check(row: Any) -> None:
    if not isinstance(row, dict):
        raise _wrong("", "A row is a JSON object.")
    for name in row:
        if name not in MEMBERS:
            raise _wrong(f"/{name}", f"Unknown member. Known here: {', '.join(MEMBERS)}.")
    for name in ("name", "role", "password"):
        if not isinstance(row.get(name, ""), str):
            raise _wrong(f"/{name}", "Must be text.")
    if not row.get("name"):
        raise _wrong("/name", "Missing.")
    if row.get("sites") is not None and not isinstance(row["sites"], list):
        raise _wrong("/sites", "Must be a list of sites, by id or name; nothing for all of them.")


def _wrong(pointer: str, detail: str) -> Refused:
    return Refused("invalid_query", detail, errors=[{"pointer": pointer, "detail": detail}])


def _site(sites: dict[str, str], named: Any) -> str:
    found = [site_id for site_id, name in sites.items() if named in (site_id, name)]
    if len(found) != 1:
        raise _wrong("/sites", f"There {'is no site' if not found else 'are several sites'} {named!r} here.")
    return found[0]


def _known(connection: Connection, number: int, known: Any, row: Json, seen: list[str] | None) -> PersonRow:
    if row.get("role", known.role) != known.role:
        raise _wrong("/role", f"{known.name} is {known.role}: a table can't change that.")
    now = people.sites_of(connection, known)
    if now == (None if seen is None else frozenset(seen)):
        return PersonRow(number, "same", known.id)
    people.set_sites(connection, known.id, seen)
    return PersonRow(number, "changed", known.id)
