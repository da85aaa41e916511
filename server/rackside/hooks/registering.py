"""Somebody asks to be told: what they ask for is checked here, wherever they ask."""

from collections.abc import Collection
from typing import Any, NamedTuple

from sqlalchemy import Connection

from rackside.hooks.addresses import url_fault
from rackside.records import Refused, webhooks
from rackside.records.outbox import EVENTS


class Wanted(NamedTuple):
    """An address, the events it wants, and of which sites; None means all that the asker sees."""

    url: str
    events: list[str]
    sites: list[str] | None = None
    note: str | None = None


def register(
    connection: Connection, wanted: Wanted, by: str, seen: Collection[str] | None, private: bool
) -> dict[str, Any]:
    """Remember an address; the answer holds the secret, shown this once."""
    if fault := url_fault(wanted.url, private):
        raise _wrong("/url", fault)
    unknown = [event for event in wanted.events if event not in EVENTS]
    if unknown or not wanted.events:
        raise _wrong("/events", f"Events are {', '.join(EVENTS)}; got {', '.join(unknown) or 'none'}.")
    sites = _allowed(wanted.sites, seen)
    return webhooks.add(connection, wanted.url, wanted.events, sites, wanted.note, by)


def _allowed(asked: list[str] | None, seen: Collection[str] | None) -> list[str] | None:
    if asked is None:
        return None if seen is None else sorted(seen)
    foreign = [site for site in asked if seen is not None and site not in seen]
    if foreign:
        raise _wrong("/sites", f"{foreign[0]} is not a site of yours.")
    return asked


def _wrong(pointer: str, detail: str) -> Refused:
    return Refused("invalid_query", f"{pointer}: {detail}", errors=[{"pointer": pointer, "detail": detail}])
