"""The handover record: what is said, the holes by who made them, and that the file is kept."""

from __future__ import annotations

import io

import pytest
from documents import words
from example_jobs import full_scheme
from example_letters import head_of
from example_records import handed_over
from pypdf import PdfReader

from counterhoop.bench.demo import open_demo
from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.papers.handover_record import handover_record_pdf, hole_lines
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.hole import Origin

BOOK = open_demo().shop.book


def test_what_the_record_says() -> None:
    made = handover_record_pdf(handed_over(), left=full_scheme().layout, book=BOOK)
    said = words(made)
    for line in (
        "Handover record: small tom",
        "Made between 1957 and 1963 likely",
        "What was found",
        "A crack inside, from the resonant edge to its ring.",
        "outside, front: as found, as left",
        "not photographed as it goes",
        "BATTER EDGE",
        "added by us 10 holes (holes 2, 4, 6, 8, 10, 12, 14, 16, 18, 20).",
        "batter edge As found 0.5 mm out of flat; now flat to 0.1 mm.",
        "badge grommet replaced the old one is in the bag",
        "Five short lugs with ten screws.",
        "batter single film, coated about C3 as it goes",
        "Who drilled the three holes below the badge.",
        "Take care. Its wrap may be cellulose nitrate",
        "We put right what we did, for two years.",
    ):
        assert line in said, line


def test_the_record_is_written_to_be_kept() -> None:
    """ISO 19005-2 (PDF/A-2, from memory) wants part and conformance in the metadata, an output
    intent, an identifier, and a comment of four bytes above 127 after the header.
    """
    made = handover_record_pdf(handed_over())
    assert made.startswith(b"%PDF-1.7\n%")
    assert min(made[10:14]) > 127
    reader = PdfReader(io.BytesIO(made))
    root = reader.trailer["/Root"]
    metadata = root["/Metadata"].get_data()
    assert b"<pdfaid:part>2</pdfaid:part>" in metadata
    assert b"<pdfaid:conformance>A</pdfaid:conformance>" in metadata
    assert b"<pdfuaid:part>1</pdfuaid:part>" in metadata
    assert root["/OutputIntents"][0]["/S"] == "/GTS_PDFA1"
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert "/Encrypt" not in reader.trailer
    assert len(reader.trailer["/ID"]) == 2
    assert reader.metadata is not None
    assert str(reader.metadata.creation_date)[:10] == "2026-03-04"


def test_a_sign_of_private_use_becomes_a_box() -> None:
    """PDF/A-2a, 6.2.11.7.3 (from memory): the shipped typeface has such signs, a reader may not."""
    made = handover_record_pdf(handed_over("crown \ue000 stamp"))
    assert "crown □ stamp" in words(made)


def test_a_record_without_a_day_is_refused() -> None:
    with pytest.raises(BadInput, match="no day"):
        handover_record_pdf(handed_over(head=head_of(date=None)))


def test_holes_are_told_by_who_made_them() -> None:
    """By hand: one hole of every sort."""
    sorts = (
        (Verdict.KEEP, Origin.FACTORY),
        (Verdict.ENLARGE, Origin.FACTORY),
        (Verdict.PLUG, Origin.EXTRA),
        (Verdict.PLUG, Origin.EXTRA),
        (Verdict.PLUGGED_ALREADY, None),
        (Verdict.PLUG_AND_DRILL, None),
        (Verdict.DRILL, None),
    )
    holes = [
        HolePlan(number=n, verdict=verdict, place=Place(n * 40.0, 30.0), origin=origin)
        for n, (verdict, origin) in enumerate(sorts, 1)
    ]
    assert hole_lines(holes) == [
        ("from the factory", "2 holes (holes 1, 2): hole 1 as found and hole 2 made larger."),
        ("extra, made before it came to us", "2 holes (holes 3, 4): all closed by us."),
        ("not sure who made it", "1 hole (hole 5): closed before it came to us."),
        ("added by us", "2 holes (holes 6, 7)."),
    ]


def test_a_record_says_nothing_of_what_nobody_told() -> None:
    said = words(handover_record_pdf(type(handed_over())(head=head_of(), drum="small tom")))
    for heading in (
        "What was found",
        "What was done",
        "The holes",
        "In the bag",
        "Warranty",
        "Take care",
    ):
        assert heading not in said
    assert "received" in said
