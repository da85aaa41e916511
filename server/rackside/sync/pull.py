"""Give a phone what it should hold, oldest first."""

from hashlib import sha256
from typing import NamedTuple

from sqlalchemy import Connection, select

from rackside.records import Database, Refused, log, scopes
from rackside.records.caller import Caller
from rackside.records.projected import Call, Site
from rackside.records.tables import LogState

SITES = Site.__table__  # type: ignore[attr-defined]
CALLS = Call.__table__  # type: ignore[attr-defined]


class Pulled(NamedTuple):
    page: log.Page
    scope: str
    epoch: str


def scope_of(connection: Connection, sites: frozenset[str] | None) -> str:
    """Return the name of a scope: another one means that entries left or joined it."""
    if sites is None:
        return "all"
    asked = select(SITES.c.id, SITES.c.arrivals).where(SITES.c.id.in_(list(sites))).order_by(SITES.c.id)
    told = [f"{row.id}:{row.arrivals}" for row in connection.execute(asked)]
    return sha256(" ".join([*sorted(sites), *told]).encode()).hexdigest()[:16]


def pull(database: Database, caller: Caller, after: int, limit: int, scope: str | None, epoch: str | None) -> Pulled:
    """Return one page of the caller's log after a cursor.

    The caller may say which scope it holds; otherwise the scope it was told at its last pull from the beginning counts.
    """
    with database.reading() as connection:
        state = log.state(connection)
        _check_epoch(state, after, epoch)
        now = scope_of(connection, caller.sites)
        held = scope or scopes.scope_told(connection, caller.device_id)
        if after and held is not None and held != now:
            raise Refused("scope_changed", "The sites this device may see have changed.", scope=now, epoch=state.epoch)
        page = log.page(connection, caller.sites, after, limit)
    if not after and held != now:
        with database.writing() as connection:
            scopes.tell_scope(connection, caller.device_id, now)
    return Pulled(page, now, state.epoch)


def _check_epoch(state: LogState, after: int, epoch: str | None) -> None:
    if epoch is not None and epoch != state.epoch:
        raise Refused("epoch_changed", f"The server's log is now {state.epoch}.", epoch=state.epoch)
    if after > state.cursor:
        told = f"The server's log ends at {state.cursor}, before {after}: it is another log than the one you hold."
        raise Refused("epoch_changed", told, epoch=state.epoch)


def pull_call(database: Database, caller: Caller, call_id: str, after: int, limit: int) -> Pulled:
    """Return the entries of one call the caller may see."""
    with database.reading() as connection:
        site_id = connection.scalar(select(CALLS.c.site_id).where(CALLS.c.id == call_id))
        if site_id is None or not caller.sees(site_id):
            raise Refused("not_found", f"There is no call {call_id} here.")
        page = log.page_of_call(connection, call_id, after, limit)
        return Pulled(page, scope_of(connection, caller.sites), log.state(connection).epoch)
