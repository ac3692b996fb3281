"""The tables as the newest migration leaves them; a test holds the two against each other."""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    PrimaryKeyConstraint,
    Table,
    text,
)

from counterhoop.store.book_tables import in_hand as in_hand
from counterhoop.store.book_tables import issued as issued
from counterhoop.store.book_tables import turn as turn
from counterhoop.store.book_tables import work_log as work_log
from counterhoop.store.column_types import BYTES, TEXT, WHOLE
from counterhoop.store.column_types import METADATA as METADATA

job = Table(
    "job",
    METADATA,
    Column("id", TEXT, primary_key=True),
    Column("opened_at", TEXT, nullable=False),
    Column("opened_by", TEXT, nullable=False),
    sqlite_strict=True,
)

drum = Table(
    "drum",
    METADATA,
    Column("job_id", TEXT, ForeignKey("job.id"), primary_key=True),
    Column("name", TEXT, primary_key=True),
    Column("place", WHOLE, nullable=False),
    Column("diameter_nm", WHOLE, nullable=False),
    Column("diameter_written", TEXT, nullable=False),
    Column("depth_nm", WHOLE, nullable=False),
    Column("depth_written", TEXT, nullable=False),
    CheckConstraint("diameter_nm > 0", name="diameter"),
    CheckConstraint("depth_nm > 0", name="depth"),
    sqlite_strict=True,
)

document = Table(
    "document",
    METADATA,
    Column("id", TEXT, primary_key=True),
    # Without a job it belongs to the workshop: its rules, its book, its printer.
    Column("job_id", TEXT, ForeignKey("job.id")),
    Column("kind", TEXT, nullable=False),
    Column("name", TEXT, nullable=False),
    # Number of the newest revision: what a save is held against, in one statement.
    Column("head", WHOLE, nullable=False),
    Column("as_found", WHOLE),
    # When the newest revision was made: said there too, but a list of all folders is long.
    Column("changed_at", TEXT),
    CheckConstraint("head >= 0", name="head"),
    CheckConstraint("as_found IS NULL OR as_found BETWEEN 1 AND head", name="as_found"),
    Index("ix_document_changed", "job_id", "changed_at"),
    Index("ix_document_of_job", "job_id", "kind", "name", unique=True),
    Index(
        "ix_document_of_workshop",
        "kind",
        "name",
        unique=True,
        sqlite_where=text("job_id IS NULL"),
        postgresql_where=text("job_id IS NULL"),
    ),
    sqlite_strict=True,
)

revision = Table(
    "revision",
    METADATA,
    Column("document_id", TEXT, ForeignKey("document.id"), primary_key=True),
    Column("number", WHOLE, primary_key=True),
    Column("made_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("based_on", WHOLE, nullable=False),
    # The earlier revision that was chosen again, where this one is an undo.
    Column("chosen_from", WHOLE),
    Column("body", TEXT, nullable=False),
    Column("original", BYTES),
    Column("sha256", TEXT, nullable=False),
    CheckConstraint("number >= 1", name="number"),
    CheckConstraint("based_on >= 0 AND based_on < number", name="based_on"),
    CheckConstraint("chosen_from IS NULL OR chosen_from < number", name="chosen_from"),
    sqlite_strict=True,
)

correction = Table(
    "correction",
    METADATA,
    Column("document_id", TEXT, primary_key=True),
    # The revision that this correction made.
    Column("number", WHOLE, primary_key=True),
    Column("pointer", TEXT, nullable=False),
    # JSON texts; nothing where nothing stood, or where it was taken away.
    Column("old", TEXT),
    Column("new", TEXT),
    Column("why", TEXT, nullable=False),
    ForeignKeyConstraint(
        ["document_id", "number"],
        ["revision.document_id", "revision.number"],
        name="fk_correction_revision",
    ),
    CheckConstraint("old IS NOT NULL OR new IS NOT NULL", name="says_something"),
    sqlite_strict=True,
)

hiding = Table(
    "hiding",
    METADATA,
    Column("thing", TEXT, primary_key=True),
    Column("thing_id", TEXT, primary_key=True),
    Column("turn", WHOLE, primary_key=True),
    Column("hidden_at", TEXT, nullable=False),
    Column("hidden_by", TEXT, nullable=False),
    Column("back_at", TEXT),
    Column("back_by", TEXT),
    CheckConstraint(
        "thing IN ('job', 'document', 'enclosure', 'piece', 'photograph')", name="thing"
    ),
    CheckConstraint("(back_at IS NULL) = (back_by IS NULL)", name="back"),
    sqlite_strict=True,
)

kept_file = Table(
    "kept_file",
    METADATA,
    Column("sha256", TEXT, primary_key=True),
    Column("size", WHOLE, nullable=False),
    Column("media_type", TEXT, nullable=False),
    CheckConstraint("size >= 0", name="size"),
    CheckConstraint("length(sha256) = 64", name="sha256"),
    sqlite_strict=True,
)

enclosure = Table(
    "enclosure",
    METADATA,
    Column("id", TEXT, primary_key=True),
    Column("job_id", TEXT, ForeignKey("job.id"), nullable=False),
    # The drum that it shows; empty for the whole job.
    Column("drum", TEXT, nullable=False),
    Column("sha256", TEXT, ForeignKey("kept_file.sha256"), nullable=False),
    Column("name_given", TEXT, nullable=False),
    # 1 when a position was taken out before it was kept.
    Column("position_removed", WHOLE, nullable=False),
    Column("added_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    CheckConstraint("position_removed IN (0, 1)", name="position_removed"),
    Index("ix_enclosure_of_job", "job_id"),
    sqlite_strict=True,
)

piece = Table(
    "piece",
    METADATA,
    # In which order they were put in: what the tables beside this one are kept short with.
    Column("entry", WHOLE, primary_key=True, autoincrement=False),
    Column("id", TEXT, nullable=False),
    # The number on its bag; empty while it has none.
    Column("number", TEXT, nullable=False),
    # How often it was written; the earlier ones are in piece_before.
    Column("head", WHOLE, nullable=False),
    Column("changed_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("body", TEXT, nullable=False),
    Column("sha256", TEXT, nullable=False),
    CheckConstraint("entry >= 1", name="entry"),
    CheckConstraint("head >= 1", name="head"),
    Index("ix_piece_id", "id", unique=True),
    Index(
        "ix_piece_number",
        "number",
        unique=True,
        sqlite_where=text("number <> ''"),
        postgresql_where=text("number <> ''"),
    ),
    sqlite_strict=True,
)

piece_before = Table(
    "piece_before",
    METADATA,
    Column("entry", WHOLE, ForeignKey("piece.entry"), primary_key=True, autoincrement=False),
    Column("number", WHOLE, primary_key=True, autoincrement=False),
    Column("made_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("body", TEXT, nullable=False),
    Column("sha256", TEXT, nullable=False),
    CheckConstraint("number >= 1", name="number"),
    sqlite_strict=True,
)

movement = Table(
    "movement",
    METADATA,
    Column("entry", WHOLE, ForeignKey("piece.entry"), primary_key=True, autoincrement=False),
    Column("number", WHOLE, primary_key=True, autoincrement=False),
    Column("kind", TEXT, nullable=False),
    Column("count", WHOLE, nullable=False),
    Column("made_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    Column("job", TEXT, nullable=False),
    Column("client", TEXT, nullable=False),
    Column("corrects", TEXT, nullable=False),
    Column("release", TEXT, nullable=False),
    Column("why", TEXT, nullable=False),
    # By which a form that is sent twice is known again; empty when nobody gave one.
    Column("mark", TEXT, nullable=False),
    CheckConstraint("number >= 1", name="number"),
    CheckConstraint("count >= 0", name="count"),
    Index(
        "ix_movement_of_job",
        "job",
        "entry",
        sqlite_where=text("job <> ''"),
        postgresql_where=text("job <> ''"),
        # So that PostgreSQL finds there what begins with a job, whatever the order of its letters.
        postgresql_ops={"job": "text_pattern_ops"},
    ),
    sqlite_strict=True,
)

piece_photograph = Table(
    "piece_photograph",
    METADATA,
    Column("id", TEXT, primary_key=True),
    Column("entry", WHOLE, ForeignKey("piece.entry"), nullable=False),
    Column("sha256", TEXT, ForeignKey("kept_file.sha256"), nullable=False),
    Column("name_given", TEXT, nullable=False),
    # 1 when a position was taken out before it was kept.
    Column("position_removed", WHOLE, nullable=False),
    Column("added_at", TEXT, nullable=False),
    Column("bench", TEXT, nullable=False),
    CheckConstraint("position_removed IN (0, 1)", name="position_removed"),
    Index("ix_piece_photograph_entry", "entry"),
    sqlite_strict=True,
)

shelf_turn = Table(
    "shelf_turn",
    METADATA,
    # One row, once anything was written on the shelf: who writes there takes it first.
    Column("id", WHOLE, primary_key=True, autoincrement=False),
    Column("number", WHOLE, nullable=False),
    CheckConstraint("id = 1", name="only_one"),
    sqlite_strict=True,
)

# What follows is reckoned from the tables above, so that a shelf is searched at once. It is not
# written into the plain folder, and looking a store over reckons it anew.

piece_stock = Table(
    "piece_stock",
    METADATA,
    Column("entry", WHOLE, ForeignKey("piece.entry"), primary_key=True, autoincrement=False),
    Column("owner", TEXT, nullable=False),
    Column("movements", WHOLE, nullable=False),
    Column("on_shelf", WHOLE, nullable=False),
    Column("free", WHOLE, nullable=False),
    # 1 while the piece is out of sight; who hid it, and when, stands in hiding.
    Column("hidden", WHOLE, nullable=False, server_default=text("0")),
    CheckConstraint("free >= 0 AND free <= on_shelf", name="free"),
    CheckConstraint("hidden IN (0, 1)", name="hidden"),
    Index(
        "ix_piece_stock_hidden",
        "entry",
        sqlite_where=text("hidden = 1"),
        postgresql_where=text("hidden = 1"),
    ),
    sqlite_strict=True,
)

piece_measure = Table(
    "piece_measure",
    METADATA,
    # By its number; the first in the key, so that what a search looks up lies together.
    Column("dimension", WHOLE),
    Column("entry", WHOLE, ForeignKey("piece.entry")),
    # Nanometres; of a mass micrograms, of a count millionths.
    Column("doubt_nm", WHOLE, nullable=False),
    Column("value_nm", WHOLE, nullable=False),
    CheckConstraint("doubt_nm >= 0", name="doubt"),
    # PostgreSQL answers from the key alone, without a look at the row, as SQLite does anyway.
    PrimaryKeyConstraint("dimension", "entry", postgresql_include=["doubt_nm", "value_nm"]),
    # Few doubts are in use: one stretch of this index for each holds all that can fit.
    Index("ix_piece_measure_value", "dimension", "doubt_nm", "value_nm", "entry"),
    sqlite_strict=True,
    sqlite_with_rowid=False,
)

word = Table(
    "word",
    METADATA,
    Column("id", WHOLE, primary_key=True, autoincrement=False),
    Column("word", TEXT, nullable=False),
    Index("ix_word_word", "word", unique=True),
    sqlite_strict=True,
)

piece_word = Table(
    "piece_word",
    METADATA,
    Column("word_id", WHOLE, ForeignKey("word.id"), primary_key=True, autoincrement=False),
    Column("entry", WHOLE, ForeignKey("piece.entry"), primary_key=True, autoincrement=False),
    sqlite_strict=True,
    sqlite_with_rowid=False,
)
