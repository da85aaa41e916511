"""Somebody asks to be told: what they ask for is checked here, wherever they ask."""

from collections.abc import Collection
from typing import Any, NamedTuple

from sqlalchemy import Connection

from rackside.hooks.addresses import url_fault
from rackside.records import Refused, machines, webhooks
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
    sites = _allowed(connection, wanted.sites, seen)
    return webhooks.add(connection, wanted.url, wanted.events, sites, wanted.note, by)


def _allowed(connection: Connection, asked: list[str] | None, seen: Collection[str] | None) -> list[str] | None:
    if asked is None:
        return None if seen is None else sorted(seen)
    known = {site["id"] for site in machines.sites(connection, seen)}
    for number, site in enumerate(asked):
        if site not in known:
            raise _wrong(f"/sites/{number}", f"There is no site {site} that you see.")
    return asked


def _wrong(pointer: str, detail: str) -> Refused:
    return Refused("invalid_query", f"{pointer}: {detail}", errors=[{"pointer": pointer, "detail": detail}])
