"""Entries are found by name, and one's own book lies over the packaged one."""

from __future__ import annotations

import pytest

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.fittings.read_book import packaged_book, read_book


def plain(name: str, source: str = "measured") -> Fitting:
    return Fitting(name=name, kind=Kind.LUG_SPRING, source=source)


def test_capitals_and_spaces_do_not_matter() -> None:
    book = Book((plain("Lug spring 8 x 28"), plain("Straße")))
    assert book.find("  lug   SPRING 8 x 28 ") is book.entries[0]
    assert book.find("STRASSE") is book.entries[1]


def test_a_near_miss_is_named_with_its_place() -> None:
    with pytest.raises(BadInput) as caught:
        packaged_book().find("Corvane rond lug", where="drums.small tom.rows")
    line = str(caught.value)
    assert line.startswith("drums.small tom.rows: no such fitting in the book")
    assert line.endswith('Did you mean "Corvane round lug"?')


def test_what_is_far_from_everything_gets_no_advice() -> None:
    with pytest.raises(BadInput) as caught:
        packaged_book().find("zzzzzz")
    assert "Did you mean" not in str(caught.value)


def test_ones_own_entry_takes_the_place_of_the_packaged_one() -> None:
    mine = Book((plain("b", "mine"), plain("D", "mine")))
    theirs = Book((plain("a"), plain("B"), plain("c")))
    both = theirs.merged(mine)
    assert [(entry.name, entry.source) for entry in both] == [
        ("a", "measured"),
        ("b", "mine"),
        ("c", "measured"),
        ("D", "mine"),
    ]
    assert theirs.merged(Book(())) == theirs


def test_a_book_read_from_text_lies_over_the_packaged_one() -> None:
    rod = packaged_book().find("rod 12-24 x 42 mm")
    mine = read_book(
        """
        source = "measured"
        [[fitting]]
        name = "Rod 12-24 x 42 mm"
        kind = "rod"
        thread = "7/32-24"
        length = "42.5 mm"
        thread_length = "25 mm"
        shank = "5.5 mm"
        """,
        name="mine.toml",
    )
    both = packaged_book().merged(mine)
    assert len(both) == len(packaged_book())
    assert both.find(rod.name).rod_length_mm == 42.5
    assert both.entries.index(both.find(rod.name)) == packaged_book().entries.index(rod)


def test_kinds_are_picked_in_the_order_of_the_book() -> None:
    picked = packaged_book().of_kind(Kind.LUG, Kind.LONG_LUG)
    assert {entry.kind for entry in picked} == {Kind.LUG, Kind.LONG_LUG}
    assert list(picked) == [entry for entry in packaged_book() if entry in picked]
