"""Invoices, credit notes and receipts are kept as JSON and come back as they were."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from running_samples import DAY, PLAIN, given_out, receipt
from store_samples import stamp

from counterhoop.errors import BadInput
from counterhoop.job.bill.credit import credit_of
from counterhoop.job.bill.invoice import Invoice, invoice_of
from counterhoop.job.price.line import Kind, typed_line
from counterhoop.job.price.quote import QuoteRules, quote_of
from counterhoop.job.price.tax import Tax, TaxSort
from counterhoop.quantities.money import Money
from counterhoop.store.body import read_body, write_body
from counterhoop.store.running.bills import Bill, body_of_bill, issue_bill, read_bill
from counterhoop.store.running.issued import Issued
from counterhoop.store.store import Store


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def bill(number: str, *, work: int = 20000, rate: Fraction = Fraction(1, 5)) -> Invoice:
    lines = [
        typed_line("w", "true both edges, ½ a day", amount=gbp(work), kind=Kind.WORK),
        typed_line("p", "two heads", amount=gbp(4650), kind=Kind.PART),
    ]
    tax = Tax(sort=TaxSort.ADDED, rate=rate)
    quote = quote_of(lines, rules=QuoteRules(round_to=gbp(500), tax=tax))
    paid = replace(receipt("3"), job="marching snare")
    return invoice_of(quote, number=number, day=DAY, job="marching snare", deposits=[paid])


def again(kind: str, paper: Bill) -> Bill:
    kept = Issued(
        entry=1, series=kind, number=paper.number, kind=kind, job_id=None, day=paper.day,
        why_earlier="", body=read_body(write_body(body_of_bill(paper))),
        made_at=stamp().when, bench="phone",
    )  # fmt: skip
    return read_bill(kept)


@given(st.integers(1, 10**7), st.fractions(0, 1, max_denominator=1000), st.integers(1, 4650))
def test_any_bill_comes_back(work: int, rate: Fraction, off: int) -> None:
    """Exact law: coins, shares and days are the same to the last."""
    invoice = bill("2026-0012", work=work, rate=rate)
    assert again("invoice", invoice) == invoice
    note = credit_of(invoice, number="1", day=DAY, why="one head", amounts={"p": gbp(off)})
    assert again("credit note", note) == note
    paid = replace(receipt("7"), amount=gbp(work), back=True)
    assert again("receipt", paid) == paid


def test_an_invoice_is_given_out_and_credited(file_store: Store) -> None:
    with file_store.writing() as w:
        kept, invoice = issue_bill(
            w, bill, kind="invoice", style=PLAIN, job_id=None, day=DAY, stamp=stamp()
        )
        assert isinstance(invoice, Invoice)
        noted, _ = issue_bill(
            w,
            lambda number: credit_of(invoice, number=number, day=DAY, why="lent, not sold"),
            kind="credit note", style=PLAIN, series="invoice", job_id=None, day=DAY, stamp=stamp(),
        )  # fmt: skip
    # Both count in one series, where the workshop wishes it.
    assert [kept.number, noted.number, noted.series] == ["1", "2", "invoice"]
    assert read_bill(kept) == invoice


def test_what_is_no_bill_is_not_read_as_one(file_store: Store) -> None:
    with file_store.writing() as w:
        quote = given_out(w, series="quote")
        with pytest.raises(BadInput, match="no bill"):
            read_bill(quote)
        with pytest.raises(BadInput, match="not what was to be given out"):
            issue_bill(w, receipt, kind="invoice", style=PLAIN, job_id=None, day=DAY, stamp=stamp())
        with pytest.raises(BadInput, match="not what was to be given out"):
            issue_bill(
                w, lambda number: receipt(number, day=DAY + dt.timedelta(days=1)),
                kind="receipt", style=PLAIN, job_id=None, day=DAY, stamp=stamp(),
            )  # fmt: skip
