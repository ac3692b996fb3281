"""Readings of one dimension lie together: a search of a large shelf looks up thousands of them."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT, WHOLE

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Sort them by dimension first."""
    _sort_by("dimension", "entry")


def downgrade() -> None:
    """Sort them by piece first."""
    _sort_by("entry", "dimension")


def _sort_by(*key: str) -> None:
    if op.get_bind().dialect.name != "sqlite":
        op.drop_constraint(op.f("pk_piece_measure"), "piece_measure")
        op.create_primary_key("pk_piece_measure", "piece_measure", list(key))
        return
    # SQLite keeps the rows of such a table in the order of its key: a new one takes them over.
    op.drop_index("ix_piece_measure_value", "piece_measure")
    op.rename_table("piece_measure", "piece_measure_before")
    columns: dict[str, sa.Column[int] | sa.Column[str]] = {
        "entry": sa.Column("entry", WHOLE, sa.ForeignKey("piece.entry"), autoincrement=False),
        "dimension": sa.Column("dimension", TEXT),
    }
    op.create_table(
        "piece_measure",
        *(columns[name] for name in key),
        sa.Column("doubt_nm", WHOLE, nullable=False),
        sa.Column("value_nm", WHOLE, nullable=False),
        sa.PrimaryKeyConstraint(*key),
        sa.CheckConstraint("doubt_nm >= 0", name="doubt"),
        sqlite_strict=True,
        sqlite_with_rowid=False,
    )
    order = ", ".join(key)
    op.execute(
        f"INSERT INTO piece_measure ({order}, doubt_nm, value_nm)"
        f" SELECT {order}, doubt_nm, value_nm FROM piece_measure_before ORDER BY {order}"
    )
    op.drop_table("piece_measure_before")
    op.create_index(
        "ix_piece_measure_value", "piece_measure", ["dimension", "doubt_nm", "value_nm", "entry"]
    )
