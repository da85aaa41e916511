"""What the office asks of a long history: indexes for its lists and trends, and the words of every text."""

import sqlalchemy as sa
from alembic import op

from rackside.records import searching

revision = "0002"
down_revision = "0001"
ADDED = sa.text("point IN ('oil_added', 'refrigerant_added')")


def upgrade() -> None:
    for column in ("site_id", "machine_id", "assigned_to", "complaint", "cause"):
        op.create_index(f"calls_listed_by_{column}", "calls", [column, "changed", "id"])
    op.create_index("calls_listed_by_both", "calls", ["complaint", "cause", "changed", "id"])
    _partial("calls_watched", "calls", ["phase", "watch_until"], sa.text("watch_until IS NOT NULL"))
    _partial("calls_once_watched", "calls", ["changed", "id"], sa.text("watch_until IS NOT NULL"))
    _partial("calls_by_follows", "calls", ["follows"], sa.text("follows IS NOT NULL"))
    _partial("readings_of_additions", "readings", ["point", "call_id"], ADDED)
    op.create_index("calls_by_opening", "calls", ["opened_at"])
    op.create_index("findings_by_machine_time", "findings", ["machine_id", "at"])
    op.drop_index("calls_by_site", "calls")
    op.create_table(
        "words",
        sa.Column("thing_id", sa.String(), nullable=False),
        sa.Column("word", sa.String().with_variant(sa.String(collation="C"), "postgresql"), nullable=False),
        sa.Column("cursor", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("thing_id", "word"),
    )
    op.create_index("words_by_age", "words", ["word", "cursor", "thing_id"])
    searching.rebuild(op.get_bind())


def _partial(name: str, table: str, columns: list[str], where: sa.TextClause) -> None:
    op.create_index(name, table, columns, sqlite_where=where, postgresql_where=where)
