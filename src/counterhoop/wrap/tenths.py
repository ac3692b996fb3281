"""A nest in whole tenths of a millimetre, the kerf added to pieces and sheets alike.

A piece and the kerf behind it, in a sheet that is longer by one kerf: pieces then keep a kerf
from each other and none from the sheet's rim, and plain packing of rectangles is left.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.wrap.nesting import UNITS_A_MM, Piece, Runs, Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """Extents along and across that a piece may take; one or two, the unturned first."""

    extents: tuple[tuple[int, int], ...]
    turned: tuple[bool, ...]

    @property
    def area(self) -> int:
        """Area with its kerf."""
        return self.extents[0][0] * self.extents[0][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tenths:
    """Pieces and bins in tenths, with kerf; ``offcuts`` are bins that cost no new sheet."""

    boxes: tuple[Box, ...]
    sheet: tuple[int, int]
    offcuts: tuple[tuple[int, int], ...]
    kerf: int
    most_sheets: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A box put down: its bin (offcuts count first, then new sheets), corner and extents."""

    bin: int
    x: int
    y: int
    w: int
    h: int
    turned: bool


def up(value_mm: float) -> int:
    """Tenths, rounded up, so that a piece is never cut small."""
    return math.ceil(round(value_mm * UNITS_A_MM, 6))


def down(value_mm: float) -> int:
    """Tenths, rounded down, so that a sheet is never taken for larger than it is."""
    return math.floor(round(value_mm * UNITS_A_MM, 6))


def in_tenths(
    pieces: Sequence[Piece],
    *,
    sheet: Sheet,
    offcuts: Sequence[Sheet],
    kerf_mm: float,
    most_sheets: int,
) -> Tenths:
    """Turn a nest into whole numbers.

    Raises
    ------
    BadInput
        No pieces, a kerf that is none, or a piece that no sheet at hand takes.
    """
    if not pieces:
        raise BadInput("nothing to cut", where="pieces", wanted="one piece or more")
    if not (math.isfinite(kerf_mm) and 0 <= kerf_mm <= 20):
        raise BadInput("not a kerf", where="kerf", given=kerf_mm, wanted="0 to 20 mm")
    kerf = up(kerf_mm)
    bins = [(down(s.length_mm) + kerf, down(s.width_mm) + kerf) for s in (sheet, *offcuts)]
    usable = bins if most_sheets > 0 else bins[1:]
    return Tenths(
        boxes=tuple(_box(p, kerf=kerf, bins=usable, sheet=sheet) for p in pieces),
        sheet=bins[0],
        offcuts=tuple(bins[1:]),
        kerf=kerf,
        most_sheets=most_sheets,
    )


def _box(piece: Piece, *, kerf: int, bins: Sequence[tuple[int, int]], sheet: Sheet) -> Box:
    length, width = up(piece.length_mm) + kerf, up(piece.width_mm) + kerf
    ways = []
    if piece.runs is not Runs.ACROSS:
        ways.append((length, width, False))
    if piece.runs is Runs.ACROSS or (piece.runs is Runs.EITHER and length != width):
        ways.append((width, length, True))
    ways = [way for way in ways if any(way[0] <= w and way[1] <= h for w, h in bins)]
    if not ways:
        raise BadInput(
            f"the piece fits on no sheet at hand ({piece.runs})",
            where=piece.name,
            given=f"{piece.length_mm:g} x {piece.width_mm:g} mm",
            wanted=f"at most {sheet.length_mm:g} x {sheet.width_mm:g} mm",
            step="Make it in two pieces, take a larger sheet, or let it lie the other way.",
        )
    return Box(
        extents=tuple((w, h) for w, h, _ in ways), turned=tuple(turned for _, _, turned in ways)
    )
