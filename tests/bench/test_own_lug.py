"""A lug that no book has, from a few measures or from its row."""

from __future__ import annotations

import pytest
import tomli_w

from counterhoop.bench.own_lug import LugMeasured, guessed_in, lug_entry, lug_of_row
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.fittings.read_book import read_book

ROW = {"head": "batter", "near": ["37.5 mm", "79.5 mm"], "hole": "6 mm"}


def read(entry):
    (found,) = read_book(tomli_w.dumps({"fitting": [entry]}), name="own").entries
    return found


def test_a_row_tells_its_holes():
    lug = read(lug_entry(lug_of_row(ROW, name="lug of the small tom"), source="its row"))
    # Worked by hand: near sides 42 mm apart, so holes 21 mm up and down of their middle.
    assert [(hole.down_mm, hole.hole_mm) for hole in lug.holes] == [(-21.0, 6.0), (21.0, 6.0)]
    assert lug.kind is Kind.LUG
    assert lug.says.startswith("Guessed, not measured: base, thread")


def test_a_row_of_long_lugs_makes_a_long_lug():
    row = {"head": "both", "down": ["40 mm", "160 mm"], "hole": ["6 mm", "7 mm"]}
    lug = read(lug_entry(lug_of_row(row, name="long"), source="its row"))
    assert lug.kind is Kind.LONG_LUG
    assert lug.span_mm == pytest.approx(120 + 6 + 2 * 6)


@pytest.mark.parametrize("screws", ["1", "2", "3", "4"])
@pytest.mark.parametrize("shape", ["rounded", "rectangle", "disc"])
@pytest.mark.parametrize("hole", ["3 mm", "1/4 in", "9 mm"])
def test_whatever_is_left_empty_the_book_can_read_it(screws, shape, hole):
    measured = LugMeasured(name="x", screws=screws, apart="25 mm", hole=hole, shape=shape)
    assert len(read(lug_entry(measured, source="a bench")).holes) == int(screws)


def test_what_was_measured_is_not_said_to_be_guessed():
    measured = LugMeasured(
        name="round lug", apart="1 5/8 in", hole="1/4 in", width="1 in", height="2 1/4 in",
        thread="7/32-24",
    )  # fmt: skip
    entry = lug_entry(measured, source="a bench")
    assert "base" not in entry["says"]
    assert "thread" not in entry["says"]
    lug = read(entry)
    assert lug.base.bounds_mm == pytest.approx((-12.7, -28.6, 12.7, 28.6), abs=0.05)


@pytest.mark.parametrize(
    ("more", "where"),
    [
        ({"name": " "}, "name"),
        ({"screws": "9"}, "screws"),
        ({"apart": "42"}, "apart"),
        ({"apart": "2 mm"}, "apart"),
        ({"hole": ""}, "hole"),
        ({"width": "4 mm"}, "apart"),
        ({"shape": "star"}, "shape"),
        ({"thread": "nix"}, "thread"),
    ],
)
def test_a_slip_is_said_at_its_measure(more, where):
    measured = {"name": "x", "apart": "42 mm", "hole": "6 mm", "height": "57 mm"} | more
    with pytest.raises(BadInput) as caught:
        lug_entry(LugMeasured(**measured), source="a bench")
    assert caught.value.where == where


def test_a_row_without_holes_makes_no_lug():
    with pytest.raises(BadInput):
        lug_of_row({"head": "batter", "hole": "6 mm"}, name="x")


def test_guessed_ones_are_found_by_name():
    entry = lug_entry(LugMeasured(name="Old Lug", apart="42 mm", hole="6 mm"), source="a bench")
    measured = {**entry, "name": "other", "says": ""}
    books = {"fitting": [entry, measured, "nonsense"]}
    assert guessed_in(books, ["old lug", "other"]) == ("Old Lug",)
