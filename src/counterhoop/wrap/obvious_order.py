"""What cutting piece by piece would take, without laying anything out first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from counterhoop.wrap.first_layout import bins_of
from counterhoop.wrap.nesting import Piece, Sheet
from counterhoop.wrap.tenths import Box, in_tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class ObviousOrder:
    """How many new sheets and offcuts are cut into that way."""

    new_sheets: int
    offcuts_used: int


@dataclass(slots=True)
class _Shelf:
    high: int
    taken: int


@dataclass(slots=True)
class _Open:
    """A sheet with pieces on shelves, from its first side onward."""

    room: tuple[int, int]
    shelves: list[_Shelf] = field(default_factory=list)

    def takes(self, box: Box) -> bool:
        """Put a piece down if it goes on a shelf or on a new one."""
        for w, h in box.extents:
            for shelf in self.shelves:
                if h <= shelf.high and shelf.taken + w <= self.room[0]:
                    shelf.taken += w
                    return True
            if w <= self.room[0] and sum(s.high for s in self.shelves) + h <= self.room[1]:
                self.shelves.append(_Shelf(high=h, taken=w))
                return True
        return False


def obvious_order(
    pieces: Sequence[Piece], *, sheet: Sheet, offcuts: Sequence[Sheet] = (), kerf_mm: float = 0.0
) -> ObviousOrder:
    """Cut pieces in the order given, each off the first sheet where it goes.

    A piece goes behind the last one on a shelf (a strip across the sheet as high as its first
    piece), or begins the next shelf; along the sheet where it may. Offcuts are tried before new
    sheets. A layout is worth its trouble by what it saves against this.

    Raises
    ------
    BadInput
        As ``nest``, but for the number of sheets at hand, which is not asked for.

    Notes
    -----
    First fit on shelves (Coffman, Garey, Johnson and Tarjan 1980, there with pieces sorted; from
    memory).

    Examples
    --------
    Two strips leave 250 of the 610; the third wants 260 and the fourth would have gone there:

    >>> kit = [Piece(name=str(w), length_mm=1140.0, width_mm=w)
    ...        for w in (180.0, 180.0, 260.0, 340.0, 240.0)]
    >>> obvious_order(kit, sheet=Sheet(name="new", length_mm=1400.0, width_mm=610.0)).new_sheets
    2
    """
    puzzle = in_tenths(
        pieces, sheet=sheet, offcuts=offcuts, kerf_mm=kerf_mm, most_sheets=len(pieces)
    )
    opened = [_Open(room) for room in bins_of(puzzle, len(pieces))]
    for box in puzzle.boxes:
        next(sheet for sheet in opened if sheet.takes(box))
    used = [bool(sheet.shelves) for sheet in opened]
    first = len(puzzle.offcuts)
    return ObviousOrder(new_sheets=sum(used[first:]), offcuts_used=sum(used[:first]))


def goes_on(piece: Piece, *, sheet: Sheet) -> bool:
    """Whether one sheet or offcut takes a piece, the pattern's way respected.

    Examples
    --------
    >>> shelf = Sheet(name="red end", length_mm=1200.0, width_mm=300.0)
    >>> goes_on(Piece(name="tom", length_mm=1140.0, width_mm=180.0), sheet=shelf)
    True
    """
    return any(
        length <= sheet.length_mm and width <= sheet.width_mm for length, width in piece.ways_mm
    )
