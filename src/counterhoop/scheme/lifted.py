"""Take a row off a draft as if it had never been put on, and put it down elsewhere."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.scheme.draft import Draft, is_extra
from counterhoop.scheme.plate import held_by_sound_holes
from counterhoop.scheme.put_down import put_down
from counterhoop.scheme.puzzle import Puzzle, Reach, puzzle_for
from counterhoop.scheme.row_put import RowPut
from counterhoop.shell.choice import RowMoved
from counterhoop.shell.shop_rules import ShopRules


def lifted(draft: Draft, put: RowPut) -> Draft:
    """Return the draft without a row that it put on, and without the words true of its place.

    The old holes that it used are what they were before: under a wish that plugs extra holes
    only, an extra one is to be plugged again.
    """
    gone = set(put.labels)
    freed = {use.number for use in draft.uses if use.of in gone}
    plug_only = draft.plug_only
    if plug_only is not None:
        extra = (h.number for h in draft.ground.holes if h.number in freed and is_extra(h))
        plug_only = (*plug_only, *(number for number in extra if number not in plug_only))
    steps = tuple(
        (step[0], *(word for word in step[1:] if place != put.step or word not in put.only_here))
        for place, step in enumerate(draft.steps)
    )
    return replace(
        draft,
        fittings=tuple(f for f in draft.fittings if f.status != "new" or f.label not in gone),
        uses=tuple(use for use in draft.uses if use.of not in gone),
        cuts=tuple(cut for cut in draft.cuts if cut.of not in gone),
        plug_only=plug_only,
        open_under=tuple(n for n in draft.open_under if n not in put.wanted.over),
        steps=steps,
        spoken=tuple(said for said in draft.spoken if said not in put.only_here),
        rows=tuple(row for row in draft.rows if row.name != put.name),
    )


def asked(draft: Draft, put: RowPut, *, rules: ShopRules) -> Puzzle:
    """Return what the search is asked about a lifted row: any place will do, barred or not."""
    return replace(puzzle_for(draft, put.wanted, reach=Reach(), rules=rules), bars=())


def put_again(draft: Draft, put: RowPut, move: RowMoved, *, puzzle: Puzzle, within: str) -> Draft:
    """Put a lifted row down, so far from where it was, with the best use of old holes there.

    ``puzzle`` is what the search is asked about this row on this draft. Where the row may not
    stand it stands all the same, and the findings say what is in its way.
    """
    found = puzzle.at(put.turn_mm + move.right_mm, put.down_mm + move.down_mm)
    placed = put_down(draft, put.wanted, found, puzzle=puzzle, within=within)
    if not put.wanted.over:
        return placed.draft
    return held_by_sound_holes(draft, placed.draft)


def in_order(draft: Draft, whole: Draft) -> Draft:
    """Return a draft whose rows and fittings stand in the order that they had."""
    rows = [row.name for row in whole.rows]
    fittings = {(f.label, f.status): place for place, f in enumerate(whole.fittings)}
    return replace(
        draft,
        rows=tuple(sorted(draft.rows, key=lambda row: rows.index(row.name))),
        fittings=tuple(sorted(draft.fittings, key=lambda f: fittings[f.label, f.status])),
    )
