"""Invoices and receipts of all jobs in a span of days, and as rows for whoever keeps the books."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Annotated
from urllib.parse import quote, urlencode

from fastapi import APIRouter, Query
from starlette.requests import Request
from starlette.responses import Response

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.record.money_book import Given, MoneyBook, money_book
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.bill.books import BookTotals
from counterhoop.job.bill.credit import CreditNote
from counterhoop.job.bill.invoice import Invoice
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import print_money
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.look.say import capfirst
from counterhoop.web.render import page
from counterhoop.web.workshop_index import workshop_index
from counterhoop.web.workshop_of import GivenWorkshop

pages = APIRouter(route_class=PageRoute)
MONEY = "/workshop/money"
Day = Annotated[str, Query(max_length=20)]
From = Annotated[str, Query(alias="from", max_length=20)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A bill as the page lists it."""

    href: str
    called: str
    says: str


@pages.get(MONEY)
def look(request: Request, shop: GivenWorkshop, first: From = "", to: Day = "") -> Response:
    """Show what was billed and paid; this year's where no days are named."""
    typed = (first, to) if first or to else _this_year(shop)
    fault, book = None, MoneyBook()
    try:
        book = _book(shop, *typed)
    except BadInput as wrong:
        fault = wrong
    return page(
        request, "money.html", status=422 if fault else 200, first=typed[0], to=typed[1],
        fault_at=fault.where if fault else "", fault=_words(fault) if fault else "",
        lines=[_line(one) for one in book.given], totals=[_told(one, book) for one in book.totals],
        query=urlencode({"from": typed[0], "to": typed[1]}), address=MONEY,
        index=workshop_index(MONEY),
    )  # fmt: skip


@pages.get(MONEY + "/billed.csv")
def billed(shop: GivenWorkshop, first: From = "", to: Day = "") -> Response:
    """Hand out every line of invoices and credit notes."""
    return _csv(_book(shop, first, to).billed, name="billed", first=first, to=to)


@pages.get(MONEY + "/paid.csv")
def paid(shop: GivenWorkshop, first: From = "", to: Day = "") -> Response:
    """Hand out every payment."""
    return _csv(_book(shop, first, to).paid, name="paid", first=first, to=to)


def _this_year(shop: Workshop) -> tuple[str, str]:
    today = shop.now().astimezone().date()
    return f"{today.year}-01-01", today.isoformat()


def _book(shop: Workshop, first: str, to: str) -> MoneyBook:
    return money_book(shop, first=_day(first, where="from"), last=_day(to, where="to"))


def _day(typed: str, *, where: str) -> dt.date | None:
    if not typed.strip():
        return None
    if (day := day_written(typed)) is None:
        raise BadInput("not a day", where=where, given=typed, wanted="year-month-day, 2026-11-02")
    return day


def _line(one: Given) -> Line:
    bill, folder = one.bill, f"/jobs/{one.job_id}/handed-over/bills"
    number = quote(bill.number, safe="")
    if isinstance(bill, Invoice):
        called, sort, amount = "Invoice", "invoice", print_money(bill.total)
    elif isinstance(bill, CreditNote):
        called, sort, amount = "Credit note", "credit-note", print_money(bill.total.gross.times(-1))
    else:
        called, sort, amount = "Receipt", "receipt", print_money(bill.came_in)
    who = ", ".join(part for part in (f"job {bill.job}", bill.client) if part)
    return Line(
        href=f"{folder}/{sort}/{number}.pdf", called=f"{called} {bill.number}",
        says=f"{say_day(bill.day)}, {amount}; {who}",
    )  # fmt: skip


def _told(one: BookTotals, book: MoneyBook) -> tuple[str, ...]:
    """Return the sums of one currency: first what was billed, beneath it what is in that."""
    said = [f"{print_money(one.billed.gross)} billed, {print_money(one.came_in)} came in."]
    if book.credits:
        said.append("What credit notes took back is off it.")
    if any(receipt.back for receipt in book.receipts):
        said.append("What was paid back is off what came in.")
    if one.billed.tax.minor:
        said.append(f"In it {print_money(one.billed.tax)} of tax on {print_money(one.billed.net)}.")
    if one.within_margin.minor:
        said.append(f"In it {print_money(one.within_margin)} of tax on the margin.")
    return tuple(said)


def _words(fault: BadInput) -> str:
    return capfirst(str(BadInput(fault.what, given=fault.given, wanted=fault.wanted)))


def _csv(text: str, *, name: str, first: str, to: str) -> Response:
    span = " to ".join(part for part in (first, to) if day_written(part))
    called = f"{name} {span}".strip()
    return Response(
        # The mark tells spreadsheets that it is UTF-8.
        "\ufeff" + text, media_type="text/csv; charset=utf-8",
        headers={"content-disposition": f'attachment; filename="{called}.csv"'},
    )  # fmt: skip
