"""A row of a scheme put by hand at another place, and everything reckoned anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterhoop.errors import BadInput
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.draft import Draft
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.lifted import asked, in_order, lifted, put_again
from counterhoop.scheme.movable import MovableRow, movable_rows, row_called
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.puzzle import Puzzle
from counterhoop.scheme.row_put import RowPut
from counterhoop.scheme.says_why import why_moved
from counterhoop.scheme.schemes import Shop, scheme_of
from counterhoop.shell.choice import RowMoved

Later = tuple[tuple[RowPut, RowMoved], ...]


def moved(
    scheme: Scheme, moves: Sequence[RowMoved], *, shop: Shop, others: tuple[Layout, ...] = ()
) -> Scheme:
    """Return the scheme with rows at exactly the places that somebody put them.

    Every old hole under a moved row gets its verdict by the planner's own rules at that place;
    all else of the scheme stays where it is. The order of the moves does not matter.

    Parameters
    ----------
    scheme : Scheme
        As worked out, or moved before: moves count from where it was worked out to stand.
    moves : sequence of RowMoved
        Each row at most once. Without a move that moves anything: the scheme as worked out.
    shop : Shop
        As it was worked out with.
    others : tuple of Layout
        The other drums of the job.

    Raises
    ------
    BadInput
        For a row that the scheme does not put on, one that would leave the shell, or one that is
        moved twice.
    """
    rows = [row_called(scheme, move.row) for move in moves]
    if len({row.name for row in rows}) < len(rows):
        raise BadInput("the same row moved twice", where=f"drums.{scheme.drum}.chosen.moved")
    last = [
        (row, move) for row, move in zip(rows, moves, strict=True) if move.right_mm or move.down_mm
    ]
    if not last:
        return _as_worked_out(scheme, shop=shop, others=others)
    row, move = last[-1]
    hand = in_hand(scheme, row.name, moves=[m for _, m in last[:-1]], shop=shop, others=others)
    return hand.at(right_mm=move.right_mm, down_mm=move.down_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowInHand:
    """One row lifted off a scheme, ready to be put down anywhere: for a row that is dragged.

    ``before`` is the drum with the rows that are put on again after it still off.
    """

    row: MovableRow
    base: Scheme
    moves: tuple[RowMoved, ...]
    put: RowPut
    before: Draft
    puzzle: Puzzle
    later: Later
    shop: Shop
    others: tuple[Layout, ...] = ()

    def at(self, *, right_mm: float, down_mm: float) -> Scheme:
        """Return the scheme with the row so far from where the scheme put it.

        Raises
        ------
        BadInput
            When a hole of it would leave the shell.
        """
        self.row.check(right_mm=right_mm, down_mm=down_mm)
        move = RowMoved(row=self.row.name, right_mm=right_mm, down_mm=down_mm)
        draft = put_again(self.before, self.put, move, puzzle=self.puzzle, within=WITHIN)
        for put, other in self.later:
            puzzle = asked(draft, put, rules=self.shop.rules)
            draft = put_again(draft, put, other, puzzle=puzzle, within=WITHIN)
        whole = self.base.made_from
        assert whole is not None
        made = scheme_of(in_order(draft, whole), shop=self.shop, others=self.others)
        moves = (*self.moves, move)
        words = moved_words(self.base, moves)
        made = replace(
            made,
            number=self.base.number,
            title=f"{made.title}; {words}",
            centred=_centred(whole, draft, rules_mm=self.shop.rules.off_middle_mm),
            moved=moves,
            moved_from=self.base.number,
            made_from=whole,
        )
        rules, figures = self.shop.rules, self.shop.figures
        return replace(made, why=why_moved(made, self.base, rules=rules, figures=figures))


WITHIN = "where it was put by hand"


def in_hand(
    scheme: Scheme,
    row: str,
    *,
    shop: Shop,
    others: tuple[Layout, ...] = (),
    moves: Sequence[RowMoved] = (),
) -> RowInHand:
    """Lift one row off a scheme; ``moves`` are those of its other rows.

    Raises
    ------
    BadInput
        As ``moved``.
    """
    mine = row_called(scheme, row)
    base = _as_worked_out(scheme, shop=shop, others=others)
    whole = base.made_from
    assert whole is not None
    shifts = {}
    for move in moves:
        other = row_called(scheme, move.row)
        other.check(right_mm=move.right_mm, down_mm=move.down_mm)
        if other.name != mine.name:
            shifts[other.name] = replace(move, row=other.name)
    at = next(i for i, put in enumerate(whole.rows) if put.name == mine.name)
    draft = whole
    for put in whole.rows:
        if put.name == mine.name or put.name in shifts:
            draft = lifted(draft, put)
    for put in whole.rows[:at]:
        if put.name in shifts:
            puzzle = asked(draft, put, rules=shop.rules)
            draft = put_again(draft, put, shifts[put.name], puzzle=puzzle, within=WITHIN)
    put = whole.rows[at]
    return RowInHand(
        row=mine,
        base=base,
        moves=tuple(shifts.values()),
        put=put,
        before=draft,
        puzzle=asked(draft, put, rules=shop.rules),
        later=tuple((put, shifts[put.name]) for put in whole.rows[at + 1 :] if put.name in shifts),
        shop=shop,
        others=others,
    )


def moved_words(scheme: Scheme, moves: Sequence[RowMoved]) -> str:
    """Say what was moved by hand and how far, to what a rule can tell."""
    rows = {row.name: row for row in movable_rows(scheme)}
    said = []
    for move in sorted(moves, key=lambda move: list(rows).index(move.row)):
        ways = []
        for off_mm, less, more in (
            (move.right_mm, "to the left", "to the right"),
            (move.down_mm, "toward the batter edge", "toward the resonant edge"),
        ):
            far = print_mm(abs(off_mm))
            if far != print_mm(0.0):
                ways.append(f"{far} {more if off_mm > 0 else less}")
        far = listed(ways) if ways else "by less than half a millimetre"
        said.append(f"{rows[move.row].says} moved by hand {far}")
    return listed(said)


def _as_worked_out(scheme: Scheme, *, shop: Shop, others: tuple[Layout, ...]) -> Scheme:
    """The scheme that nothing of was moved, held against the same drums."""
    if scheme.made_from is None:
        raise RuntimeError("a scheme that was not settled from a draft")
    fresh = scheme_of(scheme.made_from, shop=shop, others=others)
    why = "" if scheme.moved else scheme.why
    return replace(fresh, number=scheme.moved_from or scheme.number, why=why)


def _centred(before: Draft, after: Draft, *, rules_mm: float) -> bool:
    """Whether rows still lie on their proper heights; an odd angle stays one."""

    def off(draft: Draft) -> bool:
        return any(
            row.wanted.head and abs(row.proof.off_middle_mm) > rules_mm + 1e-6 for row in draft.rows
        )

    return not off(after) and (before.centred or off(before))
