"""Issued papers under running numbers, and the work log: rows that are never changed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT, WHOLE

revision = "0008"
down_revision = "0007"

_STAYS = {"issued": "an issued paper stays as it is", "work_log": "the work log stays as it is"}


def upgrade() -> None:
    """Make the tables, and see that their rows stay."""
    op.create_table(
        "turn",
        sa.Column("name", TEXT, primary_key=True),
        sa.Column("number", WHOLE, nullable=False),
        sa.CheckConstraint("name IN ('issued', 'work log')", name="name"),
        sa.CheckConstraint("number >= 0", name="number"),
        sqlite_strict=True,
    )
    _make_issued()
    _make_work_log()
    op.create_table(
        "in_hand",
        sa.Column("bench", TEXT, primary_key=True),
        sa.Column("working", WHOLE, sa.ForeignKey("work_log.entry")),
        sqlite_strict=True,
    )
    for table, says in _STAYS.items():
        _let_stay(table, says)


def _make_issued() -> None:
    op.create_table(
        "issued",
        sa.Column("series", TEXT, primary_key=True),
        sa.Column("year", WHOLE, primary_key=True, autoincrement=False),
        sa.Column("number", WHOLE, primary_key=True, autoincrement=False),
        sa.Column("called", TEXT, nullable=False),
        sa.Column("entry", WHOLE, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("job_id", TEXT, sa.ForeignKey("job.id")),
        *_texts("day", "why_earlier", "body", "made_at", "bench", "mark", "sha256"),
        sa.CheckConstraint("year >= 0", name="year"),
        sa.CheckConstraint("number >= 1", name="number"),
        sa.CheckConstraint("entry >= 1", name="entry"),
        sqlite_strict=True,
    )
    op.create_index("ix_issued_entry", "issued", ["entry"], unique=True)
    op.create_index("ix_issued_called", "issued", ["series", "called"], unique=True)
    op.create_index("ix_issued_day", "issued", ["series", "day"])
    op.create_index("ix_issued_of_job", "issued", ["job_id", "entry"])
    _make_index_of_marks("issued")


def _make_work_log() -> None:
    op.create_table(
        "work_log",
        sa.Column("entry", WHOLE, primary_key=True, autoincrement=False),
        sa.Column("working", WHOLE, sa.ForeignKey("work_log.entry"), nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("job_id", TEXT, sa.ForeignKey("job.id")),
        *_texts("drum", "operation"),
        sa.Column("count", WHOLE, nullable=False),
        *_texts("picked_up", "put_down", "took", "day", "note"),
        sa.Column("finished", WHOLE, nullable=False),
        sa.Column("answered", WHOLE, nullable=False),
        *_texts("why", "made_at", "bench", "mark", "sha256"),
        sa.CheckConstraint("entry >= 1", name="entry"),
        sa.CheckConstraint("working BETWEEN 1 AND entry", name="working"),
        sa.CheckConstraint(
            "kind IN ('picked up', 'put down', 'typed', 'corrected', 'struck')", name="kind"
        ),
        sa.CheckConstraint("count >= 0", name="count"),
        sa.CheckConstraint("finished IN (0, 1)", name="finished"),
        sa.CheckConstraint("answered IN (0, 1)", name="answered"),
        sqlite_strict=True,
    )
    op.create_index("ix_work_log_working", "work_log", ["working", "entry"])
    op.create_index("ix_work_log_of_job", "work_log", ["job_id", "working"])
    op.create_index("ix_work_log_operation", "work_log", ["operation", "working"])
    _make_index_of_marks("work_log")


def downgrade() -> None:
    """Take the tables away, and with them what keeps their rows."""
    for table in ("in_hand", "work_log", "issued", "turn"):
        op.drop_table(table)
    if not _in_a_file():
        for table in _STAYS:
            op.execute(f"DROP FUNCTION {table}_stays()")


def _in_a_file() -> bool:
    return op.get_bind().dialect.name == "sqlite"


def _texts(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, TEXT, nullable=False) for name in names]


def _make_index_of_marks(table: str) -> None:
    marked = sa.text("mark <> ''")
    op.create_index(
        f"ix_{table}_mark", table, ["mark"], unique=True,
        sqlite_where=marked, postgresql_where=marked,
    )  # fmt: skip


def _let_stay(table: str, says: str) -> None:
    if _in_a_file():
        for deed in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_stays_{deed.lower()} BEFORE {deed} ON {table}"
                f" BEGIN SELECT RAISE(ABORT, '{says}'); END"
            )
        return
    op.execute(
        f"CREATE FUNCTION {table}_stays() RETURNS trigger LANGUAGE plpgsql AS"
        f" $$ BEGIN RAISE EXCEPTION '{says}'; END $$"
    )
    # For each statement: it also holds off the one that empties a table without a look at its rows.
    op.execute(
        f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON {table}"
        f" FOR EACH STATEMENT EXECUTE FUNCTION {table}_stays()"
    )
