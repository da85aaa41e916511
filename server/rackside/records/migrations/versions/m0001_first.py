"""The first tables: the log, its typed tables, people and devices, judgements, photos."""

import secrets
import uuid

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "calls",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("machine_id", sa.String(), nullable=False),
        sa.Column("site_id", sa.String(), nullable=False),
        sa.Column("complaint", sa.String(), nullable=True),
        sa.Column("opened_at", sa.String(), nullable=True),
        sa.Column("assigned_to", sa.String(), nullable=True),
        sa.Column("follows", sa.String(), nullable=True),
        sa.Column("author", sa.String(), nullable=False),
        sa.Column("phase", sa.String(), nullable=False),
        sa.Column("decision", sa.String(), nullable=True),
        sa.Column("cause", sa.String(), nullable=True),
        sa.Column("watch_until", sa.String(), nullable=True),
        sa.Column("settled_at", sa.String(), nullable=True),
        sa.Column("retracted", sa.Boolean(), nullable=False),
        sa.Column("changed", sa.BigInteger(), nullable=False),
        sa.Column("changed_at", sa.String(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("calls_by_change", "calls", ["changed", "id"], unique=False)
    op.create_index("calls_by_machine", "calls", ["machine_id", "opened_at"], unique=False)
    op.create_index("calls_by_phase", "calls", ["phase", "changed", "id"], unique=False)
    op.create_index("calls_by_site", "calls", ["site_id", "changed"], unique=False)
    op.create_table(
        "comparisons",
        sa.Column("entry_id", sa.String(), nullable=False),
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("agrees", sa.Boolean(), nullable=False),
        sa.Column("differences", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("entry_id", "digest"),
    )
    op.create_table(
        "entries",
        sa.Column("cursor", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("call_id", sa.String(), nullable=True),
        sa.Column("corrects", sa.String(), nullable=True),
        sa.Column("about_id", sa.String(), nullable=True),
        sa.Column("site_id", sa.String(), nullable=True),
        sa.Column("author", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("received_at", sa.String(), nullable=False),
        sa.Column("content_hash", sa.String(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("cursor"),
        sa.UniqueConstraint("id"),
    )
    op.create_index(
        "entries_by_about_id",
        "entries",
        ["about_id"],
        unique=False,
        sqlite_where=sa.text("about_id IS NOT NULL"),
        postgresql_where=sa.text("about_id IS NOT NULL"),
    )
    op.create_index("entries_by_call", "entries", ["call_id", "cursor"], unique=False)
    op.create_index(
        "entries_by_corrects",
        "entries",
        ["corrects"],
        unique=False,
        sqlite_where=sa.text("corrects IS NOT NULL"),
        postgresql_where=sa.text("corrects IS NOT NULL"),
    )
    op.create_table(
        "findings",
        sa.Column("key", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True, nullable=False),
        sa.Column("call_id", sa.String(), nullable=False),
        sa.Column("machine_id", sa.String(), nullable=False),
        sa.Column("round_id", sa.String(), nullable=True),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("at", sa.String(), nullable=True),
        sa.Column("check", sa.String(), nullable=False),
        sa.Column("value", sa.Float(), nullable=True),
        sa.Column("unit", sa.String(), nullable=True),
        sa.Column("uncertainty", sa.Float(), nullable=True),
        sa.Column("verdict", sa.String(), nullable=False),
        sa.Column("legs", sa.Text(), nullable=False),
        sa.Column("detail", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key"),
    )
    op.create_index("findings_by_call", "findings", ["call_id"], unique=False)
    op.create_index("findings_by_machine", "findings", ["machine_id", "check", "at"], unique=False)
    op.create_table(
        "judgements",
        sa.Column("id", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True, nullable=False),
        sa.Column("call_id", sa.String(), nullable=False),
        sa.Column("upto", sa.BigInteger(), nullable=False),
        sa.Column("digest", sa.String(), nullable=False),
        sa.Column("judged_at", sa.String(), nullable=False),
        sa.Column("asked_by", sa.String(), nullable=True),
        sa.Column("result", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("call_id", "upto", "digest"),
    )
    op.create_table(
        "log_state",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("cursor", sa.BigInteger(), nullable=False),
        sa.Column("epoch", sa.String(), nullable=False),
        sa.Column("secret", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "machines",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("site_id", sa.String(), nullable=False),
        sa.Column("rack", sa.String(), nullable=True),
        sa.Column("tag", sa.String(), nullable=True),
        sa.Column("type", sa.String(), nullable=True),
        sa.Column("refrigerant", sa.String(), nullable=True),
        sa.Column("retired", sa.Boolean(), nullable=False),
        sa.Column("retracted", sa.Boolean(), nullable=False),
        sa.Column("same_as", sa.String(), nullable=True),
        sa.Column("confirmed", sa.Boolean(), nullable=False),
        sa.Column("changed", sa.BigInteger(), nullable=False),
        sa.Column("changed_at", sa.String(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("machines_by_change", "machines", ["changed", "id"], unique=False)
    op.create_index("machines_by_site", "machines", ["site_id", "rack", "tag"], unique=False)
    op.create_table(
        "meters",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=True),
        sa.Column("kind", sa.String(), nullable=True),
        sa.Column("serial", sa.String(), nullable=True),
        sa.Column("retracted", sa.Boolean(), nullable=False),
        sa.Column("changed", sa.BigInteger(), nullable=False),
        sa.Column("changed_at", sa.String(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "people",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("password_hash", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("all_sites", sa.Boolean(), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("created_at", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("name"),
    )
    op.create_table(
        "photo_files",
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("media_type", sa.String(), nullable=False),
        sa.Column("size", sa.Integer(), nullable=False),
        sa.Column("received_at", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("sha256"),
    )
    op.create_table(
        "photos",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("call_id", sa.String(), nullable=True),
        sa.Column("site_id", sa.String(), nullable=True),
        sa.Column("sha256", sa.String(), nullable=False),
        sa.Column("media_type", sa.String(), nullable=False),
        sa.Column("size", sa.BigInteger(), nullable=True),
        sa.Column("shows", sa.String(), nullable=True),
        sa.Column("of", sa.String(), nullable=True),
        sa.Column("caption", sa.String(), nullable=True),
        sa.Column("taken_at", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("photos_by_call", "photos", ["call_id"], unique=False)
    op.create_index("photos_by_sha", "photos", ["sha256"], unique=False)
    op.create_table(
        "readings",
        sa.Column("cursor", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("round_id", sa.String(), nullable=False),
        sa.Column("call_id", sa.String(), nullable=False),
        sa.Column("point", sa.String(), nullable=False),
        sa.Column("at", sa.String(), nullable=True),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("cursor"),
    )
    op.create_index("readings_by_round", "readings", ["round_id", "cursor"], unique=False)
    op.create_table(
        "rounds",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("call_id", sa.String(), nullable=False),
        sa.Column("machine_id", sa.String(), nullable=False),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("at", sa.String(), nullable=True),
        sa.Column("cursor", sa.BigInteger(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("rounds_by_call", "rounds", ["call_id"], unique=False)
    op.create_index("rounds_by_machine", "rounds", ["machine_id", "at"], unique=False)
    op.create_table(
        "sites",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("time_zone", sa.String(), nullable=True),
        sa.Column("retracted", sa.Boolean(), nullable=False),
        sa.Column("arrivals", sa.Integer(), nullable=False),
        sa.Column("changed", sa.BigInteger(), nullable=False),
        sa.Column("changed_at", sa.String(), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_index("sites_by_change", "sites", ["changed", "id"], unique=False)
    op.create_table(
        "verdicts",
        sa.Column("call_id", sa.String(), nullable=False),
        sa.Column("judgement_id", sa.BigInteger(), nullable=False),
        sa.Column("upto", sa.BigInteger(), nullable=False),
        sa.Column("meters", sa.Text(), nullable=False),
        sa.Column("verdict", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("call_id"),
    )
    op.create_table(
        "devices",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=True),
        sa.Column("scopes", sa.String(), nullable=True),
        sa.Column("sites", sa.String(), nullable=True),
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("created_at", sa.String(), nullable=False),
        sa.Column("valid_until", sa.String(), nullable=True),
        sa.Column("last_seen", sa.String(), nullable=True),
        sa.Column("revoked_at", sa.String(), nullable=True),
        sa.Column("scope", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["people.id"],
        ),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("token_hash"),
    )
    op.create_index(op.f("ix_devices_person_id"), "devices", ["person_id"], unique=False)
    op.create_table(
        "person_sites",
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("site_id", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["people.id"],
        ),
        sa.PrimaryKeyConstraint("person_id", "site_id"),
    )
    op.create_table(
        "sessions",
        sa.Column("token_hash", sa.String(), nullable=False),
        sa.Column("person_id", sa.String(), nullable=False),
        sa.Column("valid_until", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"],
            ["people.id"],
        ),
        sa.PrimaryKeyConstraint("token_hash"),
    )
    state = sa.table("log_state", sa.column("id"), sa.column("cursor"), sa.column("epoch"), sa.column("secret"))
    first = {"id": 1, "cursor": 0, "epoch": str(uuid.uuid4()), "secret": secrets.token_hex(32)}
    op.bulk_insert(state, [first])
