"""The booking-in sheet: what came, whose it is, what it looked like, and what was agreed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from counterhoop.papers.letter_head import LetterHead, head_data, photographs_shown
from counterhoop.papers.photograph import Photograph
from counterhoop.papers.printable import set_readable
from counterhoop.quantities.money import Money, print_money

APART = ("woodworm", "mould", "smell")
"""What is kept apart from other people's drums."""
TO_SAY = "to be agreed"
BY_LAW = "Local law applies."


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something that came, or should have.

    Attributes
    ----------
    what : str
        "flanged hoop", "stand".
    count : int
        How many; 0 where its name says so.
    whose : str
        Empty for the client's.
    says : str
        Its state; of what is missing, who is to find it.
    """

    what: str
    count: int = 1
    whose: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumIn:
    """One drum as it was handed in.

    Attributes
    ----------
    drum, what : str
        Its name in the job, and what it is in a line.
    came, missing : tuple of Item
        What came with it, and what should have.
    apart : mapping of str to str, or None
        What was seen of woodworm, mould and smell; what is not named was not looked at. None
        where that is said for several drums together.
    photographs : mapping of str to Photograph or None
        By what they show ("outside, with the datum in front", "label"), in the order in which
        they are set; one that is None keeps an empty frame.
    """

    drum: str
    what: str = ""
    came: tuple[Item, ...] = ()
    missing: tuple[Item, ...] = ()
    apart: Mapping[str, str] | None = field(default_factory=dict)
    photographs: Mapping[str, Photograph | None] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class BookingIn:
    """What is agreed when drums are handed in.

    Attributes
    ----------
    head : LetterHead
        Workshop, client, job and day.
    drums : tuple of DrumIn
        What was handed in.
    together : DrumIn or None
        What came for several drums, or for nobody knows which; its ``drum`` is its heading.
    owner, proof : str
        Whose they are where not the client's, and how that was shown.
    wanted : str
        What the client asks for, in the client's words.
    value : Money, optional
        Declared by the client, for all of it.
    insured_here, insured_on_the_road : str
        Who insures it in the workshop and on its way.
    notes : tuple of str
        What else was noted as it came, a line each.
    fetched_by : str
        When it is to be fetched, in words.
    uncollected : str
        What was agreed on drums that nobody fetches.
    """

    head: LetterHead
    drums: tuple[DrumIn, ...]
    together: DrumIn | None = None
    owner: str = ""
    proof: str = ""
    wanted: str = ""
    value: Money | None = None
    insured_here: str = ""
    insured_on_the_road: str = ""
    notes: tuple[str, ...] = ()
    fetched_by: str = ""
    uncollected: str = ""


def booking_in_pdf(booking: BookingIn, *, paper: str = "A4") -> bytes:
    """Set the booking-in sheet, to be signed by both.

    Parameters
    ----------
    booking : BookingIn
        A view without a photograph keeps an empty frame.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    data, images = booking_data(booking, paper=paper)
    return set_readable(
        "booking_in", data, title=f"Booked in: job {booking.head.job}", images=images
    )


def booking_data(booking: BookingIn, *, paper: str = "A4") -> tuple[dict[str, Any], dict[str, str]]:
    """Return what the sheet says, as plain data, and its photographs by name."""
    images: dict[str, str] = {}
    every = [*booking.drums, *([booking.together] if booking.together else [])]
    drums = []
    for number, one in enumerate(every, 1):
        views = {f"{number} {view}": photo for view, photo in one.photographs.items()}
        drawn, shown = photographs_shown(views)
        images |= drawn
        drums.append(
            {
                "drum": one.drum,
                "what": one.what,
                "came": [_item(item) for item in one.came],
                "alone": not one.came and booking.together is None,
                "missing": [_item(item) for item in one.missing],
                "apart": [] if one.apart is None else [
                    (what, one.apart.get(what, "not looked at")) for what in APART
                ],
                "views": [
                    {"view": name.partition(" ")[2], "shown": shown.get(name)} for name in views
                ],
            }
        )  # fmt: skip
    facts = (
        ("owner", booking.owner),
        ("shown by", booking.proof),
        ("declared value", print_money(booking.value) if booking.value else TO_SAY),
        ("insured here by", booking.insured_here or TO_SAY),
        ("insured on the road by", booking.insured_on_the_road or TO_SAY),
    )
    return {
        **head_data(booking.head, what="booking-in sheet", more=facts, paper=paper),
        "wanted": booking.wanted,
        "drums": drums,
        "notes": list(booking.notes),
        "fetched": booking.fetched_by,
        "uncollected": f"{_closed(booking.uncollected)} {BY_LAW}" if booking.uncollected else "",
    }, images


def _closed(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _item(item: Item) -> dict[str, Any]:
    return {
        "count": item.count,
        "what": item.what,
        "whose": item.whose or "the client's",
        "says": item.says,
    }
