"""The lines of a quote that a scheme asks for."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said
from counterhoop.quantities.money import Money
from counterhoop.scheme.plan import PartLine, WorkLine
from counterhoop.scheme.price import bench_minor
from counterhoop.shell.shop_rules import ShopFigures


def lines_of_scheme(
    parts: Sequence[PartLine], work: Sequence[WorkLine], *, figures: ShopFigures, drum: str = ""
) -> tuple[QuoteLine, ...]:
    """Return a line for each operation and each sort of part.

    Each line of work is its minutes at the price of an hour, to the nearest coin, halves up: the
    same work is the same amount on every drum. So the lines add up to the scheme's own price of
    its work to within half a coin for each. Parts that lie on the workshop's shelf are paid for
    like those that are bought.

    Parameters
    ----------
    parts, work : sequence
        Of one scheme, with the minutes that it is believed to take.
    figures : ShopFigures
        Price of an hour, and the currency.
    drum : str
        Put in front of keys, so that the lines of several drums stand on one quote.
    """
    before = f"{drum}: " if drum else ""

    def line(kind: Kind, name: str, count: int, minor: int | None) -> QuoteLine:
        amount = None if minor is None else Money(minor=minor, currency=figures.currency)
        return QuoteLine(
            key=f"{before}{kind}: {name}",
            origin=Origin.SCHEME,
            kind=kind,
            stands=Said(says=f"{before}{name}", amount=amount, count=count),
        )

    return (
        *(line(Kind.WORK, w.operation, w.count, bench_minor([w], figures=figures)) for w in work),
        *(line(Kind.PART, p.name, p.count, p.each_minor and p.each_minor * p.count) for p in parts),
    )
