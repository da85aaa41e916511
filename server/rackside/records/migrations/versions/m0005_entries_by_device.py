"""Find what a device sent last without walking the log."""

from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    op.create_index("entries_by_device", "entries", ["device", "cursor"])
