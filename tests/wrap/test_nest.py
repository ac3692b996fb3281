"""Layouts of wrap: a validator that shares no code with the solver, brute force, known optima."""

from __future__ import annotations

import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.wrap.first_layout import first_layout, rank
from counterhoop.wrap.free import largest_left
from counterhoop.wrap.least_sheets import least_sheets
from counterhoop.wrap.nest import nest
from counterhoop.wrap.nesting import NestingPlan, Piece, Placed, Runs, Sheet
from counterhoop.wrap.pushed import pushed
from counterhoop.wrap.tenths import Spot, in_tenths

SHEET = Sheet(name="new", length_mm=1400.0, width_mm=610.0)
FINE = 1e-6


def faults(
    plan: NestingPlan, pieces: list[Piece], *, sheet: Sheet, offcuts: list[Sheet], kerf_mm: float
) -> list[str]:
    """Return what is wrong with a layout, from the millimetres on it alone."""
    wrong = []
    stock = list(offcuts)
    for used in plan.sheets:
        if used in stock:
            stock.remove(used)
        elif used != sheet:
            wrong.append(f"{used.name} is cut twice or is none of ours")
    if [p.name for p in plan.placed] != [p.name for p in pieces]:
        wrong.append("pieces are missing")
    for piece, put in zip(pieces, plan.placed, strict=True):
        across_pattern = put.turned
        if across_pattern and piece.runs is Runs.ALONG:
            wrong.append(f"{piece.name} lies across the pattern")
        if not across_pattern and piece.runs is Runs.ACROSS:
            wrong.append(f"{piece.name} lies along the pattern")
        want = (piece.length_mm, piece.width_mm)[:: -1 if put.turned else 1]
        over = (put.along_mm - want[0], put.across_mm - want[1])
        if min(over) < -FINE or max(over) > 0.1 + FINE:
            wrong.append(f"{piece.name} is cut to another size")
    everything = [*plan.placed, *plan.left]
    for put in everything:
        on = plan.sheets[put.sheet]
        if (
            min(put.from_end_mm, put.from_side_mm) < 0
            or put.from_end_mm + put.along_mm > on.length_mm + FINE
            or put.from_side_mm + put.across_mm > on.width_mm + FINE
        ):
            wrong.append(f"{put.name} hangs over the sheet")
    for one, other in combinations(everything, 2):
        if one.sheet == other.sheet and apart_mm(one, other) < kerf_mm - FINE:
            wrong.append(f"{one.name} and {other.name} are too close")
    return wrong


def apart_mm(one: Placed, other: Placed) -> float:
    """Return the wider of the two gaps between rectangles; negative when they overlap."""
    return max(
        other.from_end_mm - one.from_end_mm - one.along_mm,
        one.from_end_mm - other.from_end_mm - other.along_mm,
        other.from_side_mm - one.from_side_mm - one.across_mm,
        one.from_side_mm - other.from_side_mm - other.across_mm,
    )


@st.composite
def kits(draw: st.DrawFn) -> tuple[list[Piece], list[Sheet], float]:
    size = st.floats(60, 600).map(lambda v: round(v, 2))
    pieces = [
        Piece(
            name=f"piece {n}",
            length_mm=draw(st.floats(200, 1390)),
            width_mm=draw(size),
            runs=draw(st.sampled_from([Runs.ALONG, Runs.ALONG, Runs.EITHER])),
        )
        for n in range(draw(st.integers(1, 8)))
    ]
    offcuts = [
        Sheet(name=f"stock {n}", length_mm=draw(st.floats(200, 1700)), width_mm=draw(size))
        for n in range(draw(st.integers(0, 2)))
    ]
    return pieces, offcuts, draw(st.sampled_from([0.0, 1.0, 3.0]))


def check_kit(kit: tuple[list[Piece], list[Sheet], float]) -> None:
    pieces, offcuts, kerf_mm = kit
    plan = nest(pieces, sheet=SHEET, offcuts=offcuts, kerf_mm=kerf_mm, effort=1.0)
    assert faults(plan, pieces, sheet=SHEET, offcuts=offcuts, kerf_mm=kerf_mm) == []
    assert plan.least_new_sheets <= plan.new_sheets
    assert plan.largest_left_mm2 <= plan.most_left_mm2 + FINE
    if plan.proven:
        assert plan.new_sheets == plan.least_new_sheets
        assert plan.largest_left_mm2 == pytest.approx(plan.most_left_mm2)
    puzzle = in_tenths(pieces, sheet=SHEET, offcuts=offcuts, kerf_mm=kerf_mm, most_sheets=99)
    start = first_layout(puzzle)
    assert start is not None
    assert (plan.new_sheets, plan.offcuts_used) <= rank(puzzle, start)[:2]


@given(kits())
@settings(max_examples=25)
def test_random_kits_can_be_cut_as_laid_out(
    kit: tuple[list[Piece], list[Sheet], float],
) -> None:
    check_kit(kit)


@pytest.mark.full
@given(kits())
@settings(max_examples=1000)
def test_a_thousand_random_kits_can_be_cut_as_laid_out(
    kit: tuple[list[Piece], list[Sheet], float],
) -> None:
    check_kit(kit)


def test_the_validator_sees_faults() -> None:
    sheet = Sheet(name="new", length_mm=100.0, width_mm=100.0)
    pieces = [Piece(name="a", length_mm=50.0, width_mm=50.0) for _ in range(2)]
    plan = nest(pieces, sheet=sheet, kerf_mm=0.0)
    assert faults(plan, pieces, sheet=sheet, offcuts=[], kerf_mm=1.0) != []
    small = Sheet(name="new", length_mm=100.0, width_mm=40.0)
    assert faults(plan, pieces, sheet=small, offcuts=[], kerf_mm=0.0) != []


Cells = tuple[tuple[int, int, bool], ...]


def masks(width: int, height: int, w: int, h: int) -> list[int]:
    return [
        sum(1 << (yy * width + xx) for xx in range(x, x + w) for yy in range(y, y + h))
        for x in range(width - w + 1)
        for y in range(height - h + 1)
    ]


def brute(pieces: Cells, *, width: int, height: int) -> tuple[int, int]:
    """Return fewest sheets and the largest rectangle left, by trying every place on a grid."""
    empty = sorted(
        ((w * h, m) for w in range(1, width + 1) for h in range(1, height + 1)
         for m in masks(width, height, w, h)),
        reverse=True,
    )  # fmt: skip
    states: set[tuple[int, ...]] = {()}
    for w, h, free in pieces:
        ways = masks(width, height, w, h) + (masks(width, height, h, w) if free else [])
        states = {
            tuple(sorted((*state[:n], taken | way, *state[n + 1 :])))
            for state in states
            for n, taken in enumerate((*state, 0))
            for way in ways
            if not taken & way
        }
    fewest = min(len(s) for s in states)
    left = 0
    for taken in {t for s in states if len(s) == fewest for t in s}:
        left = max(left, next((area for area, m in empty if not m & taken), 0))
    return fewest, left


@pytest.mark.parametrize("seed", range(24))
def test_no_layout_on_a_grid_is_better(seed: int) -> None:
    chance = random.Random(seed)
    width, height = chance.choice([(5, 4), (4, 4), (5, 3)])
    pieces = tuple(
        (chance.randint(1, width), chance.randint(1, 3), chance.random() < 0.5)
        for _ in range(chance.randint(2, 3))
    )
    plan = nest(
        [
            Piece(
                name=str(n),
                length_mm=10.0 * w,
                width_mm=10.0 * h,
                runs=Runs.EITHER if free else Runs.ALONG,
            )
            for n, (w, h, free) in enumerate(pieces)
        ],
        sheet=Sheet(name="new", length_mm=10.0 * width, width_mm=10.0 * height),
    )
    assert plan.proven
    assert (plan.new_sheets, plan.largest_left_mm2 / 100) == brute(
        pieces, width=width, height=height
    )


def test_nine_squares_that_fill_a_rectangle() -> None:
    """Z. Moroń 1925: squares of 18, 15, 14, 10, 9, 8, 7, 4 and 1 fill 33 x 32 (from memory)."""
    sides = (18, 15, 14, 10, 9, 8, 7, 4, 1)
    assert sum(s * s for s in sides) == 33 * 32
    pieces = [Piece(name=str(s), length_mm=10.0 * s, width_mm=10.0 * s) for s in sides]
    sheet = Sheet(name="new", length_mm=330.0, width_mm=320.0)
    plan = nest(pieces, sheet=sheet)
    assert (plan.new_sheets, plan.left, plan.proven) == (1, (), True)
    assert faults(plan, pieces, sheet=sheet, offcuts=[], kerf_mm=0.0) == []


KIT = [
    Piece(name=f"drum {n}", length_mm=length, width_mm=width)
    for n, (length, width) in enumerate(
        [(1141.6, 178.5), (1141.6, 178.5), (982.0, 176.0), (1301.5, 356.0),
         (1381.0, 340.0), (398.0, 340.0), (1381.0, 52.0), (1381.0, 52.0)]
    )
]  # fmt: skip


def test_an_eight_piece_kit_is_proven() -> None:
    plan = nest(KIT, sheet=SHEET, kerf_mm=1.0, effort=1.0)
    assert plan.proven
    assert faults(plan, KIT, sheet=SHEET, offcuts=[], kerf_mm=1.0) == []
    assert plan.says == "No layout takes fewer sheets or leaves a larger offcut."


def test_the_same_question_gets_the_same_answer() -> None:
    first, second = (nest(KIT, sheet=SHEET, kerf_mm=1.0, effort=1.0) for _ in range(2))
    assert first == second


def test_the_ceiling_is_never_below_what_is_left() -> None:
    """The solver gives its bound as a float, here a hair below the whole number that it is."""
    piece = Piece(name="square", length_mm=297.0, width_mm=297.0)
    stock = [Sheet(name="shelf", length_mm=200.0, width_mm=60.0)]
    plan = nest([piece], sheet=SHEET, offcuts=stock, kerf_mm=3.0)
    assert plan.largest_left_mm2 == plan.most_left_mm2 == 1100.0 * 610.0


def test_an_offcut_from_stock_saves_a_sheet() -> None:
    strips = [Piece(name=str(n), length_mm=1300.0, width_mm=200.0) for n in range(4)]
    stock = [Sheet(name="shelf", length_mm=1310.0, width_mm=210.0)]
    assert nest(strips, sheet=SHEET).new_sheets == 2
    plan = nest(strips, sheet=SHEET, offcuts=stock)
    assert (plan.new_sheets, plan.offcuts_used, plan.proven) == (1, 1, True)
    assert plan.sheets == (stock[0], SHEET)


def test_an_offcut_is_left_on_the_shelf_when_it_saves_nothing() -> None:
    strips = [Piece(name=str(n), length_mm=1300.0, width_mm=200.0) for n in range(3)]
    stock = [Sheet(name="shelf", length_mm=1310.0, width_mm=210.0)]
    plan = nest(strips, sheet=SHEET, offcuts=stock)
    assert (plan.new_sheets, plan.offcuts_used) == (1, 0)


def test_kerf_costs_a_sheet() -> None:
    halves = [Piece(name=str(n), length_mm=1400.0, width_mm=305.0) for n in range(2)]
    assert nest(halves, sheet=SHEET, kerf_mm=0.0).new_sheets == 1
    assert nest(halves, sheet=SHEET, kerf_mm=0.2).new_sheets == 2


def test_turning_is_allowed_only_where_the_pattern_lets() -> None:
    tall = [Piece(name="t", length_mm=600.0, width_mm=700.0, runs=r) for r in Runs]
    for piece, turned in zip(tall, (None, True, True), strict=True):
        if turned is None:
            with pytest.raises(BadInput, match="fits on no sheet at hand"):
                nest([piece], sheet=SHEET)
        else:
            assert nest([piece], sheet=SHEET).placed[0].turned is turned


def ends_at(plan: NestingPlan, put: Placed) -> bool:
    """Whether a piece lies against a rim or another rectangle on both of its near sides."""
    rest = [p for p in (*plan.placed, *plan.left) if p.sheet == put.sheet and p != put]
    ends = {p.from_end_mm + p.along_mm + plan.kerf_mm for p in rest} | {0.0}
    sides = {p.from_side_mm + p.across_mm + plan.kerf_mm for p in rest} | {0.0}
    return min(abs(e - put.from_end_mm) for e in ends) < FINE and (
        min(abs(s - put.from_side_mm) for s in sides) < FINE
    )


@pytest.mark.parametrize("kerf_mm", [0.0, 1.0])
def test_no_piece_floats(kerf_mm: float) -> None:
    plan = nest(KIT, sheet=SHEET, kerf_mm=kerf_mm, effort=1.0)
    assert all(ends_at(plan, put) for put in plan.placed)


def test_pushing_together_keeps_the_rectangle_that_is_left() -> None:
    # Left free: 140 x 60 above the upper piece. Once pushed together it lies below both.
    spots = [
        Spot(bin=0, x=9, y=61, w=100, h=20, turned=False),
        Spot(bin=0, x=3, y=85, w=120, h=15, turned=False),
    ]
    packed = pushed(spots, bins=[(140, 100)], kerf=0)
    assert [spot.x for spot in packed] == [0, 0]
    before, after = (largest_left([(140, 100)], s, kerf=0)[0] for s in (spots, packed))
    assert before == 140 * 61
    assert after >= before


def test_strips_longer_than_half_a_sheet_lie_one_above_another() -> None:
    """Area alone would allow one sheet: 3 x 720 x 210 is 53 % of it."""
    strips = [Piece(name=str(n), length_mm=720.0, width_mm=210.0) for n in range(3)]
    puzzle = in_tenths(strips, sheet=SHEET, offcuts=[], kerf_mm=0.0, most_sheets=9)
    assert sum(b.area for b in puzzle.boxes) < puzzle.sheet[0] * puzzle.sheet[1]
    assert least_sheets(puzzle) == 2
    assert nest(strips, sheet=SHEET).new_sheets == 2


@pytest.mark.parametrize(
    ("pieces", "changes", "says"),
    [
        ([], {}, "nothing to cut"),
        (KIT, {"kerf_mm": -1.0}, "not a kerf"),
        (KIT, {"most_sheets": 1}, "no layout found"),
        ([Piece(name="long", length_mm=1500.0, width_mm=100.0)], {}, "long: the piece fits on no"),
    ],
)
def test_what_cannot_be_cut_is_said(
    pieces: list[Piece], changes: dict[str, float], says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        nest(pieces, sheet=SHEET, **changes)


def test_a_piece_without_a_size_is_refused() -> None:
    with pytest.raises(BadInput, match=r"drum 1\.length: not a size"):
        Piece(name="drum 1", length_mm=0.0, width_mm=100.0)
