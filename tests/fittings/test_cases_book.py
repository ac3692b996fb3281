"""The book of the bench cases says what the cases state.

The figures are the cases' own; the rod's length in case A is worked out anew here.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from counterhoop.fittings.book import Book
from counterhoop.fittings.choose import nearest_rod
from counterhoop.fittings.entry import Fitting
from counterhoop.fittings.read_book import packaged_book, read_book


@pytest.fixture(scope="module")
def book() -> Book:
    file = Path(__file__).parents[1] / "cases" / "book.toml"
    return read_book(file.read_text(encoding="utf-8"), name=file.name)


def size_mm(entry: Fitting) -> tuple[float, float]:
    assert entry.base is not None
    left, top, right, bottom = entry.base.bounds_mm
    return (right - left, bottom - top)


def apart_mm(entry: Fitting) -> float:
    upper, lower = entry.holes
    assert upper.right_mm == lower.right_mm
    return lower.down_mm - upper.down_mm


def test_case_a_lug(book: Book) -> None:
    lug = book.find("Corvane single lug 42")
    assert lug.base is not None
    assert apart_mm(lug) == 42.0
    assert size_mm(lug) == pytest.approx((24.0, 57.0))
    assert lug.holes[0].down_mm - lug.base.bounds_mm[1] == 7.5
    upper_hole_mm = 41.0
    mouth_mm = upper_hole_mm - lug.holes[0].down_mm + lug.mouths[0].down_mm
    assert mouth_mm == 33.5
    assert (lug.free_depth_mm, lug.thread, lug.swivel) == (30.0, "12-24 UNC", False)


def test_case_a_rod(book: Book) -> None:
    lug, hoop = book.find("Corvane single lug 42"), book.find("Corvane hoop 12 in, 6 ears")
    assert (hoop.seat_below_edge_mm, hoop.washer_mm, hoop.ears) == (7.0, 1.5, 6)
    assert lug.free_depth_mm is not None
    free_mm = 33.5 - 7.0 + 1.5
    least_mm, most_mm = free_mm + 10.0, free_mm + lug.free_depth_mm - 5.0
    assert (least_mm, most_mm) == (38.0, 53.0)
    rod = nearest_rod(book, least_mm=least_mm, most_mm=most_mm, thread=lug.thread)
    assert rod is not None
    assert rod.rod_length_mm == 42.0


def test_case_a_and_b_brackets(book: Book) -> None:
    assert size_mm(book.find("Corvane bracket block")) == pytest.approx((50.8, 38.1))
    assert len(book.find("Corvane bracket block").holes) == 4
    assert size_mm(book.find("Hallmere bracket block")) == (60.0, 70.0)


def test_case_c(book: Book) -> None:
    lug, hoop = book.find("Brackwell lug"), book.find("Brackwell hoop 14 in, 8 ears")
    assert size_mm(lug)[0] == pytest.approx(24.0)
    assert {hole.hole_mm for hole in lug.holes} == {6.0}
    assert (lug.free_rod_mm, lug.swivel) == (34.0, False)
    assert hoop.ear_hole_mm == 7.0
    assert book.find("Brackwell rod 52 mm").shank_mm == 5.5


def test_case_d(book: Book) -> None:
    old, new = book.find("Varlow old strainer"), book.find("Varlow new strainer")
    assert (apart_mm(old), apart_mm(new)) == (50.8, 44.5)
    assert {hole.hole_mm for hole in (*old.holes, *new.holes)} == {5.5}
    assert [hole.down_mm for hole in old.holes] == [-25.4, 25.4]
    assert all(hole.slot_down_mm for hole in book.find("Varlow slotted strainer").holes)
    plate = book.find("Varlow cover plate")
    assert apart_mm(plate) == 50.8


def test_case_e(book: Book) -> None:
    lug = book.find("Merrowdale ten lug")
    assert len(lug.holes) == 2
    assert size_mm(lug)[0] == pytest.approx(24.0)
    eight, ten = (book.find(f"Merrowdale hoop 14 in, {n} ears") for n in (8, 10))
    assert (eight.ears, ten.ears) == (8, 10)


def test_it_can_be_laid_over_the_packaged_book(book: Book) -> None:
    both = packaged_book().merged(book)
    assert {both.find(entry.name) for entry in book} == set(book)
    assert len(both) > len(packaged_book())
