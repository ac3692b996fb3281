"""Bases, plates and shadows on the skin."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.development.place import Place
from counterhoop.development.polygon import (
    covers,
    gap_mm,
    hole_gap_mm,
    hole_outline,
    hole_polygon,
    overlap_mm2,
    placed,
)
from counterhoop.development.shape import Oval, Rectangle, Round, Slot
from counterhoop.development.surface import Skin, Surface
from counterhoop.errors import BadInput

COUNTS = pytest.mark.parametrize("count", ["reduced", pytest.param("full", marks=pytest.mark.full)])
ALONG = st.floats(0, 360)
DOWN = st.floats(0, 150)
ELL = Outline(((-30, -30), (30, -30), (30, 0), (0, 0), (0, 30), (-30, 30)))
LUG = rounded(24.0, 57.0)
TUBE = rounded(24.0, 57.0, corner_mm=12.0)
OUTLINE = st.one_of(
    st.builds(rounded, st.floats(5, 80), st.floats(5, 80)),
    st.builds(
        lambda w, h, c: rounded(w, h, corner_mm=c),
        st.floats(5, 80),
        st.floats(5, 80),
        st.floats(0, 20),
    ),
    st.builds(ELL.turned, st.sampled_from([0.0, 90.0, 180.0, 30.0, -45.0])),
)


def skin(diameter_mm: float = 302.6) -> Surface:
    return Surface(skin=Skin.OLD, circumference_mm=math.pi * diameter_mm)


def copies(outline, place, surface):
    """Independent of the code under test: shapely's own moves, five turns of them."""
    base = shapely.Polygon(outline.points)
    return [
        shapely.affinity.translate(
            base,
            place.along_deg / 360 * surface.circumference_mm + turn * surface.circumference_mm,
            place.down_mm,
        )
        for turn in range(-2, 3)
    ]


def test_lug_bodies_of_two_rows_in_line():
    # Bench case: bodies 57 long on a depth of 200, tops 33.5 below each edge: 19.0 between.
    upper = Place(0, 33.5 + 28.5)
    lower = Place(0, 200 - 33.5 - 28.5)
    assert gap_mm(LUG, upper, LUG, lower, surface=skin()) == pytest.approx(19.0)


def test_a_bracket_between_two_lugs():
    # Bench case: block 50.8 wide at 90 degrees, lugs 24 wide at 60 and 120.
    block = rounded(50.8, 38.1)
    for along in (60, 120):
        found = gap_mm(LUG, Place(along, 138.0), block, Place(90, 130), surface=skin())
        assert found == pytest.approx(math.pi * 302.6 / 12 - 25.4 - 12.0)
        assert found == pytest.approx(41.8, abs=0.05)


def test_a_bracket_in_line_is_an_overlap_and_half_a_spacing_along_clears():
    # Bench case: block 60 x 70 at 160 down and 60 degrees; lug 138.1 to 195.1 down, 13 dia.
    surface, block = skin(327.4), rounded(60, 70)
    lug_at = 138.1 + 28.5
    inline = gap_mm(LUG, Place(60, lug_at), block, Place(60, 160), surface=surface)
    assert inline < 0
    assert overlap_mm2(
        LUG, Place(60, lug_at), block, Place(60, 160), surface=surface
    ) == pytest.approx(24 * (195.0 - 138.1))
    half = gap_mm(LUG, Place(90, lug_at), block, Place(60, 160), surface=surface)
    assert half == pytest.approx(85.71 - 30 - 12, abs=0.005)
    vent = hole_gap_mm(LUG, Place(90, lug_at), Place(90, 114.3), Round(12.7), surface=surface)
    assert vent == pytest.approx(17.45)


@COUNTS
@given(a=OUTLINE, pa=st.builds(Place, ALONG, DOWN), b=OUTLINE, pb=st.builds(Place, ALONG, DOWN))
def test_gaps_and_overlaps_as_copies_laid_out_by_hand_have_them(count, a, pa, b, pb):
    surface = skin(120.0)
    one = copies(a, pa, surface)[2]
    others = copies(b, pb, surface)
    gap = gap_mm(a, pa, b, pb, surface=surface)
    shared = sum(one.intersection(other).area for other in others)
    if gap > 0:
        assert gap == pytest.approx(min(one.distance(other) for other in others), abs=1e-9)
        assert shared < 1e-6
    assert overlap_mm2(a, pa, b, pb, surface=surface) == pytest.approx(shared, abs=1e-6)
    if shared > 1e-3:
        assert gap < 0


@given(OUTLINE, OUTLINE, st.floats(-25, 25), st.floats(-25, 25))
def test_an_overlap_is_the_shortest_move_that_parts_them(a, b, x, y):
    surface = skin(400.0)
    here = Place(180, 100)

    def at(dx, dy):
        moved = Place(180 + surface.along_deg(1.0) * (x + dx), 100 + y + dy)
        return gap_mm(a, here, b, moved, surface=surface)

    depth = -at(0.0, 0.0)
    assume(depth > 0.05)
    tries = [
        at(share * depth * math.cos(t / 20), share * depth * math.sin(t / 20))
        for share in (0.5, 0.99)
        for t in range(0, 126, 5)
    ]
    assert max(tries) < 0
    best = max(
        at(1.02 * depth * math.cos(t / 40), 1.02 * depth * math.sin(t / 40)) for t in range(252)
    )
    assert best >= -0.02 * depth


def test_touching_is_not_overlapping():
    surface = Surface(skin=Skin.OLD, circumference_mm=360.0)
    for outline in (LUG, TUBE):
        assert gap_mm(
            outline, Place(348, 50), outline, Place(12, 50), surface=surface
        ) == pytest.approx(0.0, abs=1e-12)
        assert gap_mm(outline, Place(348, 50), outline, Place(11.9, 50), surface=surface) < -0.09
        assert overlap_mm2(outline, Place(348, 50), outline, Place(12, 50), surface=surface) == (
            pytest.approx(0.0, abs=1e-6)
        )


@given(OUTLINE, ALONG, DOWN, OUTLINE, ALONG, DOWN, st.floats(-360, 360))
def test_turning_the_drum_changes_nothing(a, pa, da, b, pb, db, turn):
    surface = skin()
    before = gap_mm(a, Place(pa, da), b, Place(pb, db), surface=surface)
    after = gap_mm(a, Place(pa + turn, da), b, Place(pb + turn, db), surface=surface)
    assert after == pytest.approx(before, abs=1e-6)


@given(OUTLINE, ALONG, DOWN, OUTLINE, ALONG, DOWN)
def test_the_other_way_about(a, pa, da, b, pb, db):
    there = gap_mm(a, Place(pa, da), b, Place(pb, db), surface=skin())
    back = gap_mm(b, Place(pb, db), a, Place(pa, da), surface=skin())
    assert there == pytest.approx(back, abs=1e-6)


@COUNTS
@given(
    outline=OUTLINE,
    x=st.floats(-70, 70),
    y=st.floats(-70, 70),
    shape=st.one_of(
        st.builds(Round, st.floats(2, 20)),
        st.builds(lambda w, m: Slot(w, w + m), st.floats(2, 10), st.floats(0, 15)),
        st.builds(lambda w, m: Slot(w, w + m, "down"), st.floats(2, 10), st.floats(0, 15)),
        st.builds(lambda w, m: Oval(w, w + m, "down"), st.floats(2, 10), st.floats(0, 15)),
        st.builds(Rectangle, st.floats(2, 20), st.floats(2, 20)),
    ),
)
def test_a_hole_and_an_outline_as_two_outlines_have_it(count, outline, x, y, shape):
    surface = skin()
    here, there = Place(2, 100), Place(2 + surface.along_deg(1.0) * x, 100 + y)
    exact = hole_gap_mm(outline, here, there, shape, surface=surface)
    drawn = gap_mm(outline, here, hole_outline(shape), there, surface=surface)
    assert exact == pytest.approx(drawn, abs=0.003)
    inside = covers(outline, here, there, shape, surface=surface)
    base = shapely.Polygon(outline.points)
    hole = shapely.affinity.translate(hole_polygon(shape), x, y)
    assert inside == base.buffer(0.004).covers(hole) or inside == base.covers(hole)


def test_a_slot_under_the_base():
    # Bench case: slot 6 x 9 along, the screw 3.0 off: far end 6.0 from the new centre, base to 12.
    surface = skin(355.0)
    mid = Place(surface.along_deg(1.5), 60.0)
    slot = Slot(6.0, 9.0)
    ends = {"surface": surface, "by_mm": 6.0}
    assert covers(rounded(24, 57), Place(0, 60), mid, slot, **ends)
    ends["by_mm"] = 6.001
    assert not covers(rounded(24, 57), Place(0, 60), mid, slot, **ends)


def test_covered_by_exactly_the_margin_across_the_datum():
    surface = Surface(skin=Skin.OLD, circumference_mm=360.0)
    base = disc(20.0)
    assert covers(base, Place(359, 50), Place(0, 50), Round(6.0), surface=surface, by_mm=5.9)
    # Chords of the disc lie 0.003 inside its circle.
    assert not covers(base, Place(359, 50), Place(0, 50), Round(6.0), surface=surface, by_mm=6.1)
    box = rounded(20.0, 20.0)
    assert covers(box, Place(359, 50), Place(0, 50), Round(6.0), surface=surface, by_mm=6.0)


def test_a_concave_base_does_not_cover_its_notch():
    surface = skin()
    assert covers(ELL, Place(0, 50), Place(0, 50 - 15), Round(20), surface=surface)
    notch = Place(surface.along_deg(15.0), 65.0)
    assert not covers(ELL, Place(0, 50), notch, Round(6), surface=surface)
    assert hole_gap_mm(ELL, Place(0, 50), notch, Round(6), surface=surface) == pytest.approx(12.0)


@given(st.floats(1, 60))
def test_a_drawn_hole_lies_just_outside_the_true_one(diameter):
    # Exact law: the sides of a circumscribed polygon touch the circle.
    drawn = hole_polygon(Round(diameter))
    near = min(math.hypot(*p) for p in drawn.exterior.coords)
    sides = drawn.exterior.distance(shapely.Point(0, 0))
    assert sides == pytest.approx(diameter / 2, abs=1e-9)
    assert near <= diameter / 2 * (1 + 8e-5)


def test_an_outline_is_not_cut_at_the_datum():
    surface = Surface(skin=Skin.OLD, circumference_mm=360.0)
    assert placed(LUG, Place(5, 50), surface=surface).bounds == (-7.0, 21.5, 17.0, 78.5)


@pytest.mark.parametrize(
    "points", [((0, 0), (1, 1)), ((0, 0), (1, 1), (1, 0), (0, 1)), ((0, 0), (1, 1), (2, 2))]
)
def test_outlines_that_enclose_nothing_are_refused(points):
    with pytest.raises(BadInput):
        gap_mm(Outline(points), Place(0, 0), TUBE, Place(0, 0), surface=skin())
