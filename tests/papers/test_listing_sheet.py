"""A drum for sale on one sheet. Truth: the listing itself, of which no line may be lost."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from documents import pages, words
from example_letters import DAY, photograph_of

from counterhoop.errors import BadInput
from counterhoop.job.trade.facts import DrumFacts, ExtraHole, PartFact
from counterhoop.job.trade.listing import listing
from counterhoop.papers.listing_sheet import ListingSheet, listing_sheet_pdf

TEN_HOLES = DrumFacts(
    kind="snare drum", dia_in=14, deep_in=6.5, line="Corvane Tarnbeck", serial="40417",
    made="most likely 1958 to 1962 (4 in 5), by the badge", shell="three plies with rings",
    finish="blue ripple wrap, its own", edges="batter edge: within 0.2 mm of flat",
    parts=(
        PartFact(name="lugs", state="original"),
        PartFact(name="strainer", state="later", says="a copy of last year"),
        PartFact(name="butt", state="missing"),
    ),
    holes_counted=True,
    extra_holes=tuple(
        ExtraHole(
            number=20 + n, across_mm=6.5, state="plugged" if n % 2 else "open", sure=n < 8,
            where=f"between lugs {n % 8 + 1} and {n % 8 + 2}, {40 + n} mm below the batter edge",
        )
        for n in range(10)
    ),
    faults=("a dent in the batter hoop, at lug 3", "the badge is bent"),
    work_done=("Both edges were trued on the plate.",),
    comes_with=("what came off, in a bag",),
    not_known=("whether it was ever lacquered",),
)  # fmt: skip
SHEET = ListingSheet(
    listing=listing(TEN_HOLES), on=DAY, shop="Millrace Drum Workshop", asked="450 GBP",
    shop_lines=("2 Millrace Yard, Dunmarrow",),
    photographs=(photograph_of("outside, front"), photograph_of("outside, back", tint=30)),
)  # fmt: skip


def test_ten_holes_and_two_photographs_stand_on_one_sheet_with_every_line_of_the_listing() -> None:
    made = listing_sheet_pdf(SHEET)
    assert len(pages(made)) == 1
    said = words(made)
    for told in ("Millrace Drum Workshop", "450 GBP", "outside, back", "4 March 2026"):
        assert told in said
    for line in SHEET.listing.text.split("\n"):
        assert re.sub(r"^- |:$", "", line) in said, line


def test_without_price_and_photographs_it_names_neither() -> None:
    said = words(listing_sheet_pdf(replace(SHEET, asked="", photographs=()), paper="Letter"))
    assert "asked for it" not in said
    assert "outside" not in said


def test_more_photographs_than_it_has_room_for_are_refused() -> None:
    with pytest.raises(BadInput, match="too many photographs"):
        listing_sheet_pdf(replace(SHEET, photographs=SHEET.photographs * 2))
