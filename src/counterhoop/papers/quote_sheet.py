"""The quote: one price and a ceiling on its face, the drum before and after, what is in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.job.price.face import beneath_says, face_says, put_on_says, terms_say
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sides import Sides
from counterhoop.papers.drawing.pens import COLOUR_PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.letter_head import LetterHead, head_data
from counterhoop.papers.money_rows import amount_said, rows_data
from counterhoop.papers.photograph import Photograph, photograph_svg
from counterhoop.papers.printable import set_readable
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import print_money

WORDS = {"before": "As it is now", "after": "As it would be", "legend": ""}
NOT_THERE = "–"
NOT_HANDED_OUT = "Not handed out yet: a price as it stands on"


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteSheet:
    """What a client reads before saying yes.

    Attributes
    ----------
    head : LetterHead
        Workshop, client, job and day; the price holds from that day on.
    quote : Quote
        Price, ceiling and lines.
    title : str
        What is proposed, in the client's words.
    story : tuple of str
        The same in a few sentences.
    before, after : Drawing or Photograph, optional
        The drum as it is and as it would be.
    legend : Drawing, optional
        What the marks of both drawings mean.
    permanent : tuple of str
        What cannot be undone; it is agreed on the approval sheet, not here.
    ready : str
        When it would be ready, and how sure that is.
    sides : Sides, optional
        Other ways, beside this one.
    offer : int
        The offer that it is, by its number; 0 for a price that was not handed out.
    """

    head: LetterHead
    quote: Quote
    title: str
    story: tuple[str, ...] = ()
    before: Drawing | Photograph | None = None
    after: Drawing | Photograph | None = None
    legend: Drawing | None = None
    permanent: tuple[str, ...] = ()
    ready: str = ""
    sides: Sides | None = None
    offer: int = 0


def quote_sheet_pdf(sheet: QuoteSheet, *, paper: str = "A4") -> bytes:
    """Set the quote.

    Parameters
    ----------
    sheet : QuoteSheet
        What is offered.
    paper : str
        "Letter" sets it on Letter, anything else on A4.

    Raises
    ------
    BadInput
        Without a day: a price holds until some days after one.
    """
    data, images = quote_data(sheet, paper=paper)
    return set_readable(
        "quote_sheet", data, title=f"What it would cost: job {sheet.head.job}", images=images
    )


def quote_data(sheet: QuoteSheet, *, paper: str = "A4") -> tuple[dict[str, Any], dict[str, str]]:
    """Return what the quote says, as plain data, and its pictures by name."""
    quote, head = sheet.quote, sheet.head
    if head.date is None:
        raise BadInput("no day", where="quote", wanted="the day from which the price holds")
    pictures = {"before": sheet.before, "after": sheet.after, "legend": sheet.legend}
    shown = {name: one for name, one in pictures.items() if one is not None}
    images = {
        name: to_svg(one, palette=COLOUR_PRINT, ident=f"{name}-")
        if isinstance(one, Drawing)
        else photograph_svg(one)
        for name, one in shown.items()
    }
    holds = "holds until" if sheet.offer else "would hold until"
    facts = (
        ("offer", str(sheet.offer or "")),
        ("proposed", sheet.title),
        (holds, say_day(quote.last_day(head.date))),
    )
    _, *said = face_says(quote)
    return {
        **head_data(head, what="quote", more=facts, paper=paper),
        "not-handed-out": "" if sheet.offer else f"{NOT_HANDED_OUT} {say_day(head.date)}.",
        "price": print_money(quote.price),
        "face": said,
        "ready": sheet.ready,
        "story": list(sheet.story),
        "permanent": list(sheet.permanent),
        "pictures": {name: _picture(name, one) for name, one in shown.items()},
        "lines": rows_data(quote.sums.rows, total=quote.sums.total, named="the price"),
        "tax": list(quote.sums.says),
        "beneath": [*put_on_says(quote), *beneath_says(quote)],
        "terms": list(terms_say(quote, given=head.date if sheet.offer else None)),
        "not-in-it": list(quote.rules.exclusions),
        "sides": _sides(sheet.sides) if sheet.sides else None,
    }, images


def _picture(name: str, one: Drawing | Photograph) -> dict[str, Any]:
    """Return what the template must know: only a drawing has a width of its own."""
    if isinstance(one, Drawing):
        return {
            "words": WORDS[name],
            "alt": f"{one.title}. {one.says}",
            "wide": one.width_mm * one.scale,
        }
    return {"words": WORDS[name], "alt": one.shows, "wide": None}


def _sides(sides: Sides) -> dict[str, Any]:
    """Return the ways side by side; the columns add up to their prices."""
    return {
        "currency": sides.prices[0].currency,
        "titles": list(sides.titles),
        "rows": [
            {
                "says": row.says,
                "amounts": [NOT_THERE if m is None else amount_said(m) for m in row.amounts],
            }
            for row in sides.rows
        ],
        "prices": [amount_said(price) for price in sides.prices],
        "ceilings": [amount_said(ceiling) for ceiling in sides.ceilings],
        "holes": [str(number) for number in sides.extra_holes],
    }
