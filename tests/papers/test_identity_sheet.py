"""The identity sheet: what the survey and the dating say of one drum, and nothing more."""

from __future__ import annotations

from dataclasses import replace

from documents import pages, words
from example_jobs import job_of
from example_parts import known_of

from counterhoop.bench.demo import open_demo
from counterhoop.papers.identity_sheet import Identity, identity_data, identity_sheet_pdf
from counterhoop.shell.hole import Condition

OPENED = open_demo()
DRUMS = {wanted.drum.key: wanted.drum for wanted in OPENED.job.drums}
SNARE = DRUMS["old snare"]


def test_what_hangs_on_the_old_snare() -> None:
    """By hand from its survey."""
    data = identity_data(OPENED.job, SNARE, known=Identity())
    rows = data["hangs"]
    told = [(row["count"], row["what"], row["where"], row["state"]) for row in rows]
    lugs = "batter lugs 1 to 8 and resonant lugs 1 to 8"
    assert told == [
        (2, "flanged hoop 14 in, 8 ears", "batter head and resonant head", ""),
        (16, "Corvane round short lug", lugs, "from the factory"),
        (1, "Quennick roller strainer", "later strainer", "added later"),
        (1, "Corvane butt", "butt", "from the factory"),
        (1, "Corvane oval badge", "badge", "from the factory"),
        (1, "Corvane damper", "damper", "added later"),
    ]
    assert data["gone"] == ["1 Corvane lever strainer (strainer)"]


def test_what_it_is_known_again_by() -> None:
    """By hand: two holes of the later strainer, two of the damper; the lost strainer's shadow.

    A tape shows 0.5 mm (common practice, no source).
    """
    known = Identity(marks=(("serial number", "61 482"),))
    marks = dict(identity_data(OPENED.job, SNARE, known=known)["marks"])
    assert list(marks) == ["serial number", "extra holes", "shadow of strainer"]
    assert marks["extra holes"].count("hole ") == 4
    assert marks["shadow of strainer"] == "0° along, 70 mm down"
    bass = dict(identity_data(OPENED.job, DRUMS["bass drum"], known=Identity())["marks"])
    assert bass["broken out"] == "hole 36 at 6° along, 178.5 mm down"
    assert bass["lifted ply"] == "75° along, 180 mm to 240 mm down"


def test_many_holes_are_named_by_their_numbers() -> None:
    holes = tuple(replace(hole, condition=Condition.DOWEL) for hole in SNARE.holes[:6])
    marks = dict(identity_data(OPENED.job, replace(SNARE, holes=holes), known=Identity())["marks"])
    assert marks == {
        "plugged with a dowel": "6 holes, holes 1 to 6",
        "shadow of strainer": "0° along, 70 mm down",
    }


def test_what_the_sheet_says() -> None:
    said = words(identity_sheet_pdf(job_of(), SNARE, known=known_of("seen so"), paper="Letter"))
    for line in (
        "Identity sheet, old snare",
        "14 dia x 5 1/2 deep snare, lacquered",
        "belongs to A. Player",
        "serial number 61 482",
        "Likely between 1957 and 1963. seen so",
        "badge oval original goes with the lugs",
        "seen so seen so can't tell seen so",
        "Condition, as measured and photographed",
        "2. seen so",
        "Gone from it: 1 Corvane lever strainer (strainer).",
    ):
        assert line in said, line


def test_what_nobody_knows_is_left_out() -> None:
    said = words(identity_sheet_pdf(job_of(), SNARE))
    for heading in ("When it was made", "Part by part", "Condition,", "Photographs"):
        assert heading not in said


def test_every_drum_of_the_demonstration_fits_one_sheet() -> None:
    for drum in DRUMS.values():
        made = identity_sheet_pdf(OPENED.job, drum, book=OPENED.shop.book)
        assert len(pages(made)) == 1, drum.key
