"""What the look-ups give, and that they give nothing where the book has nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.choose import hoop_for, long_lugs_for, nearest_rod, rods, suits_mm
from counterhoop.fittings.entry import Fitting, Kind, Mouth
from counterhoop.fittings.read_book import packaged_book

BOOK = packaged_book()


def long_lug(span_mm: float, *, thread: str = "M6") -> Fitting:
    return Fitting(
        name=f"{span_mm:g}",
        kind=Kind.LONG_LUG,
        source="measured",
        thread=thread,
        mouths=(
            Mouth(down_mm=-span_mm / 2, toward="batter"),
            Mouth(down_mm=span_mm / 2, toward="resonant"),
        ),
    )


def rod(length_mm: float) -> Fitting:
    return Fitting(
        name=f"{length_mm:g}",
        kind=Kind.ROD,
        source="measured",
        thread="12-24 UNC",
        rod_length_mm=length_mm,
    )


def test_without_a_word_of_the_book_the_span_decides() -> None:
    # Mouths 24 to 45 mm from their edges: common practice, no source.
    assert suits_mm(long_lug(134.0)) == (182.0, 224.0)
    book = Book((long_lug(150.0), long_lug(134.0), long_lug(90.0)))
    assert [lug.name for lug in long_lugs_for(book, depth_mm=200.0)] == ["134", "150"]
    assert long_lugs_for(book, depth_mm=300.0) == ()


def test_the_limits_count_as_suiting() -> None:
    book = Book((replace(long_lug(134.0), suits_from_mm=192.0, suits_to_mm=212.0),))
    found = [bool(long_lugs_for(book, depth_mm=d)) for d in (191.9, 192.0, 212.0, 212.1)]
    assert found == [False, True, True, False]


def test_a_long_lug_of_another_thread_is_left_out() -> None:
    book = Book((long_lug(134.0), long_lug(136.0, thread="12-24 UNC")))
    assert [lug.name for lug in long_lugs_for(book, depth_mm=200.0, thread="#12-24")] == ["136"]


def test_a_single_lug_suits_no_depth_by_itself() -> None:
    with pytest.raises(BadInput, match="no long lug"):
        suits_mm(BOOK.find("Corvane round lug"))


def test_the_rod_nearest_the_middle_wins_and_the_shorter_of_two() -> None:
    book = Book(tuple(rod(x) for x in (58.0, 48.0, 40.0, 32.0)))

    def nearest(least_mm: float, most_mm: float) -> float | None:
        found = nearest_rod(book, least_mm=least_mm, most_mm=most_mm, thread="12-24")
        return found and found.rod_length_mm

    assert nearest(38.0, 53.0) == 48.0
    assert nearest(38.0, 50.0) == 40.0  # 44 lies midway between 40 and 48
    assert nearest(40.0, 40.0) == 40.0
    assert nearest(41.0, 47.0) is None
    assert nearest(53.0, 38.0) is None


def test_rods_of_a_thread_that_nobody_has() -> None:
    assert rods(BOOK, thread="M8") == ()
    assert nearest_rod(BOOK, least_mm=38.0, most_mm=53.0, thread="M8") is None
    with pytest.raises(BadInput):
        rods(BOOK, thread="12-25")


def test_rods_and_t_rods_are_two_kinds() -> None:
    assert {found.kind for found in rods(BOOK, kind=Kind.T_ROD)} == {Kind.T_ROD}
    assert {found.kind for found in rods(BOOK)} == {Kind.ROD}


@pytest.mark.parametrize(
    ("nominal_mm", "ears", "kind", "name"),
    [
        (304.8, 6, "", "flanged hoop 12 in, 6 ears"),
        (305.0, 6, "die-cast", "die-cast hoop 12 in, 6 ears"),
        (355.6, 8, "", "flanged hoop 14 in, 8 ears"),
        (355.6, 8, "wood", "wood hoop 14 in, with inlay"),
        (355.6, 12, "", "wood hoop 14 in, with inlay"),
        (558.8, 10, "", "wood hoop 22 in, with inlay"),
    ],
)
def test_a_hoop_is_found(nominal_mm: float, ears: int, kind: str, name: str) -> None:
    found = hoop_for(BOOK, nominal_mm=nominal_mm, ears=ears, kind=kind)
    assert found is not None
    assert found.name == name


def test_no_hoop_is_no_hoop() -> None:
    assert hoop_for(BOOK, nominal_mm=304.8, ears=7) is None
    assert hoop_for(BOOK, nominal_mm=700.0, ears=8) is None
