"""The wants list: every missing piece once, where it goes, what our shelf has of it."""

from __future__ import annotations

import datetime as dt

from documents import pages, words
from example_jobs import job_of

from counterhoop.bench.demo import open_demo
from counterhoop.papers.wants_list import GAUGE, WITH_NEW, DrumWants, wants_data, wants_list_pdf
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.strip_down import StripDown, strip_down
from counterhoop.parts.ticked import Stage, Tick, count_off
from counterhoop.parts.wants import Want, Wants, wants_of

OPENED = open_demo()
BOOK = OPENED.shop.book
STRIPPED = {wanted.drum.key: strip_down(wanted.drum, book=BOOK) for wanted in OPENED.job.drums}
SCREW = "screw 10-24 x 5/8 in"


def counted(stripped: StripDown, **short: int) -> Wants:
    """All found but so many at each place whose name is given with _ for spaces."""
    ticks = [
        Tick(
            place=line.place, piece=line.sort.piece, stage=Stage.FOUND,
            count=line.count - short.get(line.place.replace(" ", "_"), 0)
            if line.sort.piece == SCREW else line.count,
        )
        for line in stripped.lines if not line.lost
    ]  # fmt: skip
    return wants_of(count_off(stripped, ticks))


SNARE = DrumWants(
    drum="old snare",
    wants=counted(STRIPPED["old snare"], batter_lug_1=1, batter_lug_2=2, batter_lug_4=2),
)
TOM = DrumWants(drum="small tom", wants=counted(STRIPPED["small tom"], batter_lug_6=1))


def test_one_sort_of_all_drums_stands_in_one_row() -> None:
    """By hand: 1 + 2 + 2 at lugs, 2 of the lost strainer, 1 on the tom; 3 lie on our shelf."""
    data = wants_data(job_of(), [SNARE, TOM], book=BOOK, shelf={SCREW: 3, "screw washer 14": 9})
    rows = {row["piece"]: row for row in data["rows"]}
    assert list(rows) == [SCREW, "Corvane lever strainer", "screw washer 14"]
    screw = rows[SCREW]
    assert (screw["count"], screw["shelf"], screw["find"]) == (8, 3, 5)
    assert screw["for"] == [
        {
            "drum": "old snare",
            "places": "batter lug 1; batter lugs 2, 4 and strainer (2\xa0each)",
        },
        {"drum": "small tom", "places": "batter lug 6"},
    ]
    assert (rows["screw washer 14"]["shelf"], rows["screw washer 14"]["find"]) == (2, 0)
    assert data["in-all"] == "11 pieces of 3 sorts"


def test_what_the_sheet_says() -> None:
    said = words(wants_list_pdf(job_of(), [SNARE, TOM], book=BOOK, shelf={SCREW: 3}))
    for line in (
        "Wants list, job 17",
        GAUGE,
        "8 screw 10-24",
        "small tom: batter lug 6",
        "our shelf to find",
        "29.00 GBP each by the book",
    ):
        assert line in said, line
    assert "our shelf" not in words(wants_list_pdf(job_of(), [SNARE], book=BOOK))


def test_day_of_the_count_bin_and_what_is_new() -> None:
    """By hand: 3 of 8 screws lie in bin B3; the washers, none of which is ours, lie nowhere."""
    made = wants_list_pdf(
        job_of(), [SNARE, TOM], shelf={SCREW: 3}, bins={SCREW: "B3", "screw washer 14": "B4"},
        has_new=True, counted_on=dt.date(2026, 5, 9),
    )  # fmt: skip
    said = words(made)
    assert "counted up to 9 May 2026" in said
    assert "bin B3" in said
    assert "bin B4" not in said
    assert WITH_NEW in said
    bare = words(wants_list_pdf(job_of(), [SNARE]))
    assert "surveyed 4 March 2026" in bare
    assert WITH_NEW not in bare


def test_six_sorts_go_on_one_sheet() -> None:
    """Each for two drums, by a scheme and at a row of lugs: the longest that a line says."""
    sorts = [Sort(piece=f"flanged hoop {n} in, 8 ears", kind="hoop") for n in range(6)]
    places = (("new under its scheme, not taken yet", 8), ("batter lugs 1 to 8", 8))
    wants = Wants(lines=tuple(Want(sort=sort, count=16, places=places) for sort in sorts))
    drums = [DrumWants(drum=f"marching snare {n}", wants=wants) for n in (1, 2)]
    assert len(pages(wants_list_pdf(job_of(), drums, shelf={SCREW: 1}))) == 1


def test_a_spoilt_piece_is_the_pattern_to_match() -> None:
    stripped = STRIPPED["small tom"]
    ticks = [
        Tick(place=line.place, piece=line.sort.piece, stage=Stage.FOUND, count=line.count)
        for line in stripped.lines
    ]
    spoilt = Tick(place="badge", piece="badge grommet 12.7", stage=Stage.SPOILT, count=1)
    wants = wants_of(count_off(stripped, [*ticks, spoilt]))
    said = words(wants_list_pdf(job_of(), [DrumWants(drum="small tom", wants=wants)]))
    assert "1 of them found, no use again: the pattern to match" in said
    assert GAUGE not in said  # a grommet has no thread


def test_what_was_not_counted_is_named_and_nothing_is_made_up() -> None:
    wants = wants_of(count_off(STRIPPED["small tom"], ()))
    said = words(wants_list_pdf(job_of(), [DrumWants(drum="small tom", wants=wants)]))
    assert "Nothing is wanted of what has been counted." in said
    assert "small tom: something at batter head, batter lugs 1 to 6, badge and bracket." in said
    assert "What they lack is not known." in said


def test_a_long_list_repeats_its_head() -> None:
    drums = [
        DrumWants(
            drum=f"{key} {n}",
            wants=wants_of(
                count_off(
                    stripped,
                    [
                        Tick(place=line.place, piece=line.sort.piece, stage=Stage.FOUND, count=0)
                        for line in stripped.lines
                    ],
                )
            ),
        )
        for n in range(3)
        for key, stripped in STRIPPED.items()
    ]
    sheets = pages(wants_list_pdf(job_of(), drums, paper="Letter"))
    assert len(sheets) > 2
    assert all("from whom, price" in sheet for sheet in sheets)
