"""Pages of a list by (changed, id), newest first: a page costs the same however deep it is."""

from typing import Any, NamedTuple

from sqlalchemy import Connection, Select, Table, literal, tuple_

from rackside.records import clock
from rackside.records.refused import Refused


class Listed(NamedTuple):
    rows: list[Any]
    next: str | None


def listed(
    connection: Connection, asked: Select[Any], table: Table, limit: int, after: str | None, since: str | None
) -> Listed:
    """Return one page: rows changed after `since`, from where the page before ended."""
    if since:
        asked = asked.where(_since(table, since))
    if after:
        asked = asked.where(tuple_(table.c.changed, table.c.id) < tuple_(*map(literal, _place(after))))
    rows = connection.execute(asked.order_by(table.c.changed.desc(), table.c.id.desc()).limit(limit + 1)).all()
    more = len(rows) > limit
    rows = rows[:limit]
    return Listed(list(rows), f"{rows[-1].changed}~{rows[-1].id}" if more else None)


def _since(table: Table, since: str) -> Any:
    """A cursor of the log, or a time."""
    if since.isdecimal():
        return table.c.changed > int(since)
    moment = clock.sortable(since)
    if moment is None:
        raise Refused(
            "invalid_query",
            "`since` is a cursor of the log or a time with offset.",
            errors=[{"pointer": "/since", "detail": f"{since!r} is neither."}],
        )
    return table.c.changed_at > moment


def _place(after: str) -> tuple[int, str]:
    changed, _, entry_id = after.partition("~")
    if not changed.isdecimal() or not entry_id or len(changed) > 18:
        told = "`next` is the value of an earlier answer, unchanged."
        raise Refused("invalid_query", told, errors=[{"pointer": "/next", "detail": told}])
    return int(changed), entry_id
