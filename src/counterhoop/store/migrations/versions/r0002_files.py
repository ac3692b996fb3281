"""Photographs and sounds: what is kept beside the database, and in which folder it lies."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT, WHOLE

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "kept_file",
        sa.Column("sha256", TEXT, primary_key=True),
        sa.Column("size", WHOLE, nullable=False),
        sa.Column("media_type", TEXT, nullable=False),
        sa.CheckConstraint("size >= 0", name="size"),
        sa.CheckConstraint("length(sha256) = 64", name="sha256"),
        sqlite_strict=True,
    )
    op.create_table(
        "enclosure",
        sa.Column("id", TEXT, primary_key=True),
        sa.Column("job_id", TEXT, sa.ForeignKey("job.id"), nullable=False),
        sa.Column("drum", TEXT, nullable=False),
        sa.Column("sha256", TEXT, sa.ForeignKey("kept_file.sha256"), nullable=False),
        sa.Column("name_given", TEXT, nullable=False),
        sa.Column("position_removed", WHOLE, nullable=False),
        sa.Column("added_at", TEXT, nullable=False),
        sa.Column("bench", TEXT, nullable=False),
        sa.CheckConstraint("position_removed IN (0, 1)", name="position_removed"),
        sqlite_strict=True,
    )
    op.create_index("ix_enclosure_of_job", "enclosure", ["job_id"])


def downgrade() -> None:
    """Take the tables away; the files themselves stay where they are."""
    op.execute("DELETE FROM hiding WHERE thing = 'enclosure'")
    op.drop_table("enclosure")
    op.drop_table("kept_file")
