"""What all papers between a workshop and its client, and those of the bench's days, hold alike."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

import pypdfium2 as pdfium
import pytest
from documents import words
from example_bills import credit, deposit, invoice, quote_of_tom
from example_days import day_of, weeks_of
from example_jobs import full_scheme
from example_letters import LONG, head_of
from example_records import booking_of, handed_over
from pypdf import PdfReader
from readable_pdf import need_readable

from counterhoop.papers.booking_in import booking_in_pdf
from counterhoop.papers.care_sheet import care_sheet_pdf
from counterhoop.papers.day_list import day_list_pdf
from counterhoop.papers.handover_record import handover_record_pdf
from counterhoop.papers.invoice import credit_pdf, invoice_pdf, receipt_pdf
from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.quote_sheet import quote_sheet_pdf
from counterhoop.papers.weeks import weeks_pdf
from counterhoop.papers.weeks_calendar import Calendar

HOSTILE = '#import "x.typ": * $a^2$ \\ #panic("no") <l> @ref "q" \'s\' [open *b* _i_ `c` // /*'
HOSTILE += f" {LONG}"
STRANGE = "Łódź 鼓 \U0001f941 \x07 \u200d ß"
FORTNIGHT = Calendar(first=dt.date(2026, 3, 2), days=14, wide_mm=100.0)
PLAIN = "all as it should be"


def head(text: str) -> LetterHead:
    client = "A. Player" if text == PLAIN else text
    return head_of(client=client, shop_lines=(text,), client_lines=(text,), drums=(text,))


LETTERS: dict[str, Callable[[str, str], bytes]] = {
    "booking-in sheet": lambda text, paper: booking_in_pdf(
        booking_of(text, head=head(text)), paper=paper
    ),
    "handover record": lambda text, paper: handover_record_pdf(
        handed_over(text, head=head(text)), left=full_scheme(key=text).layout, paper=paper
    ),
    "care sheet": lambda text, paper: care_sheet_pdf(
        head(text), drum=text, holds=frozenset({"wood"}), own=(text,), paper=paper
    ),
    "day list": lambda text, paper: day_list_pdf(day_of(text, shop=text), paper=paper),
    "weeks": lambda text, paper: weeks_pdf(
        weeks_of(text), shop=text, calendar=FORTNIGHT, says=(text,), paper=paper
    ),
    "quote": lambda text, paper: quote_sheet_pdf(quote_of_tom(text, head=head(text)), paper=paper),
    "invoice": lambda text, paper: invoice_pdf(
        invoice(text, client=text), head=head(text), to_pay=(text,), paper=paper
    ),
    "credit note": lambda text, paper: credit_pdf(
        credit(text, client=text), head=head(text), paper=paper
    ),
    "receipt": lambda text, paper: receipt_pdf(deposit(text), head=head(text), paper=paper),
}


@cache
def made(name: str, text: str = PLAIN, paper: str = "A4") -> bytes:
    return LETTERS[name](text, paper)


@pytest.mark.parametrize("name", LETTERS)
def test_they_are_tagged_titled_and_print_at_actual_size(name: str) -> None:
    need_readable(made(name))


def _figures(node: Any) -> Iterator[Any]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for kid in node:
            yield from _figures(kid)
    elif isinstance(node, dict):
        if node.get("/S") == "/Figure":
            yield node
        yield from _figures(node.get("/K", 0))


@pytest.mark.parametrize("name", LETTERS)
def test_every_picture_is_said_in_words(name: str) -> None:
    """Each figure in the tree of tags has an alternative (ISO 14289-1, 7.3)."""
    reader = PdfReader(io.BytesIO(made(name)))
    figures = list(_figures(reader.trailer["/Root"]["/StructTreeRoot"]))
    assert all(figure["/Alt"] for figure in figures)
    pictured = name in ("booking-in sheet", "handover record", "weeks", "quote")
    assert bool(figures) is pictured


@pytest.mark.parametrize("name", ["handover record", "receipt"])
def test_a_paper_that_is_kept_is_the_same_bytes_again(name: str) -> None:
    assert made(name) == LETTERS[name](PLAIN, "A4")


@pytest.mark.parametrize("name", LETTERS)
def test_long_texts_that_people_typed_are_data(name: str) -> None:
    said = words(made(name, HOSTILE, "Letter"))
    for wanted in ('#panic("no")', "*b* _i_ `c`", "Lower Dunmarrow Silver Band and Concert Party"):
        assert wanted in said


@pytest.mark.parametrize("name", ["booking-in sheet", "weeks", "receipt"])
def test_signs_without_a_picture_become_boxes(name: str) -> None:
    said = words(made(name, STRANGE))
    assert "Łódź □ □" in said
    assert "ß" in said


@pytest.mark.parametrize("name", LETTERS)
def test_nothing_is_set_beyond_the_margins(name: str) -> None:
    """Seen, not read: no ink in the outer 8 mm of A4 and of Letter (8.5 by 11 in of 72 points)."""
    for sides, pdf in (((595, 842), made(name)), ((612, 792), made(name, HOSTILE, "Letter"))):
        for page in pdfium.PdfDocument(pdf):
            assert sorted((round(page.get_width()), round(page.get_height()))) == [*sides]
            grey = page.render(scale=1.0).to_numpy()[:, :, 0]
            rim = round(8.0 * 72.0 / 25.4)
            inside = grey[rim:-rim, rim:-rim]
            assert (grey < 200).sum() == (inside < 200).sum() > 0
