"""The tables as the newest migration leaves them; a test holds the two against each other."""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    MetaData,
    Table,
    text,
)

from counterhoop.store.column_types import BYTES, NAMING, TEXT, WHOLE

METADATA = MetaData(naming_convention=NAMING)

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
    CheckConstraint("thing IN ('job', 'document', 'enclosure')", name="thing"),
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
