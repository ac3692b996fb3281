"""The wants list: what a job's drums lack after the strip-down, to take along and to write on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Kind
from counterhoop.papers.facts import count, facts_of, foot_facts, listed, say_money, sheet_for
from counterhoop.papers.facts import labels as places_said
from counterhoop.papers.job_facts import dated
from counterhoop.papers.printable import set_readable
from counterhoop.parts.comes_apart import SWIVEL_NUT, Sort
from counterhoop.parts.wants import Want, Wants
from counterhoop.shell.job import Job

THREADED = (Kind.ROD, Kind.T_ROD, Kind.SCREW, Kind.LUG, Kind.LONG_LUG, SWIVEL_NUT)
GAUGE = (
    "Hold a thread gauge against what you buy, and try a sample by hand: some threads look alike,"
    " go in a few turns and then strip."
)

WITH_NEW = "Screws and washers of what is new are not in the list: look what comes with it."


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumWants:
    """What one drum lacks."""

    drum: str
    wants: Wants


def wants_list_pdf(
    job: Job, drums: Sequence[DrumWants], *, book: Book | None = None,
    shelf: Mapping[str, int] | None = None, bins: Mapping[str, str] | None = None,
    has_new: bool = False, counted_on: dt.date | None = None, paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the wants list of a job.

    Parameters
    ----------
    job : Job
        Whose names are printed.
    drums : sequence of DrumWants
        Wants of one sort are printed together, with each drum's places.
    book : Book, optional
        Says what a new one costs.
    shelf : mapping of str to int, optional
        How many of each piece lie on our shelf, free for this client, by name.
    bins : mapping of str to str, optional
        Where they lie there.
    has_new : bool
        Whether schemes add parts: of their screws and washers the list knows nothing.
    counted_on : date, optional
        The day of the latest tick; without one the list bears the survey's date.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="wants list"),
        **wants_data(
            job, drums, book=book, shelf=shelf, bins=bins, has_new=has_new, counted_on=counted_on
        ),
    }
    return set_readable("wants_list", data, title=f"Wants list, job {job.number}")


def wants_data(
    job: Job, drums: Sequence[DrumWants], *, book: Book | None = None,
    shelf: Mapping[str, int] | None = None, bins: Mapping[str, str] | None = None,
    has_new: bool = False, counted_on: dt.date | None = None,
) -> dict[str, Any]:  # fmt: skip
    """Return what the wants list says, as plain data."""
    facts = facts_of(job)
    wanted: dict[Sort, list[tuple[str, Want]]] = {}
    for one in drums:
        for want in one.wants.lines:
            wanted.setdefault(want.sort, []).append((one.drum, want))
    left = dict(shelf or {})
    rows = [
        {**_row(sort, found, left=left, book=book), "bin": (bins or {}).get(sort.piece, "")}
        for sort, found in wanted.items()
    ]
    return {
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("paper", "wants list"),
            ("drums", listed([one.drum for one in drums])),
            dated(facts, counted_on),
        ),
        "rows": rows,
        "shelf": shelf is not None,
        "in-all": f"{count(sum(row['count'] for row in rows), 'piece')} of"
        f" {count(len(rows), 'sort')}",
        "new": WITH_NEW if has_new else "",
        "gauge": GAUGE if any(sort.kind in THREADED for sort in wanted) else "",
        "uncounted": [
            {"drum": one.drum, "places": _uncounted(one.wants)}
            for one in drums
            if one.wants.uncounted
        ],
    }


def _row(
    sort: Sort, found: list[tuple[str, Want]], *, left: dict[str, int], book: Book | None
) -> dict[str, Any]:
    number = sum(want.count for _, want in found)
    spoilt = sum(want.spoilt for _, want in found)
    ours = min(number, left.get(sort.piece, 0))
    left[sort.piece] = left.get(sort.piece, 0) - ours
    notes = []
    if spoilt:
        notes.append(f"{spoilt} of them found, no use again: the pattern to match")
    if price := _price(sort, book):
        notes.append(f"{price} each by the book")
    return {
        "count": number,
        "piece": sort.piece,
        "notes": notes,
        "for": [{"drum": drum, "places": places_of(want)} for drum, want in found],
        "shelf": ours,
        "find": number - ours,
    }


def _price(sort: Sort, book: Book | None) -> str:
    if book is None or not sort.book:
        return ""
    entry = book.find(sort.book)
    return say_money(entry.price_minor, currency=entry.currency) if entry.price_minor else ""


def places_of(want: Want) -> str:
    """Say where pieces go, and how many to each place where it is more than one.

    Examples
    --------
    >>> lugs = (("lug 1", 1), ("lug 2", 2), ("lug 4", 2))
    >>> places_of(Want(sort=Sort(piece="screw", kind="screw"), count=5, places=lugs))
    'lug 1; lugs 2, 4 (2\\xa0each)'
    """
    by_count: dict[int, list[str]] = {}
    for place, number in want.places:
        by_count.setdefault(number, []).append(place)
    said = []
    for number, places in by_count.items():
        each = (
            ""
            if number == 1
            else f" ({number}\u00a0each)"
            if len(places) > 1
            else f"\u00a0({number})"
        )
        said.append(f"{places_said(places)}{each}")
    return "; ".join(said)


def _uncounted(wants: Wants) -> str:
    return places_said(dict.fromkeys(line.expected.place for line in wants.uncounted))
