"""Who is told of events, and the messages to them."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
PENDING = sa.text("state = 'pending'")


def upgrade() -> None:
    op.create_table(
        "webhooks",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("url", sa.String(), nullable=False),
        sa.Column("events", sa.String(), nullable=False),
        sa.Column("sites", sa.String(), nullable=True),
        sa.Column("secret", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.Column("created_at", sa.String(), nullable=False),
        sa.Column("created_by", sa.String(), nullable=False),
        sa.Column("ended_at", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "deliveries",
        sa.Column("number", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True, nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("webhook_id", sa.String(), nullable=False),
        sa.Column("event", sa.String(), nullable=False),
        sa.Column("call_id", sa.String(), nullable=True),
        sa.Column("cause", sa.String(), nullable=False),
        sa.Column("payload", sa.Text(), nullable=False),
        sa.Column("created_at", sa.String(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("next_at", sa.String(), nullable=False),
        sa.Column("log", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["webhook_id"], ["webhooks.id"]),
        sa.PrimaryKeyConstraint("number"),
        sa.UniqueConstraint("id"),
        sa.UniqueConstraint("webhook_id", "cause"),
    )
    op.create_index("deliveries_by_webhook", "deliveries", ["webhook_id", "number"])
    op.create_index("deliveries_due", "deliveries", ["next_at"], sqlite_where=PENDING, postgresql_where=PENDING)
