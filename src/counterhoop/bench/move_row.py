"""Move a row of a scheme by hand and see what becomes of it, the other drums as chosen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.share_stock import stock_shared
from counterhoop.bench.take import number_beside, scheme_chosen
from counterhoop.errors import BadInput
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.movable import MovableRow, movable_rows
from counterhoop.scheme.moved import RowInHand, in_hand, moved
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.choice import RowMoved


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldRow:
    """One row of a planned job's scheme in hand: ``at`` tells what any place of it comes to."""

    plan: JobPlan
    hand: RowInHand

    @property
    def row(self) -> MovableRow:
        """What is held, and how far it can go."""
        return self.hand.row

    def at(self, *, right_mm: float, down_mm: float) -> Scheme:
        """Return the scheme with the row so far from where the scheme put it.

        Raises
        ------
        BadInput
            When it would leave the shell.
        """
        return _in_the_kit(self.hand.at(right_mm=right_mm, down_mm=down_mm), self.plan)


def rows_of(scheme: Scheme) -> tuple[MovableRow, ...]:
    """Return the rows of a scheme that can be moved by hand."""
    return movable_rows(scheme)


def row_moved(
    plan: JobPlan, *, drum: str, scheme_code: str, moves: Sequence[RowMoved], title: str = ""
) -> Scheme:
    """Return a scheme with its rows moved: what a plan with this choice would give the drum.

    Parameters
    ----------
    scheme_code : str
        Of the scheme as worked out, before any move.
    moves : sequence of RowMoved
        From where the scheme put its rows; nothing moved gives the scheme as worked out.
    title : str
        Its heading, where two schemes have one code.

    Raises
    ------
    BadInput
        For a drum, a code or a row that is not there, or a row moved off the shell.
    """
    base = _base(plan, drum=drum, code=scheme_code, title=title)
    others = _others(plan, drum=base.drum)
    return _in_the_kit(moved(base, moves, shop=plan.opened.shop, others=others), plan)


def row_held(
    plan: JobPlan,
    *,
    drum: str,
    scheme_code: str,
    row: str,
    moves: Sequence[RowMoved] = (),
    title: str = "",
) -> HeldRow:
    """Take a row in hand, to ask of many places what they come to; ``moves`` are of other rows.

    Raises
    ------
    BadInput
        As ``row_moved``.
    """
    base = _base(plan, drum=drum, code=scheme_code, title=title)
    others = _others(plan, drum=base.drum)
    hand = in_hand(base, row, shop=plan.opened.shop, others=others, moves=moves)
    return HeldRow(plan=plan, hand=hand)


def _base(plan: JobPlan, *, drum: str, code: str, title: str) -> Scheme:
    one = plan.drum(drum)
    base = scheme_chosen(code, one.ranked, title=title)
    if base is None:
        codes = ", ".join(s.code for s in one.ranked.every if not s.moved)
        raise BadInput(
            "no scheme of that code",
            where=f"drums.{one.key}.chosen.scheme",
            given=code,
            wanted=f"one of {codes}" if codes else "a drum of which something is wished",
        )
    return base


def _others(plan: JobPlan, *, drum: str) -> tuple[Layout, ...]:
    return tuple(d.chosen.layout for d in plan.drums if d.chosen and d.key != drum)


def _in_the_kit(scheme: Scheme, plan: JobPlan) -> Scheme:
    """Give a scheme its share of the stock, and the number that it has beside the others."""
    shop = plan.opened.shop
    chosen = [
        scheme if d.key == scheme.drum else d.chosen for d in plan.drums if d.chosen is not None
    ]
    shared = stock_shared(chosen, stock=shop.stock, figures=shop.figures)
    mine = next(s for s in shared if s.drum == scheme.drum)
    if not mine.moved:
        return mine
    return replace(mine, number=number_beside(mine, plan.drum(mine.drum).ranked))
