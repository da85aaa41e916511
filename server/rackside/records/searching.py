"""Every word of every text in the log, and the calls, machines and sites whose entries hold it."""

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from typing import Any

from sqlalchemy import ColumnElement, Connection, delete, func, select
from sqlalchemy.dialects import postgresql, sqlite

from rackside.records import log
from rackside.records.log import CALLS, Logged
from rackside.records.projected import Word
from rackside.records.rows import TABLES

WORDS = Word.__table__  # type: ignore[attr-defined]
MACHINES, SITES = TABLES["machine"], TABLES["site"]
LONGEST, MOST_TERMS = 40, 8
LAST = "\U0010ffff"
TOKEN = re.compile(r"[^\W_]+")
# What only programs read: ids, times, checksums.
OPAQUE = re.compile(r"[0-9a-fA-F]{8}-[0-9a-fA-F-]{27}|[0-9a-f]{64}|\d{4}-\d\d-\d\dT\S+")
# A reading says little in words; a phone's judgement only repeats what others say.
SPOKEN = {"reading": ("not_taken", "by", "test_name"), "judgement": ()}
Json = dict[str, Any]


def tokens(text: str) -> list[str]:
    """Return the words of a text: lower case, without accents, each once."""
    plain = "".join(one for one in unicodedata.normalize("NFKD", text) if not unicodedata.combining(one))
    return list(dict.fromkeys(word[:LONGEST] for word in TOKEN.findall(plain.casefold())))


def texts_of(entry: Json) -> list[str]:
    """Return what an entry says in words."""
    members = SPOKEN.get(entry["kind"])
    body = entry["body"] if members is None else {name: entry["body"].get(name) for name in members}
    return [text for text in _strings(body) if not OPAQUE.fullmatch(text)]


def _strings(value: Any) -> Iterator[str]:
    """Yield every text inside, however deep; an entry's size bounds how deep that is."""
    waiting = [value]
    while waiting:
        one = waiting.pop()
        if isinstance(one, str):
            yield one
        elif isinstance(one, dict):
            waiting.extend(reversed(list(one.values())))
        elif isinstance(one, list):
            waiting.extend(reversed(one))


def note(connection: Connection, new: Iterable[Logged]) -> None:
    """Keep the words of entries that came."""
    rows: dict[tuple[str, str], int] = {}
    for logged in new:
        texts = texts_of(logged.entry)
        thing = logged.entry["call"] or logged.thing_id
        for word in tokens(" ".join([*texts, logged.entry["author"]])) if texts else ():
            rows[word, thing] = logged.cursor
    if rows:
        dialect = postgresql if connection.dialect.name == "postgresql" else sqlite
        listed = [{"word": word, "thing_id": thing, "cursor": cursor} for (word, thing), cursor in rows.items()]
        connection.execute(dialect.insert(WORDS).on_conflict_do_nothing(), listed)


def rebuild(connection: Connection) -> None:
    """Collect the words anew from the whole log."""
    connection.execute(delete(WORDS))
    for part in log.whole(connection):
        note(connection, part)


def find(
    connection: Connection, asked: str, sites: Collection[str] | None, limit: int, before: int | None
) -> list[Any]:
    """Return things that hold every word asked for, latest mentioned first; a word may be the beginning of one.

    Rows have `thing_id`, `cursor` and `kind` (call, machine or site).
    """
    terms = sorted(tokens(asked)[:MOST_TERMS], key=lambda term: _count(connection, term))
    if not terms:
        return []
    newest = select(WORDS.c.thing_id, func.max(WORDS.c.cursor).label("cursor")).where(_begins(WORDS, terms[0]))
    for number, term in enumerate(terms[1:]):
        other = WORDS.alias(f"other_{number}")
        newest = newest.where(select(1).where(other.c.thing_id == WORDS.c.thing_id, _begins(other, term)).exists())
    found = newest.group_by(WORDS.c.thing_id).subquery()
    rows = (
        select(found.c.thing_id, found.c.cursor, CALLS.c.id.label("call"), MACHINES.c.id.label("machine"))
        .outerjoin(CALLS, CALLS.c.id == found.c.thing_id)
        .outerjoin(MACHINES, MACHINES.c.id == found.c.thing_id)
        .outerjoin(SITES, SITES.c.id == found.c.thing_id)
        .where(func.coalesce(CALLS.c.id, MACHINES.c.id, SITES.c.id).is_not(None))
    )
    if sites is not None:
        rows = rows.where(func.coalesce(CALLS.c.site_id, MACHINES.c.site_id, SITES.c.id).in_(list(sites)))
    if before is not None:
        rows = rows.where(found.c.cursor < before)
    return list(connection.execute(rows.order_by(found.c.cursor.desc(), found.c.thing_id).limit(limit)))


def _begins(words: Any, term: str) -> ColumnElement[bool]:
    held: ColumnElement[bool] = (words.c.word >= term) & (words.c.word < term + LAST)
    return held


def _count(connection: Connection, term: str) -> int:
    """Return how common a word is, as far as it matters."""
    held = select(1).select_from(WORDS).where(_begins(WORDS, term)).limit(1000).subquery()
    return connection.scalar(select(func.count()).select_from(held)) or 0
