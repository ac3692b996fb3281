"""Where a base may not stand."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from counterhoop.development.minkowski import barred, eroded
from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.development.solid import convex_pieces
from counterhoop.errors import BadInput

COUNTS = pytest.mark.parametrize("count", ["reduced", pytest.param("full", marks=pytest.mark.full)])
ELL = Outline(((-30, -30), (30, -30), (30, 0), (0, 0), (0, 30), (-30, 30)))
# A keyhole plate: a slot of 4 wide runs into its middle.
COMB = Outline(((-20, -15), (20, -15), (20, -2), (0, -2), (0, 2), (20, 2), (20, 15), (-20, 15)))


@st.composite
def stars(draw):
    """Star-shaped outlines, convex or not, with the reference point anywhere."""
    count = draw(st.integers(3, 12))
    radii = draw(st.lists(st.floats(4, 40), min_size=count, max_size=count))
    x, y = draw(st.floats(-20, 20)), draw(st.floats(-20, 20))
    turn = draw(st.sampled_from([1, -1]))
    return Outline(
        tuple(
            (
                x + r * math.cos(turn * 2 * math.pi * i / count),
                y + r * math.sin(turn * 2 * math.pi * i / count),
            )
            for i, r in enumerate(radii)
        )
    )


OUTLINE = st.one_of(
    st.sampled_from([ELL, COMB, disc(20), rounded(24, 57, corner_mm=5), ELL.moved(7, -3)]), stars()
)


@COUNTS
@given(
    base=OUTLINE,
    obstacle=OUTLINE,
    x=st.floats(-120, 120),
    y=st.floats(-120, 120),
    clear=st.sampled_from([0.0, 1.0, 8.0, 15.0]),
)
def test_a_pose_is_barred_when_the_two_come_too_near(count, base, obstacle, x, y, clear):
    # Independent: distance of the two outlines themselves.
    region = barred(base, obstacle, clear_mm=clear)
    pose = shapely.Point(x, y)
    away = shapely.affinity.translate(shapely.Polygon(base.points), x, y).distance(
        shapely.Polygon(obstacle.points)
    )
    if region.contains(pose):
        # Barred by the rounding of the arcs at most.
        assert away < clear * 1.0004 + 1e-7
    else:
        assert away >= clear - 1e-7
    if away > 0 and clear == 0.0:
        assert region.distance(pose) == pytest.approx(away, abs=1e-7)


@COUNTS
@given(base=OUTLINE, obstacle=OUTLINE, clear=st.sampled_from([0.0, 8.0]), t=st.floats(0, 1))
def test_on_its_boundary_the_base_stands_at_the_clearance(count, base, obstacle, clear, t):
    region = barred(base, obstacle, clear_mm=clear)
    outer = shapely.get_geometry(region, 0) if region.geom_type != "Polygon" else region
    point = outer.exterior.interpolate(t, normalized=True)
    away = shapely.affinity.translate(shapely.Polygon(base.points), point.x, point.y).distance(
        shapely.Polygon(obstacle.points)
    )
    assert away == pytest.approx(clear, abs=0.004)


def test_two_boxes():
    # Exact law: extents add.
    region = barred(rounded(24, 57), rounded(60, 70), clear_mm=0.0)
    assert region.equals(shapely.box(-42, -63.5, 42, 63.5))


@pytest.mark.parametrize("obstacle", [rounded(60, 70), ELL])
def test_a_clearance_moves_straight_sides_by_exactly_that(obstacle):
    # Exact law: sides move by the clearance; only corners are round.
    region = barred(rounded(24, 57), obstacle, clear_mm=8.0)
    left, top, right, bottom = obstacle.bounds_mm
    wanted = (left - 20, top - 36.5, right + 20, bottom + 36.5)
    assert region.bounds == pytest.approx(wanted, abs=1e-12)


def test_two_discs():
    region = barred(disc(20), disc(30), clear_mm=8.0)
    assert region.area == pytest.approx(math.pi * 33**2, rel=1e-3)


def test_a_reference_point_off_the_middle_moves_the_region_the_other_way():
    plain = barred(rounded(24, 57), ELL, clear_mm=8.0)
    moved = barred(rounded(24, 57).moved(5, -3), ELL, clear_mm=8.0)
    assert shapely.affinity.translate(plain, -5, 3).symmetric_difference(moved).area < 1e-6


def test_a_small_base_may_stand_in_the_notch():
    # A square of 3 goes into the comb's slot of 4; a square of 5 does not.
    inside = shapely.Point(10, 0)
    assert not barred(rounded(3, 3), COMB, clear_mm=0.0).contains(inside)
    assert not barred(rounded(3, 3), COMB, clear_mm=0.4).contains(inside)
    assert barred(rounded(3, 3), COMB, clear_mm=0.6).contains(inside)
    assert barred(rounded(5, 5), COMB, clear_mm=0.0).contains(inside)
    # Convex hulls, the wrong short cut, would bar it.
    hull = Outline(tuple(shapely.Polygon(COMB.points).convex_hull.exterior.coords)[:-1])
    assert barred(rounded(3, 3), hull, clear_mm=0.0).contains(inside)


@COUNTS
@given(outline=OUTLINE)
def test_convex_pieces_make_the_outline(count, outline):
    pieces = [shapely.Polygon(piece) for piece in convex_pieces(outline)]
    whole = shapely.Polygon(outline.points)
    assert sum(p.area for p in pieces) == pytest.approx(whole.area)
    assert shapely.union_all(pieces).symmetric_difference(whole).area < 1e-6
    for piece in pieces:
        assert piece.convex_hull.area == pytest.approx(piece.area)


def test_pieces_are_few():
    assert len(convex_pieces(disc(20))) == 1
    assert len(convex_pieces(ELL)) == 2
    assert len(convex_pieces(COMB)) <= 4


@COUNTS
@given(base=OUTLINE, radius=st.floats(0.5, 12), x=st.floats(-40, 40), y=st.floats(-40, 40))
def test_a_base_covers_a_hole_from_its_eroded_places_only(count, base, radius, x, y):
    # Independent: distance of the centre to the outline.
    whole, centre = shapely.Polygon(base.points), shapely.Point(x, y)
    room = whole.exterior.distance(centre) if whole.contains(centre) else -1.0
    assume(abs(room - radius) > 1e-6)
    region = eroded(base, radius)
    if region.covers(centre):
        assert room >= radius - 1e-7
    elif room >= 0:
        assert room <= radius * 1.0004 + 1e-7


def test_no_place_is_left_for_a_hole_wider_than_the_base():
    assert eroded(rounded(10, 40), 5.5).is_empty
    assert eroded(rounded(24, 57), 4.0).equals(shapely.box(-8, -24.5, 8, 24.5))


def test_less_than_nothing_is_refused():
    with pytest.raises(BadInput):
        barred(ELL, ELL, clear_mm=-1.0)
    with pytest.raises(BadInput):
        eroded(ELL, -1.0)
