"""Money out of the house: rows for whoever keeps the books, and totals that are theirs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.price.shares import share_out
from counterhoop.job.price.sums import Figures, Row
from counterhoop.parts.rows.csv_cell import csv_text
from counterhoop.quantities.money import Money, print_money

BILLED = (
    *("paper", "number", "date", "job", "client", "against", "line", "kind", "count"),
    *("net", "tax", "gross", "currency", "tax within margin"),
)
PAID = ("number", "date", "job", "client", "against", "how", "amount", "currency")


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLine:
    """One line of an invoice, or of a credit note with its figures below zero."""

    paper: Invoice | CreditNote
    row: Row
    figures: Figures
    within_margin: Money


def book_lines(
    invoices: Iterable[Invoice], credits: Iterable[CreditNote] = ()
) -> tuple[BookLine, ...]:
    """Return every line that was billed or taken back, by day and number."""
    papers: list[Invoice | CreditNote] = [*invoices, *credits]
    papers.sort(key=lambda one: (one.day, isinstance(one, CreditNote), *in_turn(one.number)))
    return tuple(line for paper in papers for line in _lines_of(paper))


def _lines_of(paper: Invoice | CreditNote) -> Iterator[BookLine]:
    taken_back = isinstance(paper, CreditNote)
    rows = paper.rows if isinstance(paper, CreditNote) else paper.sums.rows
    within = paper.within_margin if isinstance(paper, CreditNote) else paper.sums.within_margin
    gross = [row.figures.gross.minor for row in rows]
    quotas = [Fraction(within.minor * minor, sum(gross) or 1) for minor in gross]
    for row, share in zip(rows, share_out(within.minor, quotas) if rows else (), strict=True):
        yield BookLine(
            paper=paper,
            row=row,
            figures=-row.figures if taken_back else row.figures,
            within_margin=Money(minor=-share if taken_back else share, currency=within.currency),
        )


def billed_csv(lines: Iterable[BookLine]) -> str:
    """Return lines as CSV: sums of its columns are the totals of the papers."""
    return csv_text([BILLED, *map(_billed, lines)])


def _billed(line: BookLine) -> tuple[str, ...]:
    paper, row, figures = line.paper, line.row, line.figures
    is_note = isinstance(paper, CreditNote)
    return (
        "credit note" if is_note else "invoice",
        paper.number,
        paper.day.isoformat(),
        paper.job,
        paper.client,
        paper.against if isinstance(paper, CreditNote) else "",
        row.says,
        row.kind,
        str(row.count),
        _plain(figures.net),
        _plain(figures.tax),
        _plain(figures.gross),
        figures.gross.currency,
        _plain(line.within_margin),
    )


def paid_csv(receipts: Iterable[Receipt]) -> str:
    """Return payments as CSV, by day and number; what went back is below zero."""
    return csv_text(
        [
            PAID,
            *(
                (
                    *(one.number, one.day.isoformat(), one.job, one.client, one.against, one.how),
                    *(_plain(one.came_in), one.amount.currency),
                )
                for one in sorted(receipts, key=lambda one: (one.day, *in_turn(one.number)))
            ),
        ]
    )


def in_turn(number: str) -> tuple[int, str]:
    """Return what running numbers are sorted by, so that 10 comes after 9.

    Examples
    --------
    >>> sorted(["10", "9"], key=in_turn), sorted(["2026-10", "2026-9"], key=in_turn)
    (['9', '10'], ['2026-9', '2026-10'])
    """
    return len(number), number


def _plain(money: Money) -> str:
    return print_money(money).removesuffix(f" {money.currency}")


@dataclass(frozen=True, slots=True, kw_only=True)
class BookTotals:
    """One currency's totals: billed less taken back, and what came in less what went back."""

    billed: Figures
    within_margin: Money
    came_in: Money


def totals_of(lines: Sequence[BookLine], receipts: Sequence[Receipt]) -> tuple[BookTotals, ...]:
    """Return the totals of each currency, in the order of its letters."""
    currencies = {line.within_margin.currency for line in lines}
    currencies |= {receipt.amount.currency for receipt in receipts}
    return tuple(_totals(lines, receipts, currency=currency) for currency in sorted(currencies))


def _totals(lines: Sequence[BookLine], receipts: Sequence[Receipt], *, currency: str) -> BookTotals:
    nothing = Money(minor=0, currency=currency)
    own = [line for line in lines if line.within_margin.currency == currency]
    paid = [receipt for receipt in receipts if receipt.amount.currency == currency]
    return BookTotals(
        billed=sum(
            (line.figures for line in own), start=Figures(net=nothing, tax=nothing, gross=nothing)
        ),
        within_margin=sum((line.within_margin for line in own), start=nothing),
        came_in=sum((receipt.came_in for receipt in paid), start=nothing),
    )
