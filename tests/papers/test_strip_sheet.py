"""The strip-down sheet: one page a drum, every piece once, a box for each lug of a row."""

from __future__ import annotations

import datetime as dt

import pytest
from documents import pages, words
from example_jobs import job_of

from counterhoop.bench.demo import open_demo
from counterhoop.papers.strip_sheet import strip_data, strip_sheet_pdf
from counterhoop.parts.spares import spares_bag
from counterhoop.parts.strip_down import strip_down
from counterhoop.parts.ticked import Stage, Tick, count_off

OPENED = open_demo()
STRIPPED = {
    wanted.drum.key: strip_down(wanted.drum, book=OPENED.shop.book) for wanted in OPENED.job.drums
}
SNARE = STRIPPED["old snare"]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_drum_goes_on_one_page(paper: str) -> None:
    """The longest ones: two rows of lugs, and a strainer that is gone."""
    for drum in ("old snare", "bass drum"):
        one = STRIPPED[drum]
        assert len(pages(strip_sheet_pdf(job_of(), one, spares=spares_bag(one), paper=paper))) == 1


@pytest.mark.parametrize("drum", STRIPPED)
def test_each_table_has_every_piece_once(drum: str) -> None:
    """A law: by sorts and by places the same pieces are counted, and each place has its box."""
    one = STRIPPED[drum]
    data = strip_data(job_of(), one)
    total = sum(line.count for line in one.lines)
    assert sum(row["count"] for row in data["sorts"]) == total
    by_place = sum(
        each["count"] * len(row["boxes"]) for row in data["places"] for each in row["each"]
    )
    assert by_place == total
    boxes = sum(len(row["boxes"]) for row in data["places"])
    assert boxes == len({line.place for line in one.lines})


def test_what_is_ticked_is_printed_and_nothing_else() -> None:
    """By hand: the badge and its grommet are counted; the lost strainer is said to be gone."""
    ticks = [
        Tick(place="badge", piece="Corvane oval badge", stage=Stage.FOUND, count=1),
        Tick(place="badge", piece="badge grommet 12.7", stage=Stage.FOUND, count=0),
    ]
    data = strip_data(job_of(), SNARE, counted=count_off(SNARE, ticks))
    rows = {row["piece"]: row for row in data["sorts"]}
    assert rows["Corvane oval badge"]["ticked"] == ["1", "", "", "", ""]
    assert rows["badge grommet 12.7"]["ticked"] == ["0", "", "", "", ""]
    assert rows["Corvane lever strainer"]["ticked"][0] == ""
    assert rows["Corvane lever strainer"]["note"] == "1 gone, the survey says"
    done = {row["places"]: [box["done"] for box in row["boxes"]] for row in data["places"]}
    assert done["badge"] == [False]
    assert done["batter lugs 1 to 8"] == [False] * 8


def test_it_bears_the_day_of_the_latest_tick() -> None:
    made = strip_sheet_pdf(job_of(), SNARE, counted_on=dt.date(2026, 5, 9))
    assert "counted up to 9 May 2026" in words(made)
    assert "surveyed 4 March 2026" in words(strip_sheet_pdf(job_of(), SNARE))


def test_the_page_says_what_the_book_leaves_open() -> None:
    said = words(strip_sheet_pdf(job_of(), SNARE, spares=spares_bag(SNARE)))
    assert "The book does not say what holds Corvane damper on" in said
    assert "Spares bag, goes with the drum" in said
    assert "batter lugs 1 to 8, each: 1 × Corvane round short lug" in said
