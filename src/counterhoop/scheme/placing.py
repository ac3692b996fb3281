"""Put a row of fittings, or one fitting, where the old holes serve best."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from counterhoop.scheme.draft import Draft
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.put_down import Placed, put_down
from counterhoop.scheme.puzzle import Puzzle, Reach, puzzle_for
from counterhoop.scheme.reuse import Reuse
from counterhoop.shell.shop_rules import ShopRules

if TYPE_CHECKING:
    from counterhoop.scheme.row import RowWanted


def place_row(draft: Draft, wanted: RowWanted, *, reach: Reach, rules: ShopRules) -> Placed:
    """Place a row by the exact search for the best use of the holes that are there."""
    puzzle = puzzle_for(draft, wanted, reach=reach, rules=rules)
    found, fouls = puzzle.best(), ""
    if found is None:
        found = puzzle.best_regardless()
        fouls = _what_fouls(found, puzzle) or "a hole that stays"
    else:
        found = seated(found, puzzle)
    return put_down(draft, wanted, found, puzzle=puzzle, within=reach.says, fouls=fouls)


def seated(found: Reuse, puzzle: Puzzle) -> Reuse:
    """Move a row from the rim of its best cell to where the holes it uses fit best.

    The place nearest to what the eye expects lies on the rim of the play of some screw, where the
    doubt of a reading decides whether the hole serves at all. Within the window no eye sees the
    difference, so the row sits on the mean of its holes, when it is worth as much there.
    """
    if not found.matches or found.from_ideal_mm == 0.0:
        return found
    window, count = puzzle.window, len(found.matches)
    turn = found.turn_mm + sum(m.off_along_mm for m in found.matches) / count
    down = found.down_mm + sum(m.off_down_mm for m in found.matches) / count
    there = puzzle.at(
        min(max(turn, window.turn_min_mm), window.turn_max_mm),
        min(max(down, window.down_min_mm), window.down_max_mm),
    )
    if not there.free or there.value < found.value:
        return found
    return replace(there, candidates=found.candidates, proven=found.proven)


def _what_fouls(found: Reuse, puzzle: Puzzle) -> str:
    import shapely

    names = []
    for bar in puzzle.bars:
        region = shapely.Polygon(bar.corners, bar.holes)
        for fitting in puzzle.row.fittings:
            for copy in (-1, 0, 1):
                x = found.turn_mm + fitting.along_mm + copy * puzzle.row.girth_mm
                if region.contains(shapely.Point(x, found.down_mm)):
                    names.append(bar.of)
    return _said_together(dict.fromkeys(names))


def _said_together(names: Iterable[str]) -> str:
    """Join names; lugs of one row are said at once."""
    rows: dict[str, list[str]] = {}
    for name in names:
        rows.setdefault(name.rstrip("0123456789 "), []).append(name)
    said = [one[0] if len(one) == 1 else f"the {stem}s" for stem, one in rows.items()]
    return listed(said) if said else ""
