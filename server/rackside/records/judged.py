"""Tables of what the engine answered, and of photos that arrived."""

from sqlalchemy import BigInteger, Column, Index, Integer, Text, UniqueConstraint
from sqlmodel import Field, SQLModel


def _number() -> int:
    column = Column(BigInteger().with_variant(Integer, "sqlite"), primary_key=True, autoincrement=True)
    number: int = Field(default=None, sa_column=column)
    return number


class Judgement(SQLModel, table=True):
    """What the engine answered to the log of a call up to a cursor. Every one is kept."""

    __tablename__ = "judgements"
    __table_args__ = (UniqueConstraint("call_id", "upto", "digest"),)

    id: int = _number()
    call_id: str
    upto: int = Field(sa_type=BigInteger)
    digest: str
    judged_at: str
    asked_by: str | None
    result: str = Field(sa_type=Text)


class Verdict(SQLModel, table=True):
    """A call's judgement that counts: its last one."""

    __tablename__ = "verdicts"

    call_id: str = Field(primary_key=True)
    judgement_id: int = Field(sa_type=BigInteger)
    upto: int = Field(sa_type=BigInteger)
    meters: str = Field(sa_type=Text)
    verdict: str


class Finding(SQLModel, table=True):
    """A finding of the judgement that counts, kept for trends."""

    __tablename__ = "findings"
    __table_args__ = (
        Index("findings_by_machine", "machine_id", "check", "at"),
        Index("findings_by_machine_time", "machine_id", "at"),
        Index("findings_by_call", "call_id"),
    )

    key: int = _number()
    call_id: str
    machine_id: str
    round_id: str | None
    label: str
    at: str | None
    check: str
    value: float | None
    unit: str | None
    uncertainty: float | None
    verdict: str
    legs: str = Field(sa_type=Text)
    detail: str = Field(sa_type=Text)


class Comparison(SQLModel, table=True):
    """A phone's judgement beside the server's of the very same entries by the same engine."""

    __tablename__ = "comparisons"

    entry_id: str = Field(primary_key=True)
    digest: str = Field(primary_key=True)
    agrees: bool
    differences: str = Field(sa_type=Text)


class PhotoFile(SQLModel, table=True):
    """A photo that arrived whole; its bytes are in the photo store."""

    __tablename__ = "photo_files"

    sha256: str = Field(primary_key=True)
    media_type: str
    size: int
    received_at: str


class MachineMarks(SQLModel, table=True):
    """What a machine's trends are marked for, as last worked out; the row goes when anything under it changes."""

    __tablename__ = "machine_marks"

    machine_id: str = Field(primary_key=True)
    marks: str = Field(sa_type=Text)
