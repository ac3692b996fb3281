"""What is measured on parts. Truth: the book's own entries, worked by hand, and exact units."""

from __future__ import annotations

import math

import pytest

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Fitting, Kind, PatternHole
from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, Measured, read_measured, usual_doubt
from counterhoop.parts.dimensions_of import dimensions_of
from counterhoop.parts.piece import Piece

BOOK = packaged_book()


def test_every_dimension_is_in_the_table_and_reads_what_it_says() -> None:
    for dimension in Dimension:
        about = dimension.about
        assert about.minutes > 0, dimension
        assert about.taken.endswith("."), dimension
        assert usual_doubt(dimension) == 0 if about.unit == "count" else usual_doubt(dimension) > 0
        if about.wear == "stays":
            assert about.worn_by(100.0) == 0.0, dimension
        else:
            assert about.worn_by(100.0) > 0.0, dimension
        if about.unit != "count":
            assert about.cast_by(100.0) > 0.0, dimension


def test_every_entry_of_the_book_and_every_dimension_meet() -> None:
    stated = [dimensions_of(fitting) for fitting in BOOK]
    assert all(stated), "an entry that nothing can be measured on"
    assert set().union(*stated) == set(Dimension)
    assert all(size > 0 for sizes in stated for size in sizes.values())


def test_four_holes_in_a_rectangle_have_two_distances_worked_by_hand() -> None:
    corners = [(0.0, 0.0), (30.0, 0.0), (0.0, 40.0), (30.0, 40.0)]
    plate = Fitting(
        name="plate",
        kind=Kind.COVER_PLATE,
        source="measured",
        holes=tuple(
            PatternHole(right_mm=x, down_mm=y, hole_mm=5.0, screw_mm=4.0) for x, y in corners
        ),
    )
    found = dimensions_of(plate)
    assert math.isclose(found[Dimension.HOLES_APART], 50.0)  # 3-4-5
    assert math.isclose(found[Dimension.HOLES_APART_2], 40.0)
    assert found[Dimension.HOLE_COUNT] == 4


def test_a_rod_is_read_by_its_thread() -> None:
    rod = dimensions_of(BOOK.find("rod 12-24 x 42 mm"))
    assert math.isclose(rod[Dimension.PITCH], 25.4 / 24)
    assert rod[Dimension.LENGTH] == 42.0
    assert Dimension.HOLES_APART not in rod


def test_readings_keep_what_was_written() -> None:
    read = read_measured(Dimension.MASS, "61 g")
    assert (round(read.value, 9), read.doubt, read.written) == (61.0, 1.0, "61 g")
    assert str(read_measured(Dimension.EARS, " 8 ")) == "8"
    assert str(read_measured(Dimension.BASE_WIDE, "23.94 mm")) == "23.9 mm"
    assert str(read_measured(Dimension.BASE_WIDE, "23.94 mm", instrument="rule")) == "24 mm"


@pytest.mark.parametrize(
    ("dimension", "text", "instrument", "says"),
    [
        (Dimension.EARS, "2.5", "", "not a count"),
        (Dimension.EARS, "-2", "", "not a count"),
        (Dimension.BASE_WIDE, "24", "", "no unit"),
        (Dimension.BASE_WIDE, "24 mm", "scale", "cannot be taken with that"),
        (Dimension.PITCH, "24", "", "threads to the inch, or millimetres"),
        (Dimension.PITCH, "24 tpi", "rule", "cannot be taken with that"),
        (Dimension.MASS, "61", "", "no unit"),
    ],
)
def test_what_cannot_be_read_is_refused(
    dimension: Dimension, text: str, instrument: str, says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        read_measured(dimension, text, instrument=instrument)


@pytest.mark.parametrize(
    ("dimension", "value", "doubt"),
    [
        (Dimension.REACH, math.nan, 0.1),
        (Dimension.REACH, -1.0, 0.1),
        (Dimension.REACH, 1.0, 0.0),
        (Dimension.REACH, 1.0, math.inf),
        (Dimension.EARS, 2.5, 0.0),
    ],
)
def test_no_reading_is_made_of_nonsense(dimension: Dimension, value: float, doubt: float) -> None:
    with pytest.raises(BadInput):
        Measured(dimension=dimension, value=value, doubt=doubt)


def test_a_piece_gives_its_surest_and_last_reading() -> None:
    first = Measured(dimension=Dimension.REACH, value=20.0, doubt=0.5)
    later = Measured(dimension=Dimension.REACH, value=20.3, doubt=0.1)
    last = Measured(dimension=Dimension.REACH, value=20.2, doubt=0.1)
    piece = Piece(id="1", number="7", measured=(first, later, last))
    assert piece.best(Dimension.REACH) is last
    assert piece.best(Dimension.EARS) is None


def test_a_piece_is_not_fewer_than_none() -> None:
    with pytest.raises(BadInput, match="fewer than none"):
        Piece(id="1", number="7", count=-1)
    with pytest.raises(BadInput, match="not a share"):
        Piece(id="1", number="7", lot_share=1.5)
