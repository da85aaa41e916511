"""What is kept for itself: the log, the people and their devices."""

from sqlalchemy import BigInteger, Column, Index, Text, text
from sqlmodel import Field, SQLModel

NO_CALL = text("call_id IS NULL")


def _few(column: str) -> Index:
    """Index a column that most entries leave empty: only those that have it."""
    filled = text(f"{column} IS NOT NULL")
    return Index(f"entries_by_{column}", column, sqlite_where=filled, postgresql_where=filled)


class Entry(SQLModel, table=True):
    """One entry of the log. `document` is the entry as it is answered; the columns are keys to find it by.

    corrects: the first entry of the thing this one corrects. about_id: what a retraction or review is about.
    """

    __tablename__ = "entries"
    __table_args__ = (
        Index("entries_by_call", "call_id", "cursor"),
        Index("entries_by_device", "device", "cursor"),
        _few("corrects"),
        _few("about_id"),
        Index("entries_of_sites", "site_id", "cursor", sqlite_where=NO_CALL, postgresql_where=NO_CALL),
    )

    cursor: int = Field(sa_column=Column(BigInteger, primary_key=True, autoincrement=False))
    id: str = Field(unique=True)
    kind: str
    call_id: str | None
    corrects: str | None
    about_id: str | None
    site_id: str | None
    author: str
    device: str
    received_at: str
    content_hash: str
    document: str = Field(sa_type=Text)


class LogState(SQLModel, table=True):
    """One row: the last cursor given, the epoch, and the secret of the seals."""

    __tablename__ = "log_state"

    id: int = Field(primary_key=True)
    cursor: int = Field(sa_type=BigInteger)
    epoch: str
    secret: str


class Person(SQLModel, table=True):
    """Somebody who signs in. The name is for ever: entries carry it."""

    __tablename__ = "people"

    id: str = Field(primary_key=True)
    name: str = Field(unique=True)
    password_hash: str
    role: str
    all_sites: bool
    active: bool
    created_at: str


class PersonSite(SQLModel, table=True):
    __tablename__ = "person_sites"

    person_id: str = Field(primary_key=True, foreign_key="people.id")
    site_id: str = Field(primary_key=True)


class Device(SQLModel, table=True):
    """A phone of a person, or a key of other software (then without a person, with scopes)."""

    __tablename__ = "devices"

    id: str = Field(primary_key=True)
    name: str
    person_id: str | None = Field(foreign_key="people.id", index=True)
    scopes: str | None
    sites: str | None
    token_hash: str = Field(unique=True)
    created_at: str
    valid_until: str | None
    last_seen: str | None
    revoked_at: str | None
    scope: str | None


class Session(SQLModel, table=True):
    """An office sign-in, by the hash of its cookie."""

    __tablename__ = "sessions"

    token_hash: str = Field(primary_key=True)
    person_id: str = Field(foreign_key="people.id")
    valid_until: str
