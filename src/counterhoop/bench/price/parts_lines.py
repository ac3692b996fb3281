"""What a drum needs that is not work: its parts, its heads, its wrap."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from counterhoop.bench.parts.stripped import Stripped
from counterhoop.bench.parts.wants_of_job import wants_of_drum
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said
from counterhoop.parts.comes_apart import Sort
from counterhoop.quantities.money import Money
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.price import price_of
from counterhoop.shell.shop_rules import ShopFigures
from counterhoop.shell.tuning import Tuning

if TYPE_CHECKING:
    from counterhoop.scheme.wrapping import WrapPlan


def part_lines(
    scheme: Scheme, stripped: Stripped, *, book: Book, figures: ShopFigures
) -> tuple[QuoteLine, ...]:
    """Return a line for each sort of part that the scheme adds or the strip-down misses.

    Parts from the workshop's own shelf are paid for like those that are bought. What neither the
    workshop nor the book has a price for has none here either: a person types it, or strikes it.
    """
    new = {part.name for part in scheme.parts}
    return tuple(
        _line(
            f"part: {want.sort.piece}",
            want.sort.piece,
            count=want.count,
            each_minor=_each(want.sort, book=book, figures=figures),
            origin=Origin.SCHEME if want.sort.piece in new else Origin.PARTS,
            figures=figures,
        )
        for want in wants_of_drum(stripped, scheme, book=book).lines
    )


def head_lines(tuning: Tuning | None, *, figures: ShopFigures) -> tuple[QuoteLine, ...]:
    """Return a line for each head that the drum's document of tuning names.

    No book knows its price, nor whether it is on the drum already: a person types the price, or
    strikes the line.
    """
    heads = (("batter", tuning.batter), ("resonant", tuning.resonant)) if tuning else ()
    return tuple(
        _line(
            f"head: {end}",
            f"{end} head, {head.says}" if head.says else f"{end} head",
            count=1,
            each_minor=None,
            origin=Origin.PARTS,
            figures=figures,
        )
        for end, head in heads
        if head is not None
    )


def wrap_lines(plans: Sequence[WrapPlan], *, figures: ShopFigures) -> tuple[QuoteLine, ...]:
    """Return a line for the new sheets of each sort of wrap, for all drums together."""
    return tuple(
        QuoteLine(
            key=f"wrap: {plan.stock.name}",
            origin=Origin.WRAP,
            kind=Kind.MATERIAL,
            stands=Said(
                says=f"new sheet of {plan.stock.name}",
                amount=_money(plan.cost_minor, figures),
                count=plan.nesting.new_sheets,
            ),
        )
        for plan in plans
        if plan.nesting.new_sheets
    )


def _each(sort: Sort, *, book: Book, figures: ShopFigures) -> int | None:
    own = dict(figures.prices_minor)
    if sort.piece in own or not sort.book:
        return own.get(sort.piece)
    try:
        return price_of(book.find(sort.book), figures=figures)
    except BadInput:
        # An entry that the book no longer has.
        return None


def _line(
    key: str, says: str, *, count: int, each_minor: int | None, origin: Origin,
    figures: ShopFigures,
) -> QuoteLine:  # fmt: skip
    amount = _money(None if each_minor is None else each_minor * count, figures)
    return QuoteLine(
        key=key, origin=origin, kind=Kind.PART, stands=Said(says=says, amount=amount, count=count)
    )


def _money(minor: int | None, figures: ShopFigures) -> Money | None:
    return None if minor is None else Money(minor=minor, currency=figures.currency)
