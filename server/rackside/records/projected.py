"""Typed tables for questions: all of it can be rebuilt from the log."""

from sqlalchemy import BigInteger, Column, Index, String, Text, text
from sqlmodel import Field, SQLModel

CALL_FILTERS = ("site_id", "machine_id", "assigned_to", "complaint", "cause")
# Written out in questions too: only then do they find its index.
ADDITIONS = "point IN ('oil_added', 'refrigerant_added')"


def _changed() -> int:
    number: int = Field(sa_type=BigInteger)
    return number


def _where(condition: str, name: str, *columns: str) -> Index:
    """Index only the rows that meet a condition."""
    return Index(name, *columns, sqlite_where=text(condition), postgresql_where=text(condition))


class Site(SQLModel, table=True):
    __tablename__ = "sites"
    __table_args__ = (Index("sites_by_change", "changed", "id"),)

    id: str = Field(primary_key=True)
    name: str
    time_zone: str | None
    retracted: bool
    arrivals: int
    changed: int = _changed()
    changed_at: str
    body: str = Field(sa_type=Text)


class Machine(SQLModel, table=True):
    """A machine as its entries say now; `confirmed` once the office accepted it."""

    __tablename__ = "machines"
    __table_args__ = (Index("machines_by_change", "changed", "id"), Index("machines_by_site", "site_id", "rack", "tag"))

    id: str = Field(primary_key=True)
    site_id: str
    rack: str | None
    tag: str | None
    type: str | None
    refrigerant: str | None
    retired: bool
    retracted: bool
    same_as: str | None
    confirmed: bool
    changed: int = _changed()
    changed_at: str
    body: str = Field(sa_type=Text)


class Meter(SQLModel, table=True):
    __tablename__ = "meters"

    id: str = Field(primary_key=True)
    name: str | None
    kind: str | None
    serial: str | None
    retracted: bool
    changed: int = _changed()
    changed_at: str
    body: str = Field(sa_type=Text)


class Call(SQLModel, table=True):
    """A call; its state is `phase` and `watch_until` seen from now (states.py)."""

    __tablename__ = "calls"
    __table_args__ = (
        Index("calls_by_change", "changed", "id"),
        Index("calls_by_phase", "phase", "changed", "id"),
        Index("calls_by_machine", "machine_id", "opened_at"),
        Index("calls_by_opening", "opened_at"),
        *(Index(f"calls_listed_by_{column}", column, "changed", "id") for column in CALL_FILTERS),
        Index("calls_listed_by_both", "complaint", "cause", "changed", "id"),
        _where("watch_until IS NOT NULL", "calls_watched", "phase", "watch_until"),
        _where("watch_until IS NOT NULL", "calls_once_watched", "changed", "id"),
        _where("follows IS NOT NULL", "calls_by_follows", "follows"),
    )

    id: str = Field(primary_key=True)
    machine_id: str
    site_id: str
    complaint: str | None
    opened_at: str | None
    assigned_to: str | None
    follows: str | None
    author: str
    phase: str
    decision: str | None
    cause: str | None
    watch_until: str | None
    settled_at: str | None
    retracted: bool
    changed: int = _changed()
    changed_at: str
    body: str = Field(sa_type=Text)


class Round(SQLModel, table=True):
    __tablename__ = "rounds"
    __table_args__ = (Index("rounds_by_machine", "machine_id", "at"), Index("rounds_by_call", "call_id"))

    id: str = Field(primary_key=True)
    call_id: str
    machine_id: str
    label: str
    at: str | None
    cursor: int = Field(sa_type=BigInteger)
    body: str = Field(sa_type=Text)


class Reading(SQLModel, table=True):
    """A reading by the cursor of its first entry: readings come by the million, and in this order."""

    __tablename__ = "readings"
    __table_args__ = (
        Index("readings_by_round", "round_id", "cursor"),
        _where(ADDITIONS, "readings_of_additions", "point", "call_id"),
    )

    cursor: int = Field(sa_column=Column(BigInteger, primary_key=True, autoincrement=False))
    id: str
    round_id: str
    call_id: str
    point: str
    at: str | None
    body: str = Field(sa_type=Text)


class Photo(SQLModel, table=True):
    """A photo as announced by an entry; the file may still be on the phone."""

    __tablename__ = "photos"
    __table_args__ = (Index("photos_by_call", "call_id"), Index("photos_by_sha", "sha256"))

    id: str = Field(primary_key=True)
    call_id: str | None
    site_id: str | None
    sha256: str
    media_type: str
    size: int | None = Field(sa_type=BigInteger)
    shows: str | None
    of: str | None
    caption: str | None
    taken_at: str | None


class Word(SQLModel, table=True):
    """A word some entry of a thing holds: of a call, or of a site, machine or meter itself."""

    __tablename__ = "words"
    __table_args__ = (Index("words_by_age", "word", "cursor", "thing_id"),)

    thing_id: str = Field(primary_key=True)
    word: str = Field(sa_type=String().with_variant(String(collation="C"), "postgresql"), primary_key=True)  # type: ignore[call-overload]
    cursor: int = Field(sa_type=BigInteger)


PROJECTED = (Site, Machine, Meter, Call, Round, Reading, Photo)
