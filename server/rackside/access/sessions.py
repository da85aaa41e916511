"""Office sign-ins: an opaque cookie, kept here only as a hash."""

import secrets
from datetime import timedelta
from typing import Any
from urllib.parse import urlsplit

from sqlalchemy import Connection, delete, insert, select
from starlette.requests import Request
from starlette.responses import Response

from rackside.access import people
from rackside.access.caller import ROLES, Caller
from rackside.access.devices import hash_of
from rackside.records import Database, Refused, clock
from rackside.records.tables import Person, Session

COOKIE = "rackside_session"
SESSIONS = Session.__table__  # type: ignore[attr-defined]
PEOPLE = Person.__table__  # type: ignore[attr-defined]


def sign_in(database: Database, name: str, password: str, hours: int = 12) -> str:
    """Return the cookie's value for the right password; refuse with no_credentials or slow_down."""
    with database.reading() as connection:
        person = people.verify(connection, name, password)
    token, moment = secrets.token_urlsafe(32), clock.now()
    valid_until = clock.written(moment + timedelta(hours=hours))
    with database.writing() as connection:
        connection.execute(delete(SESSIONS).where(SESSIONS.c.valid_until < clock.written(moment)))
        row = {"token_hash": hash_of(token), "person_id": person.id, "valid_until": valid_until}
        connection.execute(insert(SESSIONS), row)
    return token


def set_cookie(response: Response, token: str, request: Request) -> None:
    """Hand the session to the browser."""
    secure = request.url.scheme == "https"
    response.set_cookie(COOKIE, token, httponly=True, samesite="lax", secure=secure, path="/")


def caller_of(connection: Connection, request: Request) -> Caller | None:
    """Return who signed in at the office page that asks, None when nobody did."""
    token = request.cookies.get(COOKIE)
    if not token:
        return None
    asked = select(PEOPLE).join(SESSIONS, SESSIONS.c.person_id == PEOPLE.c.id)
    fresh = (SESSIONS.c.token_hash == hash_of(token)) & (SESSIONS.c.valid_until > clock.written(clock.now()))
    person: Any = connection.execute(asked.where(fresh, PEOPLE.c.active)).first()
    if person is None:
        return None
    sites = people.sites_of(connection, person)
    return Caller(person.name, person.role, "office", "office", person.id, sites, ROLES[person.role])


def person_of(request: Request) -> Caller | None:
    """Return the person signed in at the office page, None when nobody is."""
    database: Database = request.app.state.database
    with database.reading() as connection:
        return caller_of(connection, request)


def sign_out(request: Request, response: Response) -> None:
    """End the session and take the cookie back."""
    database: Database = request.app.state.database
    token = request.cookies.get(COOKIE, "")
    with database.writing() as connection:
        connection.execute(delete(SESSIONS).where(SESSIONS.c.token_hash == hash_of(token)))
    response.delete_cookie(COOKIE, path="/")


def check_origin(request: Request) -> None:
    """Refuse a form that another site's page sent; forms of this server carry its own origin."""
    origin = request.headers.get("origin") or request.headers.get("referer") or ""
    if urlsplit(origin).netloc != request.headers.get("host", ""):
        raise Refused("not_allowed", "This form was not sent by a page of this server.")
