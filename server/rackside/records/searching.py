"""Every word of every text in the log, and the calls, machines and sites whose entries hold it."""

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, delete, func, literal, select
from sqlalchemy.dialects import postgresql, sqlite

from rackside.records import log
from rackside.records.log import CALLS, Logged
from rackside.records.projected import Word
from rackside.records.rows import TABLES

WORDS = Word.__table__  # type: ignore[attr-defined]
MACHINES, SITES = TABLES["machine"], TABLES["site"]
LONGEST, MOST_TERMS = 40, 8
# So many things hold a common word that none is looked for that only begins like it.
COMMON = 1000
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
    members, body = SPOKEN.get(entry["kind"]), entry["body"]
    if members is not None:
        body = {name: body[name] for name in members if name in body}
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
    connection: Connection, asked: str, sites: Collection[str] | None = None, limit: int = 20, before: int | None = None
) -> list[Any]:
    """Return things that hold every word asked for, latest mentioned first.

    A word may be the beginning of one, unless it is itself so common that looking further would say nothing. Rows have
    `thing_id`, `cursor`, and the id under `call`, `machine` or neither, when it is a site.
    """
    counted = sorted((_count(connection, term), term) for term in tokens(asked)[:MOST_TERMS])
    if not counted:
        return []
    (count, rarest), *others = counted
    held = _words(rarest, count, before).where(*(_also(number, term) for number, (_, term) in enumerate(others)))
    found = held.subquery()
    rows = (
        select(found.c.thing_id, found.c.cursor, CALLS.c.id.label("call"), MACHINES.c.id.label("machine"))
        .outerjoin(CALLS, CALLS.c.id == found.c.thing_id)
        .outerjoin(MACHINES, MACHINES.c.id == found.c.thing_id)
        .outerjoin(SITES, SITES.c.id == found.c.thing_id)
        .where(func.coalesce(CALLS.c.id, MACHINES.c.id, SITES.c.id).is_not(None))
    )
    if sites is not None:
        rows = rows.where(func.coalesce(CALLS.c.site_id, MACHINES.c.site_id, SITES.c.id).in_(list(sites)))
    return list(connection.execute(rows.order_by(found.c.cursor.desc(), found.c.thing_id).limit(limit)))


def _words(term: str, count: int, before: int | None) -> Select[Any]:
    """Return what holds a word: a common one walked from the latest on, a rare one as the beginning of any."""
    earlier = [WORDS.c.cursor < before] if before is not None else []
    if count >= COMMON:
        return select(WORDS.c.thing_id, WORDS.c.cursor).where(WORDS.c.word == term, *earlier)
    newest = func.max(WORDS.c.cursor)
    grouped = select(WORDS.c.thing_id, newest.label("cursor")).where(_begins(WORDS, term)).group_by(WORDS.c.thing_id)
    return grouped.having(newest < before) if before is not None else grouped


def _also(number: int, term: str) -> ColumnElement[bool]:
    other = WORDS.alias(f"other_{number}")
    return select(literal(1)).where(other.c.thing_id == WORDS.c.thing_id, _begins(other, term)).exists()


def _begins(words: Any, term: str) -> ColumnElement[bool]:
    held: ColumnElement[bool] = (words.c.word >= term) & (words.c.word < term + LAST)
    return held


def _count(connection: Connection, term: str) -> int:
    """Return how many things hold a word or one that begins so, counted no further than COMMON."""
    held = select(literal(1)).select_from(WORDS).where(_begins(WORDS, term)).limit(COMMON).subquery()
    return connection.scalar(select(func.count()).select_from(held)) or 0
