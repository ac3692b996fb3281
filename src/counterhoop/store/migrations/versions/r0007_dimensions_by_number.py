"""A dimension is kept by its number: a search compares it a hundred thousand times.

Readings of what is no dimension are dropped: nothing ever searched for them, and looking the store
over says which pieces they are missing from.
"""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

from counterhoop.store.column_types import TEXT, WHOLE

revision = "0007"
down_revision = "0006"

NUMBERS = {
    "holes apart": 1,
    "holes apart, second": 2,
    "hole count": 3,
    "hole": 4,
    "hole in the shell": 5,
    "mounting screw": 6,
    "base wide": 7,
    "base high": 8,
    "stands out": 9,
    "pitch": 10,
    "thread across": 11,
    "length": 12,
    "threaded length": 13,
    "shank": 14,
    "across": 15,
    "wide": 16,
    "high": 17,
    "takes": 18,
    "ears": 19,
    "ears' circle": 20,
    "inside": 21,
    "thick": 22,
    "rod line": 23,
    "mouths apart": 24,
    "rod goes in": 25,
    "mass": 26,
}
"""As they were when this was written; every other store has to be brought to the same."""


_COVERS = " INCLUDE (doubt_nm, value_nm)"
"""PostgreSQL then answers from the key alone, without a look at the row."""


def upgrade() -> None:
    """Write a number for each name."""
    _move_over(WHOLE, dict(NUMBERS), covers=_COVERS)


def downgrade() -> None:
    """Write a name for each number."""
    _move_over(TEXT, {number: name for name, number in NUMBERS.items()}, covers="")


def _move_over(
    kind: sa.types.TypeEngine[Any], new_by_old: dict[str, int] | dict[int, str], *, covers: str
) -> None:
    """Fill a new table in the order of its key, in which SQLite keeps the rows."""
    in_a_file = op.get_bind().dialect.name == "sqlite"
    op.drop_index("ix_piece_measure_value", "piece_measure")
    op.rename_table("piece_measure", "piece_measure_before")
    key = sa.PrimaryKeyConstraint("dimension", "entry")
    its_piece = sa.ForeignKeyConstraint(["entry"], ["piece.entry"])
    op.create_table(
        "piece_measure",
        sa.Column("dimension", kind, nullable=False),
        sa.Column("entry", WHOLE, nullable=False),
        sa.Column("doubt_nm", WHOLE, nullable=False),
        sa.Column("value_nm", WHOLE, nullable=False),
        sa.CheckConstraint("doubt_nm >= 0", name="doubt"),
        *((key, its_piece) if in_a_file else ()),
        sqlite_strict=True,
        sqlite_with_rowid=False,
    )
    taking = sa.text(
        "INSERT INTO piece_measure (dimension, entry, doubt_nm, value_nm)"
        " SELECT :new, entry, doubt_nm, value_nm FROM piece_measure_before"
        " WHERE dimension = :old ORDER BY entry"
    )
    for old, new in sorted(new_by_old.items(), key=lambda pair: pair[1]):
        op.get_bind().execute(taking, {"old": old, "new": new})
    op.drop_table("piece_measure_before")
    if not in_a_file:
        # Once all rows are there: much quicker than row by row.
        op.execute(
            "ALTER TABLE piece_measure"
            f" ADD CONSTRAINT pk_piece_measure PRIMARY KEY (dimension, entry){covers}"
        )
        op.create_foreign_key(
            op.f("fk_piece_measure_entry"), "piece_measure", "piece", ["entry"], ["entry"]
        )
    op.create_index(
        "ix_piece_measure_value", "piece_measure", ["dimension", "doubt_nm", "value_nm", "entry"]
    )
