"""A drum offered for sale, on one sheet: what it is, and every change that is on record."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.job.trade.listing import Listing
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.letter_head import photographs_shown
from counterhoop.papers.photograph import Photograph
from counterhoop.papers.printable import set_readable
from counterhoop.quantities.day import say_day

MOST_PHOTOGRAPHS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class ListingSheet:
    """A drum as a stranger reads of it: neither its client nor its job is named.

    Attributes
    ----------
    listing : Listing
        Title and paragraphs.
    on : date
        The day of the record that it tells.
    shop : str
        Who offers it.
    shop_lines : tuple of str
        Where to find them, a line each.
    asked : str
        What is asked for it, as typed; empty for nothing yet.
    photographs : tuple of Photograph
        Two at most; what each shows stands beneath it.
    """

    listing: Listing
    on: dt.date
    shop: str
    shop_lines: tuple[str, ...] = ()
    asked: str = ""
    photographs: tuple[Photograph, ...] = ()


def listing_sheet_pdf(sheet: ListingSheet, *, paper: str = "A4") -> bytes:
    """Set the sheet.

    Parameters
    ----------
    sheet : ListingSheet
    paper : str
        "Letter" sets it on Letter, anything else on A4.

    Raises
    ------
    BadInput
        For more photographs than it has room for.
    """
    data, images = listing_data(sheet, paper=paper)
    return set_readable("listing_sheet", data, title=sheet.listing.title, images=images)


def listing_data(
    sheet: ListingSheet, *, paper: str = "A4"
) -> tuple[dict[str, Any], dict[str, str]]:
    """Return what the sheet says, as plain data, and its photographs by name."""
    if len(sheet.photographs) > MOST_PHOTOGRAPHS:
        raise BadInput(
            "too many photographs", where="listing", given=len(sheet.photographs),
            wanted=f"{MOST_PHOTOGRAPHS} at most",
        )  # fmt: skip
    images, shown = photographs_shown({str(n): one for n, one in enumerate(sheet.photographs)})
    size = sheet_for(paper)
    return {
        "wide": size.short_mm,
        "high": size.long_mm,
        "facts": (("Paper", "for sale"), ("Day", f"as on record on {say_day(sheet.on)}")),
        "shop": {"name": sheet.shop, "lines": list(sheet.shop_lines)},
        "asked": sheet.asked,
        "photographs": list(shown.values()),
        "parts": [_part(paragraph) for paragraph in sheet.listing.paragraphs],
    }, images


def _part(paragraph: str) -> dict[str, Any]:
    """Return a paragraph of a listing: a heading with its lines, or plain words."""
    head, *lines = paragraph.split("\n")
    if not lines:
        return {"head": "", "says": head, "lines": []}
    return {
        "head": head.removesuffix(":"),
        "says": "",
        "lines": [line.removeprefix("- ") for line in lines],
    }
