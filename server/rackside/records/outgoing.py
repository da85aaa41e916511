"""Tables of what goes out: who asked to be told, and every message with what became of it."""

from sqlalchemy import BigInteger, Column, Index, Integer, Text, UniqueConstraint, text
from sqlmodel import Field, SQLModel

PENDING = text("state = 'pending'")


class Webhook(SQLModel, table=True):
    """An address that is told of events. The secret signs what is sent there; it can't be a hash.

    After a change of secret the old one signs beside it until `old_until`.
    """

    __tablename__ = "webhooks"

    id: str = Field(primary_key=True)
    url: str
    events: str
    sites: str | None
    secret: str
    note: str | None
    created_at: str
    created_by: str
    ended_at: str | None
    paused_at: str | None = None
    old_secret: str | None = None
    old_until: str | None = None


class Delivery(SQLModel, table=True):
    """A message to one address. `cause` makes it the only one of its kind; `log` lists every attempt."""

    __tablename__ = "deliveries"
    __table_args__ = (
        UniqueConstraint("webhook_id", "cause"),
        Index("deliveries_by_webhook", "webhook_id", "number"),
        Index("deliveries_due", "next_at", sqlite_where=PENDING, postgresql_where=PENDING),
    )

    number: int = Field(
        default=None,
        sa_column=Column(BigInteger().with_variant(Integer, "sqlite"), primary_key=True, autoincrement=True),
    )
    id: str = Field(unique=True)
    webhook_id: str = Field(foreign_key="webhooks.id")
    event: str
    call_id: str | None
    cause: str
    payload: str = Field(sa_type=Text)
    created_at: str
    state: str
    attempts: int
    next_at: str
    log: str = Field(sa_type=Text)
