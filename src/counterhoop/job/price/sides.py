"""Two to four quotes beside each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sums import Row
from counterhoop.quantities.money import Money

FEWEST, MOST = 2, 4


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRow:
    """One thing in each quote.

    Attributes
    ----------
    says : str
        Where they say it in other words, each once.
    amounts : tuple of Money or None
        To be paid by the client, in the order of the quotes; None where it is not in one.
    same : bool
        Whether it is the same in all.
    """

    says: str
    amounts: tuple[Money | None, ...]
    same: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """Quotes side by side: each column of amounts adds up to its price.

    Attributes
    ----------
    titles : tuple of str
    rows : tuple of SideRow
        What differs first, then what is the same in all.
    prices, ceilings : tuple of Money
    dearer : tuple of Money
        By how much each is above the first; below zero where it is cheaper.
    extra_holes : tuple of int
    """

    titles: tuple[str, ...]
    rows: tuple[SideRow, ...]
    prices: tuple[Money, ...]
    ceilings: tuple[Money, ...]
    dearer: tuple[Money, ...]
    extra_holes: tuple[int, ...]


def side_by_side(quotes: Mapping[str, Quote]) -> Sides:
    """Return two to four quotes as one table.

    Parameters
    ----------
    quotes : mapping of str to Quote
        By the title of the scheme, in the order of the columns.

    Raises
    ------
    BadInput
        For one quote, more than four, or two currencies.
    """
    if not FEWEST <= len(quotes) <= MOST:
        raise BadInput(
            "too few or too many to compare",
            where="quotes",
            given=len(quotes),
            wanted=f"{FEWEST} to {MOST} quotes",
        )
    all_of = tuple(quotes.values())
    by_key = [{row.key: row for row in quote.sums.rows} for quote in all_of]
    keys = dict.fromkeys(key for rows in by_key for key in rows)
    table = [_across([rows.get(key) for rows in by_key]) for key in keys]
    return Sides(
        titles=tuple(quotes),
        rows=tuple(sorted(table, key=lambda row: row.same)),
        prices=tuple(quote.price for quote in all_of),
        ceilings=tuple(quote.ceiling.gross for quote in all_of),
        dearer=tuple(quote.price - all_of[0].price for quote in all_of),
        extra_holes=tuple(quote.extra_holes for quote in all_of),
    )


def _across(rows: list[Row | None]) -> SideRow:
    amounts = tuple(None if row is None else row.figures.gross for row in rows)
    counts = tuple(0 if row is None else row.count for row in rows)
    return SideRow(
        says=" / ".join(dict.fromkeys(row.says for row in rows if row is not None)),
        amounts=amounts,
        same=len(set(zip(amounts, counts, strict=True))) == 1,
    )
