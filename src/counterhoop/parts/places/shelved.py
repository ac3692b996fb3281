"""Pieces on the shelf as fittings that can be held against a place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.development.outline import rounded
from counterhoop.fittings.book import Book, name_key
from counterhoop.fittings.entry import Fitting, Kind, PatternHole
from counterhoop.parts.dimension import Dimension, surest
from counterhoop.parts.piece import Piece

PASSES_MM = 0.5
"""A hole in the shell is so much wider than its screw where nobody says. Common practice, no
source (ISO 273 has 5.5 for M5)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelved:
    """A piece and what is known of it as a fitting; ``fitting`` is None where too little is."""

    piece: Piece
    fitting: Fitting | None
    lacks: tuple[Dimension, ...] = ()


def shelved(pieces: Iterable[Piece], *, book: Book, client: str = "") -> tuple[Shelved, ...]:
    """Return the pieces that may be offered to a client's job, each as a fitting.

    A piece of the book is its entry. One that was only measured becomes a fitting of one or two
    holes in the line of its longer side, with what was measured and nothing more; it is called
    by the shop's own number.

    Parameters
    ----------
    pieces : iterable of Piece
        Another client's are left out.
    client : str
        Whose job it is; empty for the shop's own.
    """
    entries = {name_key(entry.name): entry for entry in book}
    return tuple(_one(piece, entries) for piece in pieces if piece.may_serve(client))


def _one(piece: Piece, entries: dict[str, Fitting]) -> Shelved:
    entry = entries.get(name_key(piece.fitting)) if piece.fitting else None
    if entry is not None:
        return Shelved(piece=piece, fitting=entry)
    size = {one.dimension: one.value for one in surest(piece.measured)}
    count = size.get(Dimension.HOLE_COUNT, 2.0)
    wanted = [Dimension.SCREW, Dimension.BASE_WIDE, Dimension.BASE_HIGH]
    wanted += [Dimension.HOLES_APART] if count == 2 else []
    lacks = tuple(dimension for dimension in wanted if dimension not in size)
    # How more than two holes lie, two distances do not tell.
    if lacks or count not in (1, 2) or piece.kind not in {kind.value for kind in Kind}:
        return Shelved(piece=piece, fitting=None, lacks=lacks)
    wide, high = size[Dimension.BASE_WIDE], size[Dimension.BASE_HIGH]
    half = size[Dimension.HOLES_APART] / 2.0 if count == 2 else 0.0
    across = (1.0, 0.0) if wide > high else (0.0, 1.0)
    screw = size[Dimension.SCREW]
    fitting = Fitting(
        name=f"number {piece.number}",
        kind=Kind(piece.kind),
        source="measured",
        says=piece.says,
        base=rounded(wide, high),
        holes=tuple(
            PatternHole(
                right_mm=at * across[0],
                down_mm=at * across[1],
                hole_mm=max(screw, size.get(Dimension.SHELL_HOLE, screw + PASSES_MM)),
                screw_mm=screw,
            )
            for at in ((-half, half) if count == 2 else (0.0,))
        ),
        diameter_mm=size.get(Dimension.TAKES),
    )
    return Shelved(piece=piece, fitting=fitting)
