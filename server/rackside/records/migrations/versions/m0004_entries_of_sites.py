"""Find what belongs to a site itself without walking the log: a phone with few sites pulls little from a long one."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
NO_CALL = sa.text("call_id IS NULL")


def upgrade() -> None:
    columns = ["site_id", "cursor"]
    op.create_index("entries_of_sites", "entries", columns, sqlite_where=NO_CALL, postgresql_where=NO_CALL)
