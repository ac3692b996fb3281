"""The tables of the running books: papers that were given out, and the work log."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Column, ForeignKey, Index, Table, text

from counterhoop.store.column_types import METADATA, TEXT, WHOLE

turn = Table(
    "turn",
    METADATA,
    # A row for each running book, once anything was written in it: who writes takes it first.
    Column("name", TEXT, primary_key=True),
    # How many rows the book has.
    Column("number", WHOLE, nullable=False),
    CheckConstraint("name IN ('issued', 'work log')", name="name"),
    CheckConstraint("number >= 0", name="number"),
    sqlite_strict=True,
)

# Rows of the next two are never changed nor taken out: triggers see to it.

issued = Table(
    "issued",
    METADATA,
    Column("series", TEXT, primary_key=True),
    # 0 where the series runs on over the years.
    Column("year", WHOLE, primary_key=True, autoincrement=False),
    Column("number", WHOLE, primary_key=True, autoincrement=False),
    # The number as it is printed: "2026-0001".
    Column("called", TEXT, nullable=False),
    # Which row of all issued papers it is.
    Column("entry", WHOLE, nullable=False),
    Column("kind", TEXT, nullable=False),
    Column("job_id", TEXT, ForeignKey("job.id")),
    Column("day", TEXT, nullable=False),
    # Why it is dated before the last of its series; mostly empty.
    Column("why_earlier", TEXT, nullable=False),
    Column("body", TEXT, nullable=False),
    Column("made_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    # By which a form that is sent twice is known again; empty when nobody gave one.
    Column("mark", TEXT, nullable=False),
    Column("sha256", TEXT, nullable=False),
    CheckConstraint("year >= 0", name="year"),
    CheckConstraint("number >= 1", name="number"),
    CheckConstraint("entry >= 1", name="entry"),
    Index("ix_issued_entry", "entry", unique=True),
    Index("ix_issued_called", "series", "called", unique=True),
    Index("ix_issued_day", "series", "day"),
    Index("ix_issued_of_job", "job_id", "entry"),
    Index(
        "ix_issued_mark",
        "mark",
        unique=True,
        sqlite_where=text("mark <> ''"),
        postgresql_where=text("mark <> ''"),
    ),
    sqlite_strict=True,
)

work_log = Table(
    "work_log",
    METADATA,
    Column("entry", WHOLE, primary_key=True, autoincrement=False),
    # The row that this working began with: itself, or the one that this row says more of.
    Column("working", WHOLE, ForeignKey("work_log.entry"), nullable=False),
    Column("kind", TEXT, nullable=False),
    # What follows is the whole working as it stands after this row.
    Column("job_id", TEXT, ForeignKey("job.id")),
    Column("drum", TEXT, nullable=False),
    Column("operation", TEXT, nullable=False),
    Column("count", WHOLE, nullable=False),
    # By the workshop's own clock, and empty where minutes were typed.
    Column("picked_up", TEXT, nullable=False),
    Column("put_down", TEXT, nullable=False),
    # The time it took, as it was typed after; its day beside it.
    Column("took", TEXT, nullable=False),
    Column("day", TEXT, nullable=False),
    Column("note", TEXT, nullable=False),
    Column("finished", WHOLE, nullable=False),
    # 1 when a time out of all proportion was asked about and stands.
    Column("answered", WHOLE, nullable=False),
    Column("why", TEXT, nullable=False),
    Column("made_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("mark", TEXT, nullable=False),
    Column("sha256", TEXT, nullable=False),
    CheckConstraint("entry >= 1", name="entry"),
    CheckConstraint("working BETWEEN 1 AND entry", name="working"),
    CheckConstraint(
        "kind IN ('picked up', 'put down', 'typed', 'corrected', 'struck')", name="kind"
    ),
    CheckConstraint("count >= 0", name="count"),
    CheckConstraint("finished IN (0, 1)", name="finished"),
    CheckConstraint("answered IN (0, 1)", name="answered"),
    Index("ix_work_log_working", "working", "entry"),
    Index("ix_work_log_of_job", "job_id", "working"),
    Index("ix_work_log_operation", "operation", "working"),
    Index(
        "ix_work_log_mark",
        "mark",
        unique=True,
        sqlite_where=text("mark <> ''"),
        postgresql_where=text("mark <> ''"),
    ),
    sqlite_strict=True,
)

# Reckoned from the log, so that a bench is asked at once; not written into the plain folder.

in_hand = Table(
    "in_hand",
    METADATA,
    # One pair of hands at a bench holds one working, or none.
    Column("bench", TEXT, primary_key=True),
    Column("working", WHOLE, ForeignKey("work_log.entry")),
    sqlite_strict=True,
)
