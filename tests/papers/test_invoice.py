"""Invoice, credit note and receipt: their numbers, their sums, and that the files are kept."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from documents import pages, words
from example_bills import FIFTH, credit, deposit, gbp, invoice, quote
from example_letters import DAY, LONG, head_of
from pypdf import PdfReader

from counterhoop.job.bill.credit import credit_of
from counterhoop.job.bill.invoice import invoice_of
from counterhoop.job.price.line import typed_line
from counterhoop.job.price.quote import QuoteRules, quote_of
from counterhoop.papers.invoice import (
    credit_data,
    credit_pdf,
    invoice_pdf,
    receipt_data,
    receipt_pdf,
)


def test_what_an_invoice_says() -> None:
    """By hand: 335.00 and a fifth are 402.00; less the deposit of 67.00, 335.00."""
    made = invoice_pdf(invoice(tax=FIFTH), head=head_of(), to_pay=("Within fourteen days.",))
    said = words(made)
    for line in (
        "Invoice 2026-007",
        "to A. Player 9 Ferry Lane, Hallmere",
        "without tax, GBP tax to pay, GBP",
        "plug a hole 8 60.00 12.00 72.00",
        "in all 335.00 67.00 402.00",
        "Tax at 20 % is added to the prices",
        "paid already, receipt R-31 67.00 GBP",
        "to be paid 335.00 GBP",
        "Within fourteen days.",
        "date 4 March 2026",
    ):
        assert line in said, line


def test_a_workshop_that_charges_no_tax_prints_none() -> None:
    said = words(invoice_pdf(invoice(), head=head_of()))
    assert "tax" not in said
    assert "in all 335.00" in said
    assert "to be paid 268.00 GBP" in said  # 335.00 - 67.00


def test_what_was_paid_too_much_goes_back() -> None:
    """By hand: 335.00 less 500.00."""
    paid = replace(deposit(), amount=gbp(50000))
    made = invoice_of(quote(), number="8", day=DAY, job="17", deposits=[paid])
    said = words(invoice_pdf(made, head=head_of(), to_pay=("Within fourteen days.",)))
    assert "to be paid back 165.00 GBP" in said
    assert "Within fourteen days." not in said


def test_what_a_credit_note_says() -> None:
    said = words(credit_pdf(credit(), head=head_of()))
    for line in (
        "Credit note C-2",
        "against invoice 2026-007",
        "One head was the client's own.",
        "head, 12 in 23.25",
        "taken back 23.25",
        "taken back of invoice 2026-007 23.25 GBP",
    ):
        assert line in said, line
    assert "how many" not in said  # half of what two came to is not the price of two


def test_a_note_that_mends_an_earlier_one_asks_for_it_again() -> None:
    """By hand: of 46.50 taken back, 23.25 should have stayed; 23.25 is asked for again."""
    head_too_many = credit_of(
        invoice(), number="C-1", day=DAY, why="Torn.", amounts={"heads": gbp(4650)}
    )
    mended = credit_of(
        invoice(), number="C-2", day=DAY, why="Only one was torn.",
        amounts={"heads": gbp(-2325)}, earlier=[head_too_many],
    )  # fmt: skip
    data = credit_data(mended, head=head_of())
    assert data["large"] == ("asked for again of invoice 2026-007", "23.25 GBP")
    assert data["lines"]["total"] == ["−23.25"]


def test_a_deposit_that_goes_back_is_said_so() -> None:
    data = receipt_data(replace(deposit(), back=True), head=head_of())
    assert data["large"] == ("paid back to A. Player, of a deposit, before the bill", "67.00 GBP")


def test_what_a_receipt_says() -> None:
    said = words(receipt_pdf(deposit(), head=head_of()))
    assert "received from A. Player, as a deposit, before the bill 67.00 GBP" in said
    assert "paid cash" in said
    assert "for the workshop" in said
    back = replace(deposit(), back=True, against="2026-007", client="")
    said = words(receipt_pdf(back, head=head_of(client="")))
    assert "paid back, on invoice 2026-007 67.00 GBP" in said
    assert "received by" in said  # who takes the money signs for it
    assert "for the workshop" not in said


def test_all_three_are_written_to_be_kept() -> None:
    """ISO 19005-2 and ISO 14289-1, from the metadata; the day of the paper and no other."""
    elsewhere = head_of(date=None)
    made = (
        invoice_pdf(invoice(), head=elsewhere),
        credit_pdf(credit(), head=elsewhere),
        receipt_pdf(deposit(), head=elsewhere),
    )
    for pdf in made:
        reader = PdfReader(io.BytesIO(pdf))
        metadata = reader.trailer["/Root"]["/Metadata"].get_data()
        assert b"<pdfaid:part>2</pdfaid:part>" in metadata
        assert b"<pdfuaid:part>1</pdfuaid:part>" in metadata
        assert reader.metadata is not None
        assert str(reader.metadata.creation_date)[:10] == "2026-03-04"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_sixty_lines(paper: str) -> None:
    lines = [typed_line(f"{n}", f"line {n}, {LONG}", amount=gbp(1000)) for n in range(60)]
    offer = quote_of(lines, rules=QuoteRules(round_to=gbp(500)))
    made = invoice_of(offer, number="9", day=DAY, job="17", client=LONG)
    sheets = pages(invoice_pdf(made, head=head_of(client_lines=(LONG, LONG)), paper=paper))
    assert "price, GBP" in sheets[1]
    assert "line 59" in sheets[-1]
    assert "in all" in sheets[-1]
