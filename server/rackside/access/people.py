"""People: names, passwords, roles, sites."""

from functools import cache
from typing import Any
from uuid import uuid4

from pwdlib import PasswordHash
from sqlalchemy import Connection, delete, insert, select, update

from rackside.access.caller import ROLES
from rackside.access.throttle import Throttle
from rackside.records import Refused, clock
from rackside.records.projected import Site
from rackside.records.tables import Device, Person, PersonSite, Session

PEOPLE = Person.__table__  # type: ignore[attr-defined]
PERSON_SITES = PersonSite.__table__  # type: ignore[attr-defined]
SITES = Site.__table__  # type: ignore[attr-defined]
DEVICES = Device.__table__  # type: ignore[attr-defined]
SESSIONS = Session.__table__  # type: ignore[attr-defined]
SHORTEST_PASSWORD = 8
failed_sign_ins = Throttle(limit=10, seconds=60)


@cache
def _hasher() -> PasswordHash:
    return PasswordHash.recommended()


@cache
def _nobody() -> str:
    """Return a hash to verify against when the name is unknown, so that both answers take as long."""
    return _hasher().hash("nobody signs in with this")


def add(connection: Connection, name: str, password: str, role: str, sites: list[str] | None = None) -> str:
    """Add a person and return the id; `sites` None gives all sites."""
    if role not in ROLES:
        raise Refused("invalid_query", f"Role {role!r} is not one of {', '.join(ROLES)}.")
    if not name.strip() or len(name) > 100:
        raise Refused("invalid_query", "The name must have 1 to 100 characters.")
    _check_password(password)
    if taken(connection, name):
        raise Refused("invalid_query", f"The name {name!r} is taken: names are for ever, entries carry them.")
    person = {"id": str(uuid4()), "name": name, "password_hash": _hasher().hash(password), "role": role}
    state = {"all_sites": sites is None, "active": True, "created_at": clock.written(clock.now())}
    connection.execute(insert(PEOPLE), person | state)
    set_sites(connection, person["id"], sites)
    return person["id"]


def _check_password(password: str) -> None:
    if len(password) < SHORTEST_PASSWORD:
        raise Refused("invalid_query", f"The password must have at least {SHORTEST_PASSWORD} characters.")


def taken(connection: Connection, name: str) -> bool:
    """Return whether a person or a key has this name."""
    person = select(PEOPLE.c.id).where(PEOPLE.c.name == name)
    key = select(DEVICES.c.id).where(DEVICES.c.name == name, DEVICES.c.person_id.is_(None))
    return connection.execute(person.union(key)).first() is not None


def id_of(connection: Connection, name: str) -> str:
    """Return the id of a person by name."""
    found = connection.scalar(select(PEOPLE.c.id).where(PEOPLE.c.name == name))
    if found is None:
        raise Refused("not_found", f"There is nobody called {name!r} here.")
    return str(found)


def set_sites(connection: Connection, person_id: str, sites: list[str] | None) -> None:
    """Say which sites a person sees; None means all."""
    connection.execute(delete(PERSON_SITES).where(PERSON_SITES.c.person_id == person_id))
    connection.execute(update(PEOPLE).where(PEOPLE.c.id == person_id).values(all_sites=sites is None))
    if sites:
        rows = [{"person_id": person_id, "site_id": site_id} for site_id in dict.fromkeys(sites)]
        connection.execute(insert(PERSON_SITES), rows)


def set_password(connection: Connection, person_id: str, password: str) -> None:
    """Give a person a new password and end their office sessions."""
    _check_password(password)
    connection.execute(update(PEOPLE).where(PEOPLE.c.id == person_id).values(password_hash=_hasher().hash(password)))
    connection.execute(delete(SESSIONS).where(SESSIONS.c.person_id == person_id))


def deactivate(connection: Connection, person_id: str) -> None:
    """Let a person sign in no more; their entries stay theirs."""
    connection.execute(update(PEOPLE).where(PEOPLE.c.id == person_id).values(active=False))
    connection.execute(delete(SESSIONS).where(SESSIONS.c.person_id == person_id))


def activate(connection: Connection, person_id: str) -> None:
    """Let a person sign in again."""
    connection.execute(update(PEOPLE).where(PEOPLE.c.id == person_id).values(active=True))


def verify(connection: Connection, name: str, password: str) -> Any:
    """Return the person's row for the right password; refuse otherwise, and slow down guessing."""
    failed_sign_ins.check(name)
    person = connection.execute(select(PEOPLE).where(PEOPLE.c.name == name, PEOPLE.c.active)).first()
    held = person.password_hash if person else ""
    right = _hasher().verify(password, held or _nobody())
    if not right or not held:
        failed_sign_ins.count(name)
        raise Refused("no_credentials", "The name or the password is wrong.")
    return person


def sites_of(connection: Connection, person: Any) -> frozenset[str] | None:
    """Return the ids of a person's sites, None for all."""
    if person.all_sites:
        return None
    asked = select(PERSON_SITES.c.site_id).where(PERSON_SITES.c.person_id == person.id)
    return frozenset(connection.execute(asked).scalars())


def site_ids(connection: Connection, sites: frozenset[str] | None) -> list[str]:
    """Return a scope as a list, all sites written out."""
    if sites is not None:
        return sorted(sites)
    return list(connection.execute(select(SITES.c.id).order_by(SITES.c.id)).scalars())


def everyone(connection: Connection) -> list[dict[str, Any]]:
    """Return all people with their sites, by name, without their password hashes."""
    people = connection.execute(select(PEOPLE).order_by(PEOPLE.c.name)).all()
    return [_public(connection, person) for person in people]


def _public(connection: Connection, person: Any) -> dict[str, Any]:
    sites = sites_of(connection, person)
    plain = {name: getattr(person, name) for name in ("id", "name", "role", "active", "created_at")}
    return plain | {"sites": None if sites is None else sorted(sites)}
