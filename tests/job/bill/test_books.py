"""What goes to whoever keeps the books: every column adds up, no cell is a formula."""

from __future__ import annotations

import csv
import datetime as dt
import io
from decimal import Decimal
from fractions import Fraction

import pytest

from counterhoop.job.bill.books import billed_csv, book_lines, paid_csv, totals_of
from counterhoop.job.bill.credit import credit_of
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.price.line import Kind, typed_line
from counterhoop.job.price.quote import QuoteRules, quote_of
from counterhoop.job.price.tax import NO_TAX, Rounding, Tax, TaxSort
from counterhoop.quantities.money import PLACES, Money


def bill(number: str, currency: str, tax: Tax, *, client: str = "Ann Hallmere") -> Invoice:
    def coins(minor: int) -> Money:
        return Money(minor=minor, currency=currency)

    quote = quote_of(
        [
            typed_line("w", "=true both edges", amount=coins(20001), kind=Kind.WORK),
            typed_line("p", "two heads", amount=coins(4649), kind=Kind.PART, count=2),
        ],
        rules=QuoteRules(round_to=coins(7), tax=tax),
    )
    return invoice_of(quote, number=number, day=dt.date(2026, 3, 4), job="snare", client=client)


def read(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


@pytest.mark.parametrize("currency", PLACES)
@pytest.mark.parametrize("rounding", Rounding)
def test_columns_come_to_the_totals(currency: str, rounding: Rounding) -> None:
    """Independent implementation: the file read back by the csv module, added as decimals."""
    taxes = [
        NO_TAX,
        Tax(sort=TaxSort.ADDED, rate=Fraction(81, 1000), rounding=rounding),
        Tax(sort=TaxSort.ADDED, rate=Fraction(1, 5), included=True, rounding=rounding),
        Tax(
            sort=TaxSort.MARGIN,
            rate=Fraction(1, 5),
            rounding=rounding,
            bought_for=Money(minor=9001, currency=currency),
        ),
    ]
    invoices = [bill(f"{at}", currency, tax) for at, tax in enumerate(taxes, 1)]
    note = credit_of(
        invoices[3],
        number="1",
        day=dt.date(2026, 3, 5),
        why="Torn.",
        amounts={"p": Money(minor=1000, currency=currency)},
    )
    lines = book_lines(invoices, [note])
    (totals,) = totals_of(lines, [])
    rows = read(billed_csv(lines))
    one = Decimal(10) ** PLACES[currency]

    def column(name: str, paper: str = "") -> Decimal:
        return one * sum(Decimal(r[name]) for r in rows if paper in ("", r["paper"] + r["number"]))

    for name in ("net", "tax", "gross"):
        assert column(name) == getattr(totals.billed, name).minor
        for invoice in invoices:
            assert column(name, f"invoice{invoice.number}") == (
                getattr(invoice.sums.total, name).minor
            )
    assert column("tax within margin") == totals.within_margin.minor
    assert column("tax within margin", "invoice4") == invoices[3].sums.within_margin.minor
    assert column("tax within margin", "credit note1") == -note.within_margin.minor < 0
    assert column("gross", "credit note1") == -1000
    assert column("gross") == sum(i.total.minor for i in invoices) - 1000


def test_no_cell_is_a_formula_and_figures_stay_figures() -> None:
    invoice = bill("12", "GBP", NO_TAX, client="@Quennick")
    note = credit_of(invoice, number="1", day=dt.date(2026, 3, 5), why="Agreed.")
    rows = read(billed_csv(book_lines([invoice], [note])))
    assert {row["client"] for row in rows} == {"'@Quennick"}
    assert rows[0]["line"] == "'=true both edges"
    assert (rows[0]["gross"], rows[3]["gross"]) == ("200.01", "-200.01")
    assert [row["against"] for row in rows] == ["", "", "", "12", "12", "12"]
    assert {row["date"] for row in rows} == {"2026-03-04", "2026-03-05"}


def test_payments_by_day_with_what_went_back_below_nothing() -> None:
    def paid(number: str, day: int, minor: int, *, back: bool = False) -> Receipt:
        return Receipt(
            number=number,
            day=dt.date(2026, 3, day),
            job="snare",
            client="Ann Hallmere",
            amount=Money(minor=minor, currency="GBP"),
            how="cash",
            back=back,
        )

    receipts = [paid("10", 9, 500, back=True), paid("9", 9, 100), paid("8", 4, 12000)]
    rows = read(paid_csv(receipts))
    assert [(row["number"], row["amount"]) for row in rows] == [
        ("8", "120.00"),
        ("9", "1.00"),
        ("10", "-5.00"),
    ]
    (totals,) = totals_of([], receipts)
    assert str(totals.came_in) == "116.00 GBP"


def test_the_tenth_bill_of_a_day_comes_after_the_ninth() -> None:
    lines = book_lines([bill("10", "GBP", NO_TAX), bill("9", "GBP", NO_TAX)])
    assert list(dict.fromkeys(line.paper.number for line in lines)) == ["9", "10"]


def test_currencies_are_kept_apart() -> None:
    lines = book_lines([bill("1", "GBP", NO_TAX), bill("2", "EUR", NO_TAX)])
    assert [totals.came_in.currency for totals in totals_of(lines, [])] == ["EUR", "GBP"]
