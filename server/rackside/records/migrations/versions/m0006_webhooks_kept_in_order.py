"""A webhook may be paused, and its secret replaced while the one before still signs."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
COLUMNS = ("paused_at", "old_secret", "old_until")


def upgrade() -> None:
    for name in COLUMNS:
        op.add_column("webhooks", sa.Column(name, sa.String(), nullable=True))
