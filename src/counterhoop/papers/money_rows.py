"""Rows of money as papers print them: the currency once at the head, sums that are their rows'."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.job.price.sums import Figures, Row
from counterhoop.quantities.money import Money, print_money


def amount_said(money: Money) -> str:
    """Print an amount for a column that names its currency; a minus as wide as a figure.

    Examples
    --------
    >>> amount_said(Money(minor=-1250, currency="GBP")), amount_said(Money(minor=9, currency="EUR"))
    ('−12.50', '0.09')
    """
    return print_money(money).removesuffix(f" {money.currency}").replace("-", "−")


def rows_data(rows: Sequence[Row], *, total: Figures, named: str = "in all") -> dict[str, Any]:
    """Return a table of rows and their sum, as plain data; with tax in two columns more.

    Parameters
    ----------
    rows : sequence of Row
        In the order in which they are printed.
    total : Figures
        Their sum.
    named : str
        What stands before the sum.

    Raises
    ------
    BadInput
        For rows that do not add up to their sum: no such paper leaves the workshop.
    """
    nothing = Money(minor=0, currency=total.gross.currency)
    added = sum(
        (row.figures for row in rows), start=Figures(net=nothing, tax=nothing, gross=nothing)
    )
    if added != total:
        raise BadInput(
            "the rows do not add up to their sum", where=named, given=str(total.gross),
            wanted=str(added.gross), step="Make the paper anew from its lines.",
        )  # fmt: skip
    taxed = any(row.figures.tax.minor for row in rows)

    def cells(figures: Figures) -> list[str]:
        shown = (figures.net, figures.tax, figures.gross) if taxed else (figures.gross,)
        return [amount_said(money) for money in shown]

    return {
        "currency": nothing.currency,
        "taxed": taxed,
        "counted": any(row.count != 1 for row in rows),
        "rows": [
            {
                "says": row.says,
                "count": str(row.count) if row.count != 1 else "",
                "amounts": cells(row.figures),
            }
            for row in rows
        ],
        "named": named,
        "total": cells(total),
    }
