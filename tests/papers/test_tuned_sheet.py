"""The tuned sheet says what was heard and advised, and draws before and after to one scale."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pypdfium2 as pdfium
import pytest
from documents import words
from example_jobs import job_of
from example_tuning import head, rim

from counterhoop.papers.drawing.records import Text
from counterhoop.papers.tuned_sheet import HeadTuned, ReadingShown, rim_strips, tuned_sheet_pdf


def sheet(*heads: HeadTuned) -> bytes:
    return tuned_sheet_pdf(job_of(), drum="low tom", what="14 x 14 in", heads=heads)


@pytest.fixture(scope="module")
def said() -> str:
    return words(sheet(head()))


def test_what_was_heard_is_on_the_sheet(said: str) -> None:
    """Computed values: 213 Hz is 44 cents over G#3 by equal temperament (hand-worked)."""
    assert (
        "Before, 2 May 2026: G#3 +45 cents (213 Hz), round the rim 34 cents apart; 7 of 8 strokes"
        " used." in said
    )
    assert "After, 3 May 2026: G#3 +45 cents (213 Hz), round the rim 4 cents apart" in said


def test_advice_stands_word_for_word(said: str) -> None:
    for read in head().readings:
        assert read.advice is not None
        told = read.advice
        beside = (*told.staying, *told.later, *told.because)
        for sentence in (*told.sentences, *beside, *told.unknown, told.expected):
            assert sentence in said


def test_what_waits_stands_apart_from_what_is_to_be_done_now() -> None:
    first, *rest = head().readings
    assert first.advice is not None
    waits = replace(first.advice, staying=("If it stays:", "A hair."), later=("Then:", "More."))
    said = words(sheet(replace(head(), readings=(replace(first, advice=waits), *rest))))
    order = [waits.sentences[-1], "If it stays:", "A hair.", "Then:", "More.", *waits.because]
    places = [said.index(sentence) for sentence in order]
    assert places == sorted(places)


def test_shares_of_oval_and_film_are_said(said: str) -> None:
    assert "The oval of the edge makes" in said
    assert "What listening cannot tell" in said


def test_hoop_heights_stand_under_their_rods(said: str) -> None:
    assert "rod 1 rod 2 rod 3 rod 4 rod 5 rod 6 rod 7 rod 8" in said
    assert "before any turn flat 9.1 9.3 9.0 9.2 9.4 9.1 9.0 9.2" in said


def test_the_sheet_bears_the_days_of_its_sittings(said: str) -> None:
    assert "heard on 2 May 2026, 3 May 2026" in said


def test_before_and_after_have_one_scale_and_one_key() -> None:
    before, after = rim_strips(head(), wide_mm=186.0).values()

    def figures(drawing: object) -> list[str]:
        return [s.text for s in drawing.strokes if isinstance(s, Text) and s.anchor == "end"]

    assert figures(before) == figures(after)
    assert not any(isinstance(s, Text) and "dotted" in s.text for s in before.strokes)
    assert any(isinstance(s, Text) and "dotted" in s.text for s in after.strokes)


def test_pictures_have_their_words_for_who_cannot_see_them() -> None:
    """ISO 14289-1, 7.3 (from memory): a figure has an alternate description."""
    raw = sheet(head())
    for expected in ("Tight at 75 and 255 degrees along", "falls by 60 dB in 1.4 s"):
        assert any(expected in alt for alt in alts(raw)), expected


def alts(pdf: bytes) -> list[str]:
    import io

    from pypdf import PdfReader
    from pypdf.generic import DictionaryObject

    reader = PdfReader(io.BytesIO(pdf))
    return [
        str(thing["/Alt"])
        for at in range(1, len(reader.xref[0]) + 1 if 0 in reader.xref else 4000)
        if isinstance(thing := _object(reader, at), DictionaryObject) and "/Alt" in thing
    ]


def _object(reader: object, number: int) -> object:
    from pypdf.generic import IndirectObject

    try:
        return reader.get_object(IndirectObject(number, 0, reader))
    except Exception:
        return None


def test_a_reading_that_could_not_be_read_says_why() -> None:
    bad = ReadingShown(stage="before", day=dt.date(2026, 5, 2), refusal="Nothing rings here.")
    said = words(sheet(replace(head(), readings=(bad,), heights=())))
    assert "Before, 2 May 2026: nothing was read. Nothing rings here." in said


def test_two_heads_that_ring_are_said_to_and_get_no_pattern() -> None:
    first = head().readings[0]
    both = replace(first, rim=replace(rim(60.0), coupled_pair=True), advice=None, muted=False)
    said = words(sheet(replace(head(), readings=(both,), heights=())))
    assert "both heads ringing" in said
    assert "the other head not muted" in said
    assert "tighten" not in said


def test_the_other_head_begins_a_sheet_of_its_own_and_margins_hold() -> None:
    pdf = sheet(head(), replace(head(), head="resonant"))
    document = pdfium.PdfDocument(pdf)
    starts = [
        number
        for number, page in enumerate(document)
        if "Resonant head" in page.get_textpage().get_text_range()
    ]
    assert starts
    assert "Batter head" not in document[starts[0]].get_textpage().get_text_range()
    for page in document:
        grey = page.render(scale=1.0).to_numpy()[:, :, 0]
        ink = (grey < 200).nonzero()
        assert min(ink[1]) >= 11.0 / 25.4 * 72.0
        assert max(ink[1]) <= grey.shape[1] - 11.0 / 25.4 * 72.0
