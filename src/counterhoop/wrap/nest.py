"""Lay a kit's pieces of wrap out on sheets and offcuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from counterhoop.errors import BadInput
from counterhoop.wrap.best_layout import Best, best_layout
from counterhoop.wrap.first_layout import bins_of, first_layout
from counterhoop.wrap.free import Rectangle, free_rectangles, net_area, without
from counterhoop.wrap.nesting import UNITS_A_MM, NestingPlan, Piece, Placed, Sheet
from counterhoop.wrap.pushed import pushed
from counterhoop.wrap.tenths import Tenths, in_tenths

EFFORT = 10.0
KEEP_MM = 100.0
"""An offcut narrower than this is not worth a place on the shelf: common practice, no source."""


def nest(
    pieces: Sequence[Piece],
    *,
    sheet: Sheet,
    offcuts: Sequence[Sheet] = (),
    kerf_mm: float = 0.0,
    most_sheets: int | None = None,
    effort: float = EFFORT,
    keep_mm: float = KEEP_MM,
) -> NestingPlan:
    """Lay pieces out: fewest new sheets, then fewest offcuts, then the largest offcut left.

    Parameters
    ----------
    pieces : sequence of Piece
        What to cut. Pieces over 12 are laid out too, but the proof may not be reached.
    sheet : Sheet
        The sheet that is bought.
    offcuts : sequence of Sheet
        Offcuts in stock; they cost no new sheet.
    kerf_mm : float
        Width lost at a cut; 0 for a knife.
    most_sheets : int or None
        New sheets at hand; None when more can be bought.
    effort : float
        Limit on the search in the solver's own count of work, close to seconds.
    keep_mm : float
        Further offcuts are listed when both sides are at least this.

    Returns
    -------
    NestingPlan

    Raises
    ------
    BadInput
        No pieces, a piece that fits nowhere, or more than the sheets at hand take.

    Notes
    -----
    Worked in tenths of a millimetre. Any layout of rectangles counts, also one that no row of
    straight cuts from rim to rim gives: wrap is cut with a knife. Pieces lie against a rim or
    against each other.

    Examples
    --------
    >>> plan = nest([Piece(name=n, length_mm=1140.0, width_mm=180.0) for n in "abc"],
    ...             sheet=Sheet(name="new", length_mm=1400.0, width_mm=610.0))
    >>> plan.new_sheets, plan.largest_left_mm2, plan.proven
    (1, 158600.0, True)
    """
    most = len(pieces) if most_sheets is None else most_sheets
    puzzle = in_tenths(pieces, sheet=sheet, offcuts=offcuts, kerf_mm=kerf_mm, most_sheets=most)
    best = best_layout(puzzle, start=first_layout(puzzle), effort=effort)
    if best is None:
        raise BadInput(
            "no layout found for all pieces",
            where="sheets",
            given=f"{most} new and {len(offcuts)} from stock",
            wanted="more sheets",
            step="Take one more sheet, or let more pieces lie either way.",
        )
    bins = bins_of(puzzle, len(best.spots))
    best = replace(best, spots=pushed(best.spots, bins=bins, kerf=puzzle.kerf))
    return _plan(best, puzzle, pieces, sheet=sheet, offcuts=offcuts, keep_mm=keep_mm)


def _plan(
    best: Best,
    puzzle: Tenths,
    pieces: Sequence[Piece],
    *,
    sheet: Sheet,
    offcuts: Sequence[Sheet],
    keep_mm: float,
) -> NestingPlan:
    used = sorted({spot.bin for spot in best.spots})
    number = {b: place for place, b in enumerate(used)}
    kerf = puzzle.kerf
    return NestingPlan(
        sheets=tuple(offcuts[b] if b < len(offcuts) else sheet for b in used),
        new_sheets=sum(b >= len(offcuts) for b in used),
        offcuts_used=sum(b < len(offcuts) for b in used),
        placed=tuple(
            _placed(
                piece.name, number[spot.bin], (spot.x, spot.y, spot.w, spot.h), kerf, spot.turned
            )
            for piece, spot in zip(pieces, best.spots, strict=True)
        ),
        left=tuple(
            _placed(f"offcut {place}", number[b], rectangle, kerf, False)
            for place, (b, rectangle) in enumerate(_left(best, puzzle, keep_mm), 1)
        ),
        kerf_mm=kerf / UNITS_A_MM,
        least_new_sheets=best.least_new,
        most_left_mm2=best.most_left / UNITS_A_MM**2,
        proven=best.proven,
    )


def _left(best: Best, puzzle: Tenths, keep_mm: float) -> list[tuple[int, Rectangle]]:
    """Take the largest rectangle left, then the largest of what then remains, and so on."""
    bins = bins_of(puzzle, len(best.spots))
    free = {
        b: free_rectangles(bins[b], [(s.x, s.y, s.w, s.h) for s in best.spots if s.bin == b])
        for b in sorted({s.bin for s in best.spots})
    }
    kerf, keep = puzzle.kerf, keep_mm * UNITS_A_MM
    found: list[tuple[int, Rectangle]] = []
    while True:
        wide = [
            (-net_area(r, kerf), b, r)
            for b, rectangles in free.items()
            for r in rectangles
            if net_area(r, kerf) > 0 and (not found or min(r[2], r[3]) - kerf >= keep)
        ]
        if not wide:
            return found
        _, b, rectangle = min(wide)
        found.append((b, rectangle))
        free[b] = without(free[b], rectangle)


def _placed(name: str, sheet: int, at: Rectangle, kerf: int, turned: bool) -> Placed:
    x, y, w, h = at
    return Placed(
        name=name,
        sheet=sheet,
        from_end_mm=x / UNITS_A_MM,
        from_side_mm=y / UNITS_A_MM,
        along_mm=(w - kerf) / UNITS_A_MM,
        across_mm=(h - kerf) / UNITS_A_MM,
        turned=turned,
    )
