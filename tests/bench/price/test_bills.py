"""Bills of a job: each number once, none left out, nothing billed or taken off twice.

Truth: worked by hand.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import pytest
from priced_job import BY, OnTheBench, offered, saved, text_of, told

from counterhoop.bench.folders.kinds import ARRIVAL, BILL, FOUND
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.price.bills import bills_of_job, give_credit, give_invoice, give_receipt
from counterhoop.bench.price.offers import accept
from counterhoop.bench.price.terms import write_terms
from counterhoop.bench.record.bill_kept import bill_kept
from counterhoop.errors import BadInput
from counterhoop.job.bill.done import ChangeCharged
from counterhoop.quantities.money import Money

DAY = "2030-05-14"
ON: Mapping[str, Any] = {"day": DAY, "by": BY}
PAID: Mapping[str, Any] = {**ON, "how": "cash", "currency": "GBP"}


def agreed(bench: OnTheBench) -> None:
    offered(bench, day=DAY)
    yes = {"who": "Tobin Ashgrove", "when": DAY, "how": "by letter"}
    saved(accept(bench.shop, bench.job, 1, **yes, **told(bench)))


def test_deposit_invoice_payment_and_nothing_twice(snare: OnTheBench) -> None:
    shop = snare.shop
    with pytest.raises(BadInput, match="no offer is accepted"):
        give_invoice(shop, snare.job, **ON)
    agreed(snare)
    give_receipt(shop, snare.job, amount="100", **PAID)
    price = snare.quote().kept.offers[0].quote.price
    too_much = ChangeCharged(
        key="gold", says="gold leaf", amount=Money(minor=10**6, currency="GBP")
    )
    with pytest.raises(BadInput, match="above the ceiling"):
        give_invoice(shop, snare.job, changes=[too_much], **ON)
    # The refused one took no number with it.
    bill = give_invoice(shop, snare.job, mark="form 1", **ON)
    assert (bill.number, bill.total, bill.deposits) == ("1", price, ("1",))
    assert bill.sums.left.minor == price.minor - 10000
    assert give_invoice(shop, snare.job, mark="form 1", **ON) == bill  # sent twice
    with pytest.raises(BadInput, match="billed already"):
        give_invoice(shop, snare.job, **ON)
    with pytest.raises(BadInput, match="more than is still to be paid"):
        give_receipt(shop, snare.job, amount=str(price), against="1", **PAID)
    rest = give_receipt(shop, snare.job, amount=str(bill.sums.left), against="1", **PAID)
    assert rest.number == "2"
    bills = bills_of_job(shop, snare.job)
    assert bills.due(bills.invoice("1")).minor == 0
    assert not bills.deposits


def test_a_bill_is_taken_back_whole_and_written_anew(snare: OnTheBench) -> None:
    shop = snare.shop
    saved(write_terms(shop, {"by_year": True, "digits": "3"}, based_on=0, by=BY))
    agreed(snare)
    first = give_invoice(shop, snare.job, **ON)
    note = give_credit(shop, snare.job, against=first.number, why="The name was wrong.", **ON)
    assert (first.number, note.number) == ("2030-001", "2030-001")
    assert note.total == first.sums.total
    assert give_invoice(shop, snare.job, **ON).number == "2030-002"
    with pytest.raises(BadInput):
        give_credit(shop, snare.job, against=first.number, why="Once more.", **ON)
    with pytest.raises(BadInput, match="no such invoice"):
        give_credit(shop, snare.job, against="9", why="None.", **ON)


def test_what_somebody_wrote_since_the_page_was_read_stops_the_bill(snare: OnTheBench) -> None:
    """Else the bill would leave out, or ask, what was agreed or typed on another bench."""
    agreed(snare)
    read = snare.job
    beside = {"beside": [{"says": "a case", "amount": "20"}]}
    saved(write_down(snare.shop, snare.id, Change(kind=BILL, value=beside, based_on=0), by=BY))
    with pytest.raises(BadInput, match="at the same time"):
        give_invoice(snare.shop, read, **ON)
    answered = {"things": {}, "answers": []}
    found = Change(kind=FOUND, name=snare.drum.id, value=answered, based_on=0)
    read = snare.job
    saved(write_down(snare.shop, snare.id, found, by=BY))
    with pytest.raises(BadInput, match="at the same time"):
        give_invoice(snare.shop, read, **ON)
    assert give_invoice(snare.shop, snare.job, **ON).number == "1"


def test_a_bill_of_nothing_is_not_given_out(snare: OnTheBench) -> None:
    agreed(snare)
    price = snare.quote().kept.offers[0].quote.price
    gift = ChangeCharged(key="gift", says="for nothing", amount=price.times(Fraction(-1)))
    for _ in range(2):
        with pytest.raises(BadInput, match="comes to nothing"):
            give_invoice(snare.shop, snare.job, changes=[gift], **ON)
    assert give_invoice(snare.shop, snare.job, **ON).number == "1"


def test_more_than_was_held_is_not_paid_back(snare: OnTheBench) -> None:
    give_receipt(snare.shop, snare.job, amount="50", **PAID)
    with pytest.raises(BadInput, match="at most"):
        give_receipt(snare.shop, snare.job, amount="60", back=True, **PAID)
    give_receipt(snare.shop, snare.job, amount="50", back=True, **PAID)
    held = [one.came_in.minor for one in bills_of_job(snare.shop, snare.job).deposits]
    assert held == [5000, -5000]


def test_money_of_another_currency_stops_no_bill(snare: OnTheBench) -> None:
    """No bill in pounds can take euros off, and a receipt is never taken away."""
    for offered_yet in (False, True):
        with pytest.raises(BadInput, match="another currency"):
            give_receipt(snare.shop, snare.job, amount="50 EUR", **PAID)
        if not offered_yet:
            agreed(snare)
    give_receipt(snare.shop, snare.job, amount="50", **{**PAID, "currency": "EUR"})
    assert give_invoice(snare.shop, snare.job, **ON).sums.paid == Money(minor=5000, currency="GBP")


def test_each_bill_is_a_paper_under_its_number(snare: OnTheBench) -> None:
    saved(write_terms(snare.shop, {"shop": "Quill Yard Drums"}, based_on=0, by=BY))
    agreed(snare)
    arrival = Change(kind=ARRIVAL, value={"reached": "4 Mill Lane\nDunmarrow"}, based_on=0)
    saved(write_down(snare.shop, snare.id, arrival, by=BY))
    bill = give_invoice(snare.shop, snare.job, **ON)
    pdf = bill_kept(snare.shop, snare.job, bill, by=BY)
    text = text_of(pdf)
    for said in (
        "Invoice 1",
        "Quill Yard Drums",
        "Tobin Ashgrove",
        "4 Mill Lane",
        "Dunmarrow",
        str(bill.total),
    ):
        assert said in text
    assert "as agreed on 14 May 2030: taken apart, 16 lugs and 2 hoops cleaned" in text
    assert "runs over" not in text
    assert "cannot be seen" not in text
