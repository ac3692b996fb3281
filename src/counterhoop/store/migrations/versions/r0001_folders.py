"""Job folders, documents with all their revisions, corrections, and what is hidden."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import BYTES, TEXT, WHOLE

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "job",
        sa.Column("id", TEXT, primary_key=True),
        sa.Column("opened_at", TEXT, nullable=False),
        sa.Column("opened_by", TEXT, nullable=False),
        sqlite_strict=True,
    )
    op.create_table(
        "drum",
        sa.Column("job_id", TEXT, sa.ForeignKey("job.id"), primary_key=True),
        sa.Column("name", TEXT, primary_key=True),
        sa.Column("place", WHOLE, nullable=False),
        sa.Column("diameter_nm", WHOLE, nullable=False),
        sa.Column("diameter_written", TEXT, nullable=False),
        sa.Column("depth_nm", WHOLE, nullable=False),
        sa.Column("depth_written", TEXT, nullable=False),
        sa.CheckConstraint("diameter_nm > 0", name="diameter"),
        sa.CheckConstraint("depth_nm > 0", name="depth"),
        sqlite_strict=True,
    )
    op.create_table(
        "document",
        sa.Column("id", TEXT, primary_key=True),
        sa.Column("job_id", TEXT, sa.ForeignKey("job.id")),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("head", WHOLE, nullable=False),
        sa.Column("as_found", WHOLE),
        sa.CheckConstraint("head >= 0", name="head"),
        sa.CheckConstraint("as_found IS NULL OR as_found BETWEEN 1 AND head", name="as_found"),
        sqlite_strict=True,
    )
    op.create_index("ix_document_of_job", "document", ["job_id", "kind", "name"], unique=True)
    nobodys = sa.text("job_id IS NULL")
    op.create_index(
        "ix_document_of_workshop",
        "document",
        ["kind", "name"],
        unique=True,
        sqlite_where=nobodys,
        postgresql_where=nobodys,
    )
    op.create_table(
        "revision",
        sa.Column("document_id", TEXT, sa.ForeignKey("document.id"), primary_key=True),
        sa.Column("number", WHOLE, primary_key=True),
        sa.Column("made_at", TEXT, nullable=False),
        sa.Column("bench", TEXT, nullable=False),
        sa.Column("based_on", WHOLE, nullable=False),
        sa.Column("chosen_from", WHOLE),
        sa.Column("body", TEXT, nullable=False),
        sa.Column("original", BYTES),
        sa.Column("sha256", TEXT, nullable=False),
        sa.CheckConstraint("number >= 1", name="number"),
        sa.CheckConstraint("based_on >= 0 AND based_on < number", name="based_on"),
        sa.CheckConstraint("chosen_from IS NULL OR chosen_from < number", name="chosen_from"),
        sqlite_strict=True,
    )
    op.create_table(
        "correction",
        sa.Column("document_id", TEXT, primary_key=True),
        sa.Column("number", WHOLE, primary_key=True),
        sa.Column("pointer", TEXT, nullable=False),
        sa.Column("old", TEXT),
        sa.Column("new", TEXT),
        sa.Column("why", TEXT, nullable=False),
        sa.ForeignKeyConstraint(
            ["document_id", "number"],
            ["revision.document_id", "revision.number"],
            name="fk_correction_revision",
        ),
        sa.CheckConstraint("old IS NOT NULL OR new IS NOT NULL", name="says_something"),
        sqlite_strict=True,
    )
    op.create_table(
        "hiding",
        sa.Column("thing", TEXT, primary_key=True),
        sa.Column("thing_id", TEXT, primary_key=True),
        sa.Column("turn", WHOLE, primary_key=True),
        sa.Column("hidden_at", TEXT, nullable=False),
        sa.Column("hidden_by", TEXT, nullable=False),
        sa.Column("back_at", TEXT),
        sa.Column("back_by", TEXT),
        sa.CheckConstraint("thing IN ('job', 'document', 'enclosure')", name="thing"),
        sa.CheckConstraint("(back_at IS NULL) = (back_by IS NULL)", name="back"),
        sqlite_strict=True,
    )


def downgrade() -> None:
    """Take the tables away."""
    for table in ("hiding", "correction", "revision", "document", "drum", "job"):
        op.drop_table(table)
