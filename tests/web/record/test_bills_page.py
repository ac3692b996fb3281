"""The page of a job's bills: what is due, nothing given out twice, each paper as it was.

Truth: worked by hand; a double press and a reload as browsers send them.
"""

from __future__ import annotations

import csv
import html
import io
import re

from handed_job import write
from priced_job import BY, OnTheBench, saved, text_of
from starlette.testclient import TestClient

from counterhoop.bench.price.bills import bills_of_job
from counterhoop.bench.price.terms import terms_of, write_terms
from counterhoop.quantities.money import Money


def page_of(ask: TestClient, bench: OnTheBench) -> str:
    shown = ask.get(at(bench))
    assert shown.status_code == 200
    return html.unescape(shown.text)


def at(bench: OnTheBench) -> str:
    return f"/jobs/{bench.id}/handed-over/bills"


def form(page: str, end: str) -> dict[str, str]:
    """Return what a form of the page would send, as it stands."""
    own = page[page.index(f'action="{end}"') :]
    own = own[: own.index("</form>")]
    sent = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', own))
    return sent | dict(re.findall(r'<input type="text" [^>]*name="([^"]+)" value="([^"]*)"', own))


def test_without_a_yes_there_is_nothing_to_bill(snare: OnTheBench, ask: TestClient) -> None:
    page = page_of(ask, snare)
    assert "Nothing is agreed yet that could be billed." in page
    assert "Give the invoice out" not in page
    refused = ask.post(f"{at(snare)}/invoice", data={"day": "2030-05-14", "mark": "x"})
    assert refused.status_code == 422
    assert "no offer is accepted" in refused.text.casefold()


def test_from_deposit_to_the_last_penny(agreed: OnTheBench, ask: TestClient) -> None:
    price = agreed.quote().kept.offers[0].quote.price
    page = page_of(ask, agreed)
    assert f"{price} to bill." in page
    assert "The ceiling is" in page
    # A deposit, pressed twice: one receipt.
    sent = form(page, f"{at(agreed)}/receipt") | {"amount": "100", "how": "cash"}
    for _ in range(2):
        assert ask.post(f"{at(agreed)}/receipt", data=sent).status_code == 303
    page = page_of(ask, agreed)
    assert "100.00 GBP was paid before the bill." in page
    # Another form with the mark of that one is another paper, not that one.
    odd = {"mark": sent["mark"], "day": "2030-05-14", "against": "1", "why": "x"}
    assert ask.post(f"{at(agreed)}/credit", data=odd).status_code == 422
    sent = form(page, f"{at(agreed)}/invoice")
    for _ in range(2):
        assert ask.post(f"{at(agreed)}/invoice", data=sent).status_code == 303
    bills = bills_of_job(agreed.shop, agreed.job)
    assert [one.number for one in bills.invoices] == ["1"]
    assert [one.number for one in bills.receipts] == ["1"]
    left = bills.due(bills.invoice("1"))
    assert left.minor == price.minor - 10000
    page = page_of(ask, agreed)
    assert f"{left} is due on invoice 1." in page
    assert "The job is billed." in page
    # A form that was opened before does not bill once more, and takes no number.
    assert ask.post(f"{at(agreed)}/invoice", data=sent | {"mark": "new"}).status_code == 422
    rest = form(page, f"{at(agreed)}/receipt") | {"how": "by transfer", "against": "1"}
    assert rest["amount"] == str(left)
    # Called a deposit, it would be taken off nothing, and the invoice stay due.
    assert "a deposit, before the bill" not in page
    lost = ask.post(f"{at(agreed)}/receipt", data=rest | {"against": "", "mark": "lost"})
    assert lost.status_code == 422
    assert "a receipt on invoice 1" in lost.text
    assert ask.post(f"{at(agreed)}/receipt", data=rest).status_code == 303
    assert "Everything is paid." in page_of(ask, agreed)


def test_what_was_typed_comes_back_beside_what_is_wrong(
    agreed: OnTheBench, ask: TestClient
) -> None:
    sent = {"amount": "a lot", "how": "cash", "day": "2030-05-14", "mark": "1"}
    for wrong, field in (
        ({}, "receipt-amount"), ({"amount": "5", "day": "May"}, "receipt-day"),
        ({"amount": "5", "how": ""}, "receipt-how"), ({"amount": "5 EUR"}, "receipt-amount"),
    ):  # fmt: skip
        shown = ask.post(f"{at(agreed)}/receipt", data=sent | wrong)
        assert shown.status_code == 422
        page = html.unescape(shown.text)
        box = page[page.index(f'id="{field}"') :]
        assert f'id="{field}-fault"' in box
        assert f'value="{(sent | wrong)["amount"]}"' in page
    assert not bills_of_job(agreed.shop, agreed.job).receipts


def test_above_the_ceiling_it_waits_for_a_yes(agreed: OnTheBench, ask: TestClient) -> None:
    row = {"based_on": "0", "beside.0.says": "gold leaf", "beside.0.amount": "2000"}
    assert ask.post(at(agreed), data=row).status_code == 303
    page = page_of(ask, agreed)
    assert "above the ceiling, and no yes to more is on record" in page
    sent = form(page, f"{at(agreed)}/invoice")
    assert ask.post(f"{at(agreed)}/invoice", data=sent).status_code == 422
    yes = {"who": "Tobin Ashgrove", "when": "2030-05-14", "how": "by telephone"}
    row |= {"based_on": "1"} | {f"beside.0.{name}": said for name, said in yes.items()}
    assert ask.post(at(agreed), data=row).status_code == 303
    page = page_of(ask, agreed)
    assert "Gold leaf" in page
    earlier = re.search(r'href="(/jobs/\w+/history/\w+)"', page)
    assert earlier
    history = ask.get(earlier[1]).text
    assert "Tobin Ashgrove" in history
    assert f'href="{at(agreed)}"' in history
    # A form that was opened before either save changes nothing by itself.
    both = ask.post(at(agreed), data={"based_on": "0", "beside.0.says": "a case"})
    assert both.status_code == 409
    assert "Done or sold beside the offer" in both.text
    sent = form(page, f"{at(agreed)}/invoice")
    assert ask.post(f"{at(agreed)}/invoice", data=sent).status_code == 303
    price = agreed.quote().kept.offers[0].quote.price
    (bill,) = bills_of_job(agreed.shop, agreed.job).invoices
    assert bill.total.minor == price.minor + 200000


def test_what_changed_behind_the_page_is_not_billed_unseen(
    agreed: OnTheBench, ask: TestClient
) -> None:
    before = form(page_of(ask, agreed), f"{at(agreed)}/invoice")
    row = {"based_on": "0", "beside.0.says": "a case", "beside.0.amount": "20"}
    assert ask.post(at(agreed), data=row).status_code == 303
    late = ask.post(f"{at(agreed)}/invoice", data=before)
    assert late.status_code == 422
    assert "has changed since that page was opened" in late.text
    assert not bills_of_job(agreed.shop, agreed.job).invoices
    now = form(page_of(ask, agreed), f"{at(agreed)}/invoice")
    assert ask.post(f"{at(agreed)}/invoice", data=now).status_code == 303


def test_what_was_agreed_on_the_way_is_on_the_bill(agreed: OnTheBench, ask: TestClient) -> None:
    price = agreed.quote().kept.offers[0].quote.price
    things = {"1": {"sort": "crack", "where": "lug 4", "on": "2030-05-14"}}
    yes = {
        "yes": True, "who": "Nell", "when": "2030-05-14", "how": "by letter", "things": [1],
        "offer": 1, "charges": [{"kind": "work", "minor": 4000, "currency": "GBP"}],
    }  # fmt: skip
    write(agreed, "found", {"things": things, "answers": [yes]}, drum=agreed.drum.id)
    page = page_of(ask, agreed)
    assert "crack in the shell at lug 4, agreed on 14 May 2030" in page
    assert f"{Money(minor=price.minor + 4000, currency='GBP')} to bill." in page
    sent = form(page, f"{at(agreed)}/invoice")
    assert ask.post(f"{at(agreed)}/invoice", data=sent).status_code == 303
    (bill,) = bills_of_job(agreed.shop, agreed.job).invoices
    assert bill.total.minor == price.minor + 4000


def test_a_paper_stays_as_it_was_given_out(agreed: OnTheBench, ask: TestClient) -> None:
    saved(write_terms(agreed.shop, {"shop": "Quill Yard Drums"}, based_on=0, by=BY))
    page = page_of(ask, agreed)
    ask.post(f"{at(agreed)}/invoice", data=form(page, f"{at(agreed)}/invoice"))
    before = terms_of(agreed.shop).number
    saved(write_terms(agreed.shop, {"shop": "Another Name"}, based_on=before, by=BY))
    paper = ask.get(f"{at(agreed)}/invoice/1.pdf")
    assert paper.headers["content-disposition"] == 'attachment; filename="invoice 1.pdf"'
    said = text_of(paper.content)
    assert "Quill Yard Drums" in said
    assert "Another Name" not in said
    assert ask.get(f"{at(agreed)}/invoice/1.pdf").content == paper.content
    assert ask.get(f"{at(agreed)}/invoice/2.pdf").status_code in (404, 422)


def test_part_of_a_bill_is_taken_back_and_the_books_add_up(
    agreed: OnTheBench, ask: TestClient
) -> None:
    page = page_of(ask, agreed)
    ask.post(f"{at(agreed)}/invoice", data=form(page, f"{at(agreed)}/invoice"))
    bill = bills_of_job(agreed.shop, agreed.job).invoice("1")
    sent = {"against": "1", "day": "2030-05-14", "mark": "c1"}
    shown = ask.post(f"{at(agreed)}/credit", data=sent)
    assert shown.status_code == 422
    assert 'id="credit1-why-fault"' in shown.text
    first = bill.sums.rows[0].figures.gross
    sent |= {"why": "It was not done.", "row.0": str(first)}
    assert ask.post(f"{at(agreed)}/credit", data=sent).status_code == 303
    left = bill.total - first
    assert f"{left} is due on invoice 1." in page_of(ask, agreed)
    money = html.unescape(ask.get("/workshop/money?from=2030-05-14&to=2030-05-14").text)
    assert f"{left} billed, 0.00 GBP came in. " in money
    assert "What credit notes took back is off it." in money
    rows = ask.get("/workshop/money/billed.csv?from=2030-05-14&to=2030-05-14").text
    gross = [row["gross"] for row in csv.DictReader(io.StringIO(rows.lstrip("\ufeff")))]
    assert sum(round(100 * float(one)) for one in gross) == left.minor
    none = ask.get("/workshop/money/paid.csv?from=2031-01-01").text
    assert len(none.splitlines()) == 1
    assert ask.get("/workshop/money?from=2030-05-14&to=2030-05-01").status_code == 422
