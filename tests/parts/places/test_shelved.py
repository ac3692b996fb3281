"""Pieces of the shelf held against a place: worked by hand."""

from __future__ import annotations

from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.piece import Piece
from counterhoop.parts.places.place import HoleAt, Place
from counterhoop.parts.places.serves import How, what_serves
from counterhoop.parts.places.shelved import shelved
from counterhoop.shell.shop_rules import default_rules

HOLES = tuple(HoleAt(along_mm=0.0, down_mm=d, diameter_mm=6.0, doubt_mm=0.2) for d in (-21.0, 21.0))


def measured(**sizes: float) -> tuple[Measured, ...]:
    return tuple(
        Measured(dimension=Dimension[name], value=value, doubt=0.0 if name == "HOLE_COUNT" else 0.1)
        for name, value in sizes.items()
    )


def test_a_piece_of_the_book_is_its_entry() -> None:
    (one,) = shelved(
        [Piece(id="1", number="7", kind="lug", fitting="corvane round lug")], book=packaged_book()
    )
    assert one.fitting is packaged_book().find("Corvane round lug")


def test_a_measured_lug_is_held_against_a_place() -> None:
    # By hand: 42 apart on holes 42 apart, screws of 4.8 in holes of 6.
    sizes = measured(HOLES_APART=42.0, SCREW=4.8, BASE_WIDE=24.0, BASE_HIGH=57.0)
    piece = Piece(id="1", number="31", kind="lug", measured=sizes)
    (one,) = shelved([piece], book=packaged_book())
    assert one.fitting is not None
    (answer,) = what_serves(Place(holes=HOLES), [one.fitting], rules=default_rules())
    assert (answer.fitting.name, answer.how) == ("number 31", How.AS_IT_IS)


def test_what_was_not_measured_is_named() -> None:
    piece = Piece(id="1", number="31", kind="lug", measured=measured(HOLES_APART=42.0, SCREW=4.8))
    (one,) = shelved([piece], book=packaged_book())
    assert one.fitting is None
    assert one.lacks == (Dimension.BASE_WIDE, Dimension.BASE_HIGH)


def test_four_holes_are_not_guessed_from_two_distances() -> None:
    sizes = measured(HOLES_APART=42.0, SCREW=4.8, BASE_WIDE=24.0, BASE_HIGH=57.0, HOLE_COUNT=4)
    (one,) = shelved([Piece(id="1", number="31", kind="lug", measured=sizes)], book=packaged_book())
    assert one.fitting is None


def test_a_clients_part_is_never_offered_to_another_job() -> None:
    pieces = [Piece(id=n, number=n, kind="lug", owner=o) for n, o in (("1", ""), ("2", "A. Hale"))]
    book = packaged_book()
    assert [s.piece.number for s in shelved(pieces, book=book, client="B. Rowe")] == ["1"]
    assert [s.piece.number for s in shelved(pieces, book=book, client="A. Hale")] == ["1", "2"]
