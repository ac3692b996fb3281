"""What cutting piece by piece takes: shelves filled by hand, and held against the best layout."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.wrap.nest import nest
from counterhoop.wrap.nesting import Piece, Runs, Sheet
from counterhoop.wrap.obvious_order import goes_on, obvious_order

SHEET = Sheet(name="new", length_mm=1400.0, width_mm=610.0)


def strips(*widths_mm: float, length_mm: float = 1140.0) -> list[Piece]:
    return [
        Piece(name=f"strip {n}", length_mm=length_mm, width_mm=width)
        for n, width in enumerate(widths_mm)
    ]


def test_two_small_pieces_first_waste_a_sheet() -> None:
    # By hand: 260 + 260 leave 90 of 610, so that each 340 begins a sheet; 260 + 340 = 600 fits.
    kit = strips(260.0, 260.0, 340.0, 340.0)
    assert obvious_order(kit, sheet=SHEET).new_sheets == 3
    assert nest(kit, sheet=SHEET).new_sheets == 2


def test_short_pieces_lie_behind_each_other_on_a_shelf() -> None:
    # By hand: 2 x 650 on a shelf 200 high, a third begins the next shelf, 3 shelves a sheet.
    kit = strips(*[200.0] * 6, length_mm=650.0)
    assert obvious_order(kit, sheet=SHEET).new_sheets == 1
    assert obvious_order([*kit, kit[0]], sheet=SHEET).new_sheets == 2


def test_a_saw_costs_what_a_knife_does_not() -> None:
    kit = strips(305.0, 305.0)
    assert obvious_order(kit, sheet=SHEET, kerf_mm=0.0).new_sheets == 1
    assert obvious_order(kit, sheet=SHEET, kerf_mm=1.0).new_sheets == 2


def test_offcuts_are_tried_first() -> None:
    shelf = [Sheet(name="red end", length_mm=1200.0, width_mm=300.0)]
    order = obvious_order(strips(260.0, 340.0), sheet=SHEET, offcuts=shelf)
    assert (order.new_sheets, order.offcuts_used) == (1, 1)


def test_a_piece_goes_on_an_offcut_only_as_its_pattern_lets() -> None:
    offcut = Sheet(name="end", length_mm=300.0, width_mm=1200.0)
    for runs, goes in ((Runs.ALONG, False), (Runs.ACROSS, True), (Runs.EITHER, True)):
        piece = Piece(name="tom", length_mm=1140.0, width_mm=180.0, runs=runs)
        assert goes_on(piece, sheet=offcut) is goes


@settings(max_examples=20, deadline=None)
@given(st.lists(st.integers(60, 500), min_size=1, max_size=6))
def test_the_best_layout_never_takes_more_sheets(widths_mm: list[int]) -> None:
    kit = strips(*map(float, widths_mm))
    best = nest(kit, sheet=SHEET, effort=1.0).new_sheets
    assert best <= obvious_order(kit, sheet=SHEET).new_sheets <= len(kit)
