"""Pieces that are put away, their photographs, and a count of the turns at writing on the shelf."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT, WHOLE

revision = "0005"
down_revision = "0004"

BEFORE = ("job", "document", "enclosure")
NOW = (*BEFORE, "piece", "photograph")


def upgrade() -> None:
    """Make the tables; nothing is hidden yet."""
    _let_be_hidden(NOW)
    whole = "INTEGER" if _in_a_file() else "BIGINT"
    op.execute(
        f"ALTER TABLE piece_stock ADD COLUMN hidden {whole} NOT NULL DEFAULT 0"
        " CONSTRAINT ck_piece_stock_hidden CHECK (hidden IN (0, 1))"
    )
    hidden = sa.text("hidden = 1")
    op.create_index(
        "ix_piece_stock_hidden", "piece_stock", ["entry"],
        sqlite_where=hidden, postgresql_where=hidden,
    )  # fmt: skip
    op.drop_index("ix_movement_of_job", "movement")
    _make_index_of_jobs({"job": "text_pattern_ops"})
    op.create_table(
        "piece_photograph",
        sa.Column("id", TEXT, primary_key=True),
        sa.Column("entry", WHOLE, sa.ForeignKey("piece.entry"), nullable=False),
        sa.Column("sha256", TEXT, sa.ForeignKey("kept_file.sha256"), nullable=False),
        sa.Column("name_given", TEXT, nullable=False),
        sa.Column("position_removed", WHOLE, nullable=False),
        sa.Column("added_at", TEXT, nullable=False),
        sa.Column("bench", TEXT, nullable=False),
        sa.CheckConstraint("position_removed IN (0, 1)", name="position_removed"),
        sqlite_strict=True,
    )
    op.create_index("ix_piece_photograph_entry", "piece_photograph", ["entry"])
    op.create_table(
        "shelf_turn",
        sa.Column("id", WHOLE, primary_key=True, autoincrement=False),
        sa.Column("number", WHOLE, nullable=False),
        sa.CheckConstraint("id = 1", name="only_one"),
        sqlite_strict=True,
    )


def downgrade() -> None:
    """Take them away: what was hidden is in sight again, the files stay where they are."""
    op.drop_table("shelf_turn")
    op.drop_table("piece_photograph")
    op.drop_index("ix_movement_of_job", "movement")
    _make_index_of_jobs({})
    op.drop_index("ix_piece_stock_hidden", "piece_stock")
    op.execute("ALTER TABLE piece_stock DROP COLUMN hidden")
    op.execute("DELETE FROM hiding WHERE thing IN ('piece', 'photograph')")
    _let_be_hidden(BEFORE)


def _in_a_file() -> bool:
    return op.get_bind().dialect.name == "sqlite"


def _make_index_of_jobs(on_postgresql: dict[str, str]) -> None:
    for_a_job = sa.text("job <> ''")
    op.create_index(
        "ix_movement_of_job", "movement", ["job", "entry"],
        sqlite_where=for_a_job, postgresql_where=for_a_job,
        postgresql_ops=on_postgresql,
    )  # fmt: skip


def _let_be_hidden(things: tuple[str, ...]) -> None:
    condition = f"thing IN ({', '.join(repr(one) for one in things)})"
    if not _in_a_file():
        op.drop_constraint(op.f("ck_hiding_thing"), "hiding")
        op.create_check_constraint("thing", "hiding", condition)
        return
    # SQLite changes no condition of a table that is there: a new one takes the rows over.
    op.rename_table("hiding", "hiding_before")
    op.create_table(
        "hiding",
        sa.Column("thing", TEXT, primary_key=True),
        sa.Column("thing_id", TEXT, primary_key=True),
        sa.Column("turn", WHOLE, primary_key=True),
        sa.Column("hidden_at", TEXT, nullable=False),
        sa.Column("hidden_by", TEXT, nullable=False),
        sa.Column("back_at", TEXT),
        sa.Column("back_by", TEXT),
        sa.CheckConstraint(condition, name="thing"),
        sa.CheckConstraint("(back_at IS NULL) = (back_by IS NULL)", name="back"),
        sqlite_strict=True,
    )
    op.execute("INSERT INTO hiding SELECT * FROM hiding_before")
    op.drop_table("hiding_before")
