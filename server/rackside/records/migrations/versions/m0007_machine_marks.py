"""What each machine's trends are marked for, so that a fleet of any size is ranked at once."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    op.create_table(
        "machine_marks",
        sa.Column("machine_id", sa.String(), nullable=False),
        sa.Column("marks", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("machine_id"),
    )
