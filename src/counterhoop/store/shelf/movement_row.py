"""A movement as a row, and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from counterhoop.errors import BadInput
from counterhoop.parts.movement import Movement, MovementKind
from counterhoop.store.plain_text import LONGEST, plain_text
from counterhoop.store.shelf.body_of_piece import LONGEST_SAYS, MOST_COUNT
from counterhoop.store.stamp import Stamp, read_time

TEXTS = ("job", "client", "corrects", "release", "why")


def movement_row(one: Movement, *, entry: int, number: int, mark: str = "") -> dict[str, Any]:
    """Return the row of a movement.

    Raises
    ------
    BadInput
        For a time without its zone, no bench, or a text that cannot be kept.
    """
    # It looks time and bench over.
    stamp = Stamp(when=one.on, bench=one.bench)
    texts = {name: getattr(one, name) for name in TEXTS}
    for name in ("job", "client", "release"):
        plain_text(texts[name], where=name, may_be_empty=True)
    for name in ("corrects", "why"):
        if len(texts[name]) > LONGEST_SAYS or not texts[name].replace("\n", " ").isprintable():
            raise BadInput(
                "cannot be kept",
                where=name,
                given=texts[name][:LONGEST],
                wanted=f"at most {LONGEST_SAYS} signs that can be printed",
            )
    if one.count > MOST_COUNT:
        raise BadInput(
            "more than a shelf holds",
            where=one.kind,
            given=one.count,
            wanted=f"at most {MOST_COUNT}",
        )
    return {
        "entry": entry,
        "number": number,
        "kind": one.kind,
        "count": one.count,
        "made_at": stamp.written,
        "bench": one.bench,
        **texts,
        "mark": plain_text(mark, where="mark", may_be_empty=True),
    }


def read_movement(row: Mapping[Any, Any], *, piece_id: str) -> Movement:
    """Return the movement of a row of the table, by the names of its columns."""
    return Movement(
        piece_id=piece_id,
        kind=cast(MovementKind, row["kind"]),
        count=row["count"],
        on=read_time(row["made_at"]),
        bench=row["bench"],
        **{name: row[name] for name in TEXTS},
    )
