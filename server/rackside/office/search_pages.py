"""Search over every text of the log."""

from typing import Annotated, Any

from fastapi import Query, Request, Response
from sqlalchemy import Connection

from rackside.access.caller import Caller
from rackside.office.pages import SignedIn, Store, page, routes
from rackside.records import calls, clock, log, machines, searching

router = routes()
Json = dict[str, Any]
SHOWN, LINES, LONGEST = 20, 3, 240


@router.get("/search")
def search(
    request: Request,
    database: Store,
    caller: SignedIn,
    q: Annotated[str, Query(max_length=200)] = "",
    before: Annotated[int | None, Query(ge=0, le=2**53)] = None,
) -> Response:
    with database.reading() as connection:
        rows = searching.find(connection, q, caller.sites, SHOWN + 1, before)
        found = [_hit(connection, caller, row, searching.tokens(q)) for row in rows[:SHOWN]]
    after = rows[SHOWN - 1].cursor if len(rows) > SHOWN else None
    return page(request, "search.html", caller=caller, asked=q, hits=found, after=after)


def _hit(connection: Connection, caller: Caller, row: Any, terms: list[str]) -> Json:
    """Return where a hit leads, what it is, and the sentences that hold the words."""
    entries = log.of_call(connection, row.thing_id) if row.call else log.of_thing(connection, row.thing_id)
    told = {"lines": _lines(entries, terms), "kind": "call" if row.call else "machine" if row.machine else "site"}
    if row.call:
        return told | {"call": calls.listed_one(connection, row.thing_id, clock.now())}
    if row.machine:
        return told | {"machine": machines.one(connection, row.thing_id, caller.sites, rounds=0)}
    return told | {"site": machines.site(connection, row.thing_id, caller.sites)}


def _lines(entries: list[Json], terms: list[str]) -> list[str]:
    texts = [text for entry in entries for text in searching.texts_of(entry)]
    holding = [text for text in dict.fromkeys(texts) if _holds(text, terms)]
    sentences = [text for text in holding if " " in text]
    told = sentences or [text.replace("_", " ") for text in holding]
    return [text if len(text) <= LONGEST else text[: LONGEST - 1] + "…" for text in told[:LINES]]


def _holds(text: str, terms: list[str]) -> bool:
    return any(word.startswith(term) for word in searching.tokens(text) for term in terms)
