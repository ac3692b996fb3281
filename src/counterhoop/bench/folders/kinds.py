"""The kinds of documents that lie in a folder, and in the workshop's own drawer."""

from __future__ import annotations

from typing import Final

from counterhoop.store.job_folder import LABEL

JOB: Final = "job"
"""The job's own tables and the list of its drums."""
SURVEY: Final = "survey"
"""A drum as found."""
WISH: Final = "wish"
"""What is wanted of a drum, and its finish plan."""
CHOICE: Final = "choice"
"""The scheme that was chosen, and rows moved by hand."""
TUNING: Final = "tuning"
"""Heads of a drum, and what was written down and heard while it was tuned."""
KIT: Final = "kit"
"""What the player wants of the kit's pitches; drums by the names that people use."""
APPROVAL: Final = "approval"
"""Every yes to permanent changes of a drum."""
TICKS: Final = "ticks"
"""Holes of the hole list that are done."""
FACTS: Final = "facts"
"""What a drum is: features and who says so."""
ARRIVAL: Final = "arrival"
"""What came, what is missing, whose it is."""
STRIPPED: Final = "stripped"
"""What came off a drum, counted piece by piece."""
FOUND: Final = "found"
"""What was found on a drum in mid-work, and what the client answered."""
OFFERS: Final = "offers"
"""Donors on offer for what a job lacks."""
HANDOVER: Final = "handover"
"""What was found, done and kept."""
PHOTOGRAPHS: Final = "photographs"
"""What each photograph shows, by the name of its enclosure."""
QUOTE: Final = "quote"
"""Lines, tax and terms of what the work is offered at."""
PROMISE: Final = "promise"
"""The day that was promised, and what it rests on."""
LISTING: Final = "listing"
"""What a drum's listing says besides its record, and what its parcel is."""
BILL: Final = "bill"
"""What the next invoice of the job is made of; those given out are in the store's own book."""

OF_A_DRUM: Final = (SURVEY, WISH, CHOICE, TUNING, APPROVAL, TICKS, FACTS, STRIPPED, FOUND, LISTING)
OF_A_JOB: Final = (
    *(JOB, KIT, ARRIVAL, OFFERS, HANDOVER, PHOTOGRAPHS),
    *(QUOTE, PROMISE, BILL),
)

WISHED: Final = ("wish", "finish_plan")
CHOSEN: Final = "chosen"
KEPT_APART: Final = (*WISHED, CHOSEN, TUNING)
"""Names in a drum's table of a survey file that are kept apart from how it was found."""

RULES: Final = "rules"
"""The workshop's limits, minutes, prices and stock."""
BOOK: Final = "book"
"""The workshop's own fittings; in a job, books that came with its survey file."""
PRINTER: Final = "printer"
"""What the check sheet's bars measured."""
REFERENCE: Final = "reference"
"""The workshop's own rows of what was in use when."""
ROWS: Final = "rows"
"""Which files of rows were taken in, and how their columns were read."""
LABELS: Final = "labels"
"""What the workshop's gummed sheets of labels measure."""
SALES: Final = "sales"
"""Drums that the workshop has sold, with what they had and how long they stood."""
OPEN_HOURS: Final = "open hours"
"""When the workshop is open, and the days off."""
DIARY: Final = "diary"
"""What was given out for calendars: each line, how often it changed, when."""
TERMS: Final = "terms"
"""How the workshop prices: tax, rounding, ceiling, what is not in a price, its letter head."""

WORDS: Final = {
    LABEL: "the folder's label",
    JOB: "the job",
    SURVEY: "the survey",
    WISH: "what is wanted",
    CHOICE: "the choice",
    TUNING: "heads and tuning",
    KIT: "the kit's pitches",
    APPROVAL: "the client's yes",
    TICKS: "the ticks of the hole list",
    FACTS: "what it is",
    ARRIVAL: "how it was booked in",
    STRIPPED: "what came off",
    FOUND: "what was found on the way",
    OFFERS: "donors on offer",
    HANDOVER: "the hand-over",
    PHOTOGRAPHS: "what the photographs show",
    QUOTE: "the quote",
    PROMISE: "what is promised",
    LISTING: "the listing",
    BILL: "invoices",
    RULES: "the shop rules",
    BOOK: "the fittings book",
    PRINTER: "the printer's correction",
    REFERENCE: "the dated features",
    ROWS: "the rows that were taken in",
    LABELS: "the sheets of labels",
    SALES: "own sales",
    OPEN_HOURS: "when the workshop is open",
    DIARY: "the diary for calendars",
    TERMS: "the terms of prices",
}
"""How each is called on a page."""
