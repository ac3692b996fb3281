"""The shelf: pieces, what they said before, how they moved, and what a search looks through."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT, WHOLE

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the tables."""
    numbered = sa.text("number <> ''")
    op.create_table(
        "piece",
        sa.Column("entry", WHOLE, primary_key=True, autoincrement=False),
        sa.Column("id", TEXT, nullable=False),
        sa.Column("number", TEXT, nullable=False),
        sa.Column("head", WHOLE, nullable=False),
        sa.Column("changed_at", TEXT, nullable=False),
        sa.Column("bench", TEXT, nullable=False),
        sa.Column("body", TEXT, nullable=False),
        sa.Column("sha256", TEXT, nullable=False),
        sa.CheckConstraint("entry >= 1", name="entry"),
        sa.CheckConstraint("head >= 1", name="head"),
        sqlite_strict=True,
    )
    op.create_index("ix_piece_id", "piece", ["id"], unique=True)
    op.create_index(
        "ix_piece_number",
        "piece",
        ["number"],
        unique=True,
        sqlite_where=numbered,
        postgresql_where=numbered,
    )
    op.create_table(
        "piece_before",
        *_keys("number"),
        sa.Column("made_at", TEXT, nullable=False),
        sa.Column("bench", TEXT, nullable=False),
        sa.Column("body", TEXT, nullable=False),
        sa.Column("sha256", TEXT, nullable=False),
        sa.CheckConstraint("number >= 1", name="number"),
        sqlite_strict=True,
    )
    _make_movements()
    _make_what_is_reckoned()


def _make_movements() -> None:
    for_a_job = sa.text("job <> ''")
    op.create_table(
        "movement",
        *_keys("number"),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("count", WHOLE, nullable=False),
        *(
            sa.Column(name, TEXT, nullable=False)
            for name in ("made_at", "bench", "job", "client", "corrects", "release", "why", "mark")
        ),
        sa.CheckConstraint("number >= 1", name="number"),
        sa.CheckConstraint("count >= 0", name="count"),
        sqlite_strict=True,
    )
    op.create_index(
        "ix_movement_of_job",
        "movement",
        ["job", "entry"],
        sqlite_where=for_a_job,
        postgresql_where=for_a_job,
    )


def _make_what_is_reckoned() -> None:
    op.create_table(
        "piece_stock",
        *_keys(),
        sa.Column("owner", TEXT, nullable=False),
        sa.Column("movements", WHOLE, nullable=False),
        sa.Column("on_shelf", WHOLE, nullable=False),
        sa.Column("free", WHOLE, nullable=False),
        sa.CheckConstraint("free >= 0 AND free <= on_shelf", name="free"),
        sqlite_strict=True,
    )
    op.create_table(
        "piece_measure",
        *_keys(),
        sa.Column("dimension", TEXT, primary_key=True),
        sa.Column("doubt_nm", WHOLE, nullable=False),
        sa.Column("value_nm", WHOLE, nullable=False),
        sa.CheckConstraint("doubt_nm >= 0", name="doubt"),
        sqlite_strict=True,
        sqlite_with_rowid=False,
    )
    op.create_index(
        "ix_piece_measure_value", "piece_measure", ["dimension", "doubt_nm", "value_nm", "entry"]
    )
    op.create_table(
        "word",
        sa.Column("id", WHOLE, primary_key=True, autoincrement=False),
        sa.Column("word", TEXT, nullable=False),
        sqlite_strict=True,
    )
    op.create_index("ix_word_word", "word", ["word"], unique=True)
    op.create_table(
        "piece_word",
        sa.Column(
            "word_id", WHOLE, sa.ForeignKey("word.id"), primary_key=True, autoincrement=False
        ),
        *_keys(),
        sqlite_strict=True,
        sqlite_with_rowid=False,
    )


def _keys(*more: str) -> list[sa.Column[int]]:
    entry = sa.Column(
        "entry", WHOLE, sa.ForeignKey("piece.entry"), primary_key=True, autoincrement=False
    )
    return [entry, *(sa.Column(n, WHOLE, primary_key=True, autoincrement=False) for n in more)]


def downgrade() -> None:
    """Take the tables away."""
    for table in (
        "piece_word", "word", "piece_measure", "piece_stock", "movement", "piece_before", "piece",
    ):  # fmt: skip
        op.drop_table(table)
