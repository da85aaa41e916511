"""Devices: a person's phone, or a key of other software. Tokens are kept only as hashes."""

import json
import math
import secrets
import time
from collections.abc import Collection
from datetime import timedelta
from hashlib import sha256
from typing import Any
from uuid import uuid4

from sqlalchemy import Connection, insert, select, update
from sqlalchemy.exc import OperationalError

from rackside.access import people
from rackside.access.caller import KEY_SCOPES, ROLES, Caller, rights_of_key
from rackside.records import Database, Refused, clock, scopes
from rackside.records.tables import Device, Person

DEVICES = Device.__table__  # type: ignore[attr-defined]
PEOPLE = Person.__table__  # type: ignore[attr-defined]
NOTED_EVERY = 600.0
LONGEST_DAYS = 3660


def hash_of(token: str) -> str:
    return sha256(token.encode()).hexdigest()


def new_token() -> str:
    return "rs_" + secrets.token_urlsafe(32)


def sign_in(connection: Connection, person: Any, device: str, days: int) -> dict[str, Any]:
    """Give a person's phone a token. `device` is the phone's name, or its id when it signs in again."""
    token, valid_until = new_token(), clock.written(clock.now() + timedelta(days=days))
    fresh = {"token_hash": hash_of(token), "valid_until": valid_until, "revoked_at": None}
    mine = (DEVICES.c.id == device) & (DEVICES.c.person_id == person.id)
    if connection.execute(update(DEVICES).where(mine).values(**fresh)).rowcount:
        return {"token": token, "device": device, "valid_until": valid_until}
    row = _row(device, person.id) | fresh
    connection.execute(insert(DEVICES), row)
    return {"token": token, "device": row["id"], "valid_until": valid_until}


def add_key(
    connection: Connection, name: str, scopes: list[str], sites: list[str] | None, days: int | None
) -> dict[str, Any]:
    """Make a key for other software; the token is shown this once."""
    unknown = [scope for scope in scopes if scope not in KEY_SCOPES]
    if unknown or not scopes:
        raise Refused("invalid_query", f"Scopes are {', '.join(KEY_SCOPES)}; got {', '.join(scopes) or 'none'}.")
    if not name.strip() or len(name) > 100:
        raise Refused("invalid_query", "The name must have 1 to 100 characters.")
    if days is not None and not 1 <= days <= LONGEST_DAYS:
        raise Refused("invalid_query", f"A key is good for 1 to {LONGEST_DAYS} days, or without an end.")
    if people.taken(connection, name):
        raise Refused("invalid_query", f"The name {name!r} is taken: names are for ever, entries carry them.")
    token = new_token()
    row = _row(name, None) | {"scopes": json.dumps(scopes), "token_hash": hash_of(token)}
    row["sites"] = None if sites is None else json.dumps(sites)
    row["valid_until"] = None if days is None else clock.written(clock.now() + timedelta(days=days))
    connection.execute(insert(DEVICES), row)
    return {"id": row["id"], "token": token, "name": name, "scopes": scopes, "valid_until": row["valid_until"]}


def key_named(connection: Connection, name: str) -> str:
    """Return the id of a key by its name."""
    found = connection.scalar(select(DEVICES.c.id).where(DEVICES.c.name == name, DEVICES.c.person_id.is_(None)))
    if found is None:
        raise Refused("not_found", f"There is no key {name!r} here.")
    return str(found)


def renew(connection: Connection, key_id: str, seen: Collection[str] | None = None) -> str:
    """Give a key that sees no more than the caller a new token, shown this once; the old one and a revocation end."""
    mine = (DEVICES.c.id == key_id) & DEVICES.c.person_id.is_(None)
    key = connection.execute(select(DEVICES.c.sites).where(mine)).first()
    if key is None or not (seen is None or (key.sites is not None and set(json.loads(key.sites)) <= set(seen))):
        raise Refused("not_found", f"There is no key {key_id} here.")
    token = new_token()
    connection.execute(update(DEVICES).where(mine).values(token_hash=hash_of(token), revoked_at=None))
    return token


def _row(name: str, person_id: str | None) -> dict[str, Any]:
    empty = dict.fromkeys(("scopes", "sites", "valid_until", "last_seen", "revoked_at", "scope"))
    return {**empty, "id": str(uuid4()), "name": name, "person_id": person_id, "created_at": clock.written(clock.now())}


def caller_of(connection: Connection, token: str) -> Caller:
    """Return who a token speaks for; refuse a token that is unknown, revoked or past its time."""
    device = connection.execute(select(DEVICES).where(DEVICES.c.token_hash == hash_of(token))).first()
    if device is None:
        raise Refused("no_credentials", "This token is not known here.")
    if device.revoked_at is not None:
        raise Refused("token_revoked", f"The sign-in of {device.name} was ended on {device.revoked_at}.")
    if device.valid_until is not None and device.valid_until <= clock.written(clock.now()):
        raise Refused("token_expired", f"The sign-in of {device.name} ended on {device.valid_until}.")
    return _of_key(device) if device.person_id is None else _of_person(connection, device)


def _of_key(device: Any) -> Caller:
    sites = None if device.sites is None else frozenset(json.loads(device.sites))
    return Caller(device.name, "key", device.id, device.name, None, sites, rights_of_key(json.loads(device.scopes)))


def _of_person(connection: Connection, device: Any) -> Caller:
    person = connection.execute(select(PEOPLE).where(PEOPLE.c.id == device.person_id)).one()
    if not person.active:
        raise Refused("token_revoked", f"{person.name} may sign in no more.")
    sites = people.sites_of(connection, person)
    return Caller(person.name, person.role, device.id, device.name, person.id, sites, ROLES[person.role])


class LastSeen:
    """Notes when devices spoke, each at most once in a while, so that reading writes next to nothing."""

    def __init__(self) -> None:
        self._noted: dict[str, float] = {}

    def is_due(self, device_id: str) -> bool:
        """Return whether a device spoke for the first time in a while, and take it as noted."""
        now = time.monotonic()
        due = now - self._noted.get(device_id, -math.inf) > NOTED_EVERY
        if due:
            self._noted[device_id] = now
        return due

    def note(self, database: Database, device_id: str) -> None:
        """Write it down; a database that is busy with more important things is let be."""
        try:
            with database.writing() as connection:
                scopes.seen(connection, device_id)
        except (Refused, OperationalError):
            self._noted.pop(device_id, None)


last_seen = LastSeen()


def revoke(connection: Connection, device_id: str) -> bool:
    """End a device's sign-in; return whether there was such a device."""
    mark = update(DEVICES).where(DEVICES.c.id == device_id, DEVICES.c.revoked_at.is_(None))
    found = connection.execute(mark.values(revoked_at=clock.written(clock.now()))).rowcount
    return bool(found) or connection.scalar(select(DEVICES.c.id).where(DEVICES.c.id == device_id)) is not None


def one(connection: Connection, device_id: str) -> Any:
    return connection.execute(select(DEVICES).where(DEVICES.c.id == device_id)).first()


def every(connection: Connection) -> list[dict[str, Any]]:
    """Return all devices and keys with their person's name and a key's limits, newest first, without token hashes."""
    asked = select(DEVICES, PEOPLE.c.name.label("person")).outerjoin(PEOPLE, PEOPLE.c.id == DEVICES.c.person_id)
    rows = connection.execute(asked.order_by(DEVICES.c.created_at.desc(), DEVICES.c.id)).all()
    shown = ("id", "name", "person", "created_at", "valid_until", "last_seen", "revoked_at")
    devices = []
    for row in rows:
        device = {name: getattr(row, name) for name in shown}
        for limit in ("scopes", "sites"):
            told = getattr(row, limit)
            device[limit] = json.loads(told) if told else None
        devices.append(device)
    return devices
