"""The form of a piece: what it shows reads back as the same piece, whatever stands on it.

Truth: the law of going there and back (Hypothesis); single lines worked by hand.
"""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.shelf.piece_form import (
    INSTRUMENTS,
    Line,
    Typed,
    read_typed,
    typed_in,
    typed_of,
)
from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.piece import Piece
from counterhoop.store.shelf.body_of_piece import MOST_READINGS

TODAY = dt.date(2026, 11, 28)
WORDS = st.text(alphabet="ab é7/;", max_size=8).map(lambda text: " ".join(text.split()))
FACT = st.text(alphabet="ab é7/", min_size=1, max_size=8).map(str.strip).filter(bool)


@st.composite
def readings(draw):
    what = draw(st.sampled_from(Dimension))
    if what.unit == "count":
        n = draw(st.integers(0, 40))
        return Measured(dimension=what, value=n, doubt=0.0, written=f"{n}")
    # No screw is finer or coarser than these.
    least, most = (8, 64) if what is Dimension.PITCH else (1, 9999)
    value = draw(st.integers(least, most)) / 16
    doubt = draw(st.sampled_from((0.02, 0.1, 0.5, 1.0, 0.37)))
    written = draw(st.sampled_from(("", f"{value} {what.unit}", "about so", f"{value} (mine)")))
    return Measured(dimension=what, value=value, doubt=doubt, written=written)


PIECES = st.builds(
    Piece,
    id=st.just("p"), number=WORDS, kind=WORDS, says=WORDS, material=WORDS, plating=WORDS,
    finish=WORDS, bin=WORDS, lot=WORDS, fitting=WORDS, owner=WORDS,
    measured=st.lists(readings(), max_size=5).map(tuple),
    condition=st.lists(FACT, max_size=3).map(tuple), count=st.integers(0, 999_999),
    lot_share=st.none() | st.integers(0, 1000).map(lambda n: n / 1000),
    came_on=st.none() | st.dates(dt.date(1900, 1, 1), TODAY), matched_set=st.booleans(),
)  # fmt: skip


def read(typed: Typed, *, new: bool = True, units: str = "mm"):
    return read_typed(
        typed, new=new, book=packaged_book(), currency="GBP", units=units, today=TODAY
    )


def sent(typed: Typed) -> dict[str, str]:
    """Return what a browser sends of the form."""
    fields = dict(typed.texts)
    for n, line in enumerate(typed.lines):
        fields |= {
            f"measured.{n}.what": line.what, f"measured.{n}.written": line.written,
            f"measured.{n}.with": line.taken_with,
        }  # fmt: skip
    return fields


@given(piece=PIECES, price=st.none() | st.integers(0, 10**6))
def test_what_the_form_shows_reads_back_as_the_piece(piece, price):
    whole = {} if price is None else {"price_minor": price, "currency": "EUR"}
    piece = Piece(**{name: getattr(piece, name) for name in piece.__slots__} | whole)
    read_back = read(typed_in(sent(typed_of(piece))))
    faults = {name for name in read_back.faults if name != "says"}
    assert not faults
    if "says" in read_back.faults:
        assert not any((piece.says, piece.kind, piece.fitting, piece.measured))
        return
    for name, value in read_back.fields.items():
        if name == "measured":
            kept = [(m.dimension, round(m.value, 6), m.doubt) for m in piece.measured]
            assert [(m.dimension, round(m.value, 6), m.doubt) for m in value] == kept
        elif name == "lot_share" and value is not None:
            assert value == pytest.approx(piece.lot_share, abs=1e-12)
        else:
            assert value == getattr(piece, name), name


def test_no_reading_of_a_piece_is_dropped_by_its_form():
    """As many as a piece may have; with more, so many are read that the shelf refuses them."""
    line = Line(what="hole", written="6 mm")
    for lines in (MOST_READINGS, MOST_READINGS + 50):
        read_back = read(typed_in(sent(Typed(lines=(line,) * lines)))).fields["measured"]
        assert len(read_back) == lines or len(read_back) > MOST_READINGS


@pytest.mark.parametrize(
    ("line", "units", "value", "doubt", "written"),
    [
        (Line(what="holes apart", written="42.5"), "mm", 42.5, 0.1, "42.5 mm"),
        (Line(what="holes apart", written="1 5/8"), "in", 41.275, 0.1, "1 5/8 in"),
        (Line(what="holes apart", written="42,5", taken_with="rule"), "mm", 42.5, 0.5, "42,5 mm"),
        (Line(what="mass", written="61"), "in", 61.0, 1.0, "61 g"),
        (Line(what="pitch", written="24 tpi"), "mm", 25.4 / 24, 0.02, "24 tpi"),
        (Line(what="ears", written="8"), "mm", 8.0, 0.0, "8"),
        (Line(what="length", written="60 mm", taken_with="±0.3"), "mm", 60.0, 0.3, "60 mm"),
    ],
)
def test_a_measurement_as_it_is_typed(line, units, value, doubt, written):
    (found,) = read(Typed(lines=(line,)), units=units).fields["measured"]
    assert (found.value, found.doubt, found.written) == (pytest.approx(value), doubt, written)


@pytest.mark.parametrize(
    ("texts", "lines", "where", "says"),
    [
        ({}, (), "says", "nothing is written"),
        ({"says": "x", "count": "two"}, (), "count", "not a count"),
        ({"says": "x", "price": "3.50 shells"}, (), "price", "not a currency"),
        ({"says": "x", "lot_share": "25"}, (), "lot_share", "more than the whole"),
        ({"says": "x", "came_on": "2026-12-24"}, (), "came_on", "cannot be"),
        ({"says": "x", "came_on": "yesterday"}, (), "came_on", "not a day"),
        ({"says": "x", "bin": "B\n7"}, (), "bin", "several lines"),
        ({"says": "x\x07"}, (), "says", "cannot be printed"),
        ({}, (Line(what="", written="42"),), "measured.0.what", "what was measured"),
        ({}, (Line(what="girth", written="42"),), "measured.0.what", "not in the list"),
        ({}, (Line(what="ears"),), "measured.0.written", "how much"),
        ({}, (Line(what="hole", written="6"), Line(what="hole", written="big")),
         "measured.1.written", "not a unit"),
        ({}, (Line(what="hole", written="-6 mm"),), "measured.0.written", "below zero"),
        ({}, (Line(what="pitch", written="24 tpi", taken_with="scale"),),
         "measured.0.written", "cannot be taken with"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_said_beside_its_field(texts, lines, where, says):
    faults = read(Typed(texts=texts, lines=lines)).faults
    assert list(faults) == [where]
    assert says in str(faults[where])


def test_the_book_names_its_entries_and_the_shop_its_money():
    fields = read(Typed(texts={"fitting": "corvane  ROUND lug", "price": "3.50"})).fields
    assert (fields["fitting"], fields["kind"]) == ("Corvane round lug", "lug")
    assert (fields["price_minor"], fields["currency"]) == (350, "GBP")
    assert read(Typed(texts={"fitting": "my own"})).fields["fitting"] == "my own"


def test_how_many_and_whose_are_asked_of_a_new_piece_only():
    typed = Typed(texts={"says": "x", "count": "3", "owner": "A. Hale"})
    assert {"count", "owner"} <= read(typed).fields.keys()
    assert not {"count", "owner"} & read(typed, new=False).fields.keys()


def test_every_instrument_is_offered():
    assert set(INSTRUMENTS) == {"rule", "caliper", "thread gauge", "scale", "eye"}
