"""Beside each document, when it was last saved: the list of folders asks for it every time."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Add the column, fill it from the newest revisions, and sort it by folder."""
    op.add_column("document", sa.Column("changed_at", TEXT))
    op.execute(
        "UPDATE document SET changed_at = (SELECT made_at FROM revision"
        " WHERE revision.document_id = document.id AND revision.number = document.head)"
    )
    op.create_index("ix_document_changed", "document", ["job_id", "changed_at"])


def downgrade() -> None:
    """Take the column away; the revisions still say it."""
    op.drop_index("ix_document_changed", "document")
    op.drop_column("document", "changed_at")
