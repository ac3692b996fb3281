"""The rows of a paper with all agreed work of a drum in one, and no cushion beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from counterhoop.job.price.line import Kind
from counterhoop.job.price.shares import share_out
from counterhoop.job.price.sums import Figures, Row, Sums
from counterhoop.quantities.money import Money

OF_RULES: Final = "rules: "
"""So begin the keys of what is put on all work: contingency, what runs over, a round price."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkOf:
    """The work of one drum, as its row says it.

    Attributes
    ----------
    drum : str
        What the keys of its lines begin with, before a slash.
    says : str
    """

    drum: str
    says: str

    def holds(self, row: Row) -> bool:
        """Whether a row is work of this drum."""
        return row.kind is Kind.WORK and row.key.startswith(f"{self.drum}/")


def work_in_one(sums: Sums, works: Sequence[WorkOf]) -> Sums:
    """Return sums with one row for the work of each drum, what is put on all work in it.

    A client agrees to a price for the work: that some of it was a cushion concerns nobody once
    the work is done. Parts, discounts and what a person typed keep rows of their own, and net,
    tax and gross of the whole stay what they were to the last coin. What is put on is shared by
    what the work comes to; where there is none, or a price was asked that would leave less than
    nothing for it, it keeps its row.

    Parameters
    ----------
    sums : Sums
    works : sequence of WorkOf
        A drum without work makes no row.
    """
    own = {of.drum: [row for row in sums.rows if of.holds(row)] for of in works}
    there = [of for of in works if own[of.drum]]
    put_on = [row for row in sums.rows if row.key.startswith(OF_RULES)]
    folded = [*put_on, *(row for rows in own.values() for row in rows)]
    if not there or sum(row.figures.net.minor for row in folded) < 0:
        return sums
    each = [sum((row.figures for row in own[of.drum]), start=_none(sums)) for of in there]
    for row in put_on:
        shares = _shared(row.figures, [one.gross.minor for one in each])
        each = [one + share for one, share in zip(each, shares, strict=True)]
    made = {
        own[of.drum][0].key: Row(
            key=f"{of.drum}/work", says=of.says, kind=Kind.WORK, count=1, figures=figures
        )
        for of, figures in zip(there, each, strict=True)
    }
    gone = {row.key for row in folded}
    rows = (made.get(row.key, row) for row in sums.rows if row.key in made or row.key not in gone)
    return replace(sums, rows=tuple(rows))


def _shared(figures: Figures, by: Sequence[int]) -> list[Figures]:
    """Share net and tax out, each so that it adds up."""
    weights = [max(one, 0) for one in by]
    whole = sum(weights)
    shares = [Fraction(one, whole) if whole else Fraction(1, len(by)) for one in weights]

    def out(of: Money) -> list[Money]:
        coins = share_out(of.minor, [of.minor * share for share in shares])
        return [Money(minor=minor, currency=of.currency) for minor in coins]

    nets_taxes = zip(out(figures.net), out(figures.tax), strict=True)
    return [Figures(net=net, tax=tax, gross=net + tax) for net, tax in nets_taxes]


def _none(sums: Sums) -> Figures:
    nothing = Money(minor=0, currency=sums.paid.currency)
    return Figures(net=nothing, tax=nothing, gross=nothing)
