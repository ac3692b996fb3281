"""Wood between holes, to edges, to lines down the shell."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from counterhoop.development.between import between_mm
from counterhoop.development.cylinder import on_cylinder
from counterhoop.development.flat import Development, Ring
from counterhoop.development.place import Place
from counterhoop.development.polygon import hole_polygon
from counterhoop.development.shape import HoleShape, Oval, Rectangle, Round, Slot
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.web import to_edge_mm, to_line_mm, web, webs_below
from counterhoop.errors import BadInput

COUNTS = pytest.mark.parametrize("count", ["reduced", pytest.param("full", marks=pytest.mark.full)])
SIZE = st.floats(2.0, 30.0)
LIES = st.sampled_from(["along", "down"])
ROUND = st.builds(Round, SIZE)
SLOT = st.builds(lambda w, more, lies: Slot(w, w + more, lies), SIZE, st.floats(0, 20), LIES)
OVAL = st.builds(lambda w, more, lies: Oval(w, w + more, lies), SIZE, st.floats(0, 10), LIES)
RECTANGLE = st.builds(Rectangle, SIZE, SIZE)
SHAPE = st.one_of(ROUND, SLOT, OVAL, RECTANGLE)
ALONG = st.floats(0, 360)
DOWN = st.floats(20, 120)


def flat(
    diameter_mm: float = 302.6, *, depth_mm: float = 140.0, wall_mm: float = 5.0, ring_mm: float = 0
) -> Development:
    rings = tuple(
        Ring(end=end, wide_mm=30.0, thick_mm=ring_mm) for end in ("batter", "resonant") if ring_mm
    )
    return Development(
        surface=Surface(skin=Skin.OLD, circumference_mm=math.pi * diameter_mm),
        depth_mm=depth_mm,
        wall_mm=wall_mm,
        rings=rings,
    )


def core(shape: HoleShape) -> shapely.Geometry:
    """Shapely's own point or line in the middle of a round hole or a slot."""
    if isinstance(shape, Round):
        return shapely.Point(0, 0)
    half = (shape.length_mm - shape.width_mm) / 2
    x, y = (half, 0) if shape.lies == "along" else (0, half)
    return shapely.LineString([(-x, -y), (x, y)])


@COUNTS
@given(
    a=st.one_of(ROUND, SLOT), b=st.one_of(ROUND, SLOT), x=st.floats(-60, 60), y=st.floats(-60, 60)
)
def test_round_holes_and_slots_as_an_independent_library_has_them(count, a, b, x, y):
    radii = sum((s.diameter_mm if isinstance(s, Round) else s.width_mm) / 2 for s in (a, b))
    away = core(a).distance(shapely.affinity.translate(core(b), x, y))
    assume(away > 1e-6)
    assert between_mm(a, b, along_mm=x, down_mm=y) == pytest.approx(away - radii, abs=1e-9)


@COUNTS
@given(a=SHAPE, b=SHAPE, x=st.floats(-60, 60), y=st.floats(-60, 60))
def test_every_shape_as_polygons_have_it(count, a, b, x, y):
    # Independent: GEOS on 256-sided outlines, which lie outside by at most 0.00008 of 25 mm each.
    one, other = hole_polygon(a), shapely.affinity.translate(hole_polygon(b), x, y)
    ours = between_mm(a, b, along_mm=x, down_mm=y)
    theirs = one.distance(other)
    assert max(ours, 0.0) == pytest.approx(theirs, abs=0.005)
    assert max(ours, 0.0) >= theirs - 1e-7
    if ours < -0.005:
        assert one.intersects(other)


@given(SHAPE, SHAPE, st.floats(-30, 30), st.floats(-30, 30))
def test_an_overlap_is_the_shortest_move_that_parts_them(a, b, x, y):
    gap = between_mm(a, b, along_mm=x, down_mm=y)
    assume(gap < -0.01)
    moves = [
        between_mm(a, b, along_mm=x - gap * math.cos(t / 36), down_mm=y - gap * math.sin(t / 36))
        for t in range(227)
    ]
    # No direction parts them with less, and the best of many all but does.
    assert max(moves) <= 1e-6
    assert max(moves) >= -0.02 * -gap - 1e-6


@given(SHAPE, SHAPE, st.floats(-60, 60), st.floats(-60, 60))
def test_mirrored_either_way_and_the_other_way_about(a, b, x, y):
    gap = between_mm(a, b, along_mm=x, down_mm=y)
    for sx, sy in ((-1, 1), (1, -1), (-1, -1)):
        assert between_mm(a, b, along_mm=sx * x, down_mm=sy * y) == gap
    assert between_mm(b, a, along_mm=-x, down_mm=-y) == pytest.approx(gap, abs=1e-9)


@given(ALONG, DOWN, SHAPE, ALONG, DOWN, SHAPE, st.floats(-360, 360))
def test_turning_the_drum_changes_no_web(a, da, sa, b, db, sb, turn):
    shell = flat(ring_mm=5.0)
    before = web(Place(a, da), sa, Place(b, db), sb, flat=shell)
    after = web(Place(a + turn, da), sa, Place(b + turn, db), sb, flat=shell)
    assert after.skin_mm == pytest.approx(before.skin_mm, abs=1e-7)
    assert after.bore_mm == pytest.approx(before.bore_mm, abs=1e-7)


@given(ALONG, DOWN, SHAPE, ALONG, DOWN, SHAPE)
def test_a_mirrored_drum_has_the_same_webs(a, da, sa, b, db, sb):
    before = web(Place(a, da), sa, Place(b, db), sb, flat=flat())
    after = web(Place(-a, da), sa, Place(-b, db), sb, flat=flat())
    assert after.least_mm == pytest.approx(before.least_mm, abs=1e-7)


def test_an_old_and_a_new_strainer_hole():
    # Bench case: 5.5 holes, old at 60.0 and 110.8; the new pair 44.5 apart.
    shell = flat(355.0, depth_mm=139.7)
    hole = Round(5.5)

    def least(*new_downs):
        return min(
            web(Place(180, old), hole, Place(180, new), hole, flat=shell).least_mm
            for old in (60.0, 110.8)
            for new in new_downs
        )

    kept_upper = web(Place(180, 110.8), hole, Place(180, 104.5), hole, flat=shell)
    assert kept_upper.least_mm == pytest.approx(0.8)
    # A web of 6 needs centres 11.5 apart: 14.65 either way is a tie.
    assert least(48.5, 93.0) == pytest.approx(6.0)
    assert least(77.8, 122.3) == pytest.approx(6.0)
    for tenths in range(146):
        for way in (-1, 1):
            centre = 85.4 + way * tenths / 10
            assert least(centre - 22.25, centre + 22.25) < 6.0
    assert to_edge_mm(Place(180, 122.3), hole, flat=shell, end="resonant") == pytest.approx(14.65)
    # Sideways at the old height: 3.15 apart down, so hypot(s, 3.15) = 11.5 on the skin.
    sideways = Place(180 + shell.surface.along_deg(11.06), 85.4 + 22.25)
    assert web(Place(180, 110.8), hole, sideways, hole, flat=shell).skin_mm == pytest.approx(
        6.0, abs=0.005
    )


def test_sideways_counts_at_the_bore():
    # The same 11.06 sideways leaves less where the holes come out inside: it does not clear 6.
    shell = flat(355.0, depth_mm=139.7)
    sideways = Place(180 + shell.surface.along_deg(11.06), 107.65)
    found = web(Place(180, 110.8), Round(5.5), sideways, Round(5.5), flat=shell)
    drawn = (177.5 - 5.0) / 177.5
    assert found.bore_mm == pytest.approx(math.hypot(11.06 * drawn, 3.15) - 5.5, abs=1e-6)
    assert found.least_mm == found.bore_mm < 6.0


def test_a_lug_moved_by_three_overlaps_its_old_holes():
    # Bench case: holes 6.0 whose centres lie 3.0 apart along.
    shell = flat(355.0)
    turn = shell.surface.along_deg(3.0)
    found = web(Place(0, 60), Round(6), Place(turn, 60), Round(6), flat=shell)
    assert found.skin_mm == pytest.approx(-3.0)


def test_a_vent_clears_a_lug_hole_across_the_datum():
    shell = flat()
    a, b = Place(-3.0, 60.0), Place(3.0, 60.0)
    apart_mm = math.pi * 302.6 / 60
    found = web(a, Round(12.7), b, Round(6.0), flat=shell)
    assert found.skin_mm == pytest.approx(apart_mm - 9.35)
    assert found.bore_mm == pytest.approx(apart_mm * (151.3 - 5) / 151.3 - 9.35)


def test_holes_one_above_the_other_do_not_draw_together():
    found = web(Place(10, 40), Round(6), Place(10, 82), Round(6), flat=flat(ring_mm=5.0))
    assert found.skin_mm == found.bore_mm == pytest.approx(36.0)


def test_the_ring_counts_where_either_hole_goes_through_it():
    a, b = Place(0, 70), Place(10, 40)
    plain = web(a, Round(6), b, Round(6), flat=flat(ring_mm=5.0))
    # The edge of this hole lies at 28, inside a ring of 30.
    b = Place(10, 31)
    ringed = web(Place(0, 31), Round(6), b, Round(6), flat=flat(ring_mm=5.0))
    along = math.pi * 302.6 / 36
    assert plain.bore_mm == pytest.approx(math.hypot(along * 146.3 / 151.3, 30) - 6)
    assert ringed.bore_mm == pytest.approx(along * 141.3 / 151.3 - 6)


@given(ALONG, DOWN, SHAPE, ALONG, DOWN, SHAPE)
def test_the_bore_never_has_more_than_the_skin(a, da, sa, b, db, sb):
    found = web(Place(a, da), sa, Place(b, db), sb, flat=flat(ring_mm=5.0))
    assert found.bore_mm <= found.skin_mm + 1e-9


def test_a_hole_square_to_the_skin_comes_out_where_the_bore_says():
    # Independent: two drills along the outward direction, followed to the bore in space.
    shell = flat(wall_mm=6.0)
    places = Place(350, 60), Place(3, 75)
    inside = [on_cylinder(p, surface=shell.surface, depth_mm=140, out_mm=-6.0) for p in places]
    turn = math.atan2(inside[1][1], inside[1][0]) - math.atan2(inside[0][1], inside[0][0])
    along = (turn % (2 * math.pi)) * math.hypot(*inside[0][:2])
    expected = math.hypot(along, inside[1][2] - inside[0][2]) - 6.0
    assert web(places[0], Round(6), places[1], Round(6), flat=shell).bore_mm == pytest.approx(
        expected
    )


def test_two_long_slots_meet_the_other_way_round():
    # Once round is 100: slots of 60 and 30, centres 50 apart, leave 5 on each side.
    shell = flat(100.0 / math.pi, wall_mm=0.001)
    found = web(Place(0, 50), Slot(4, 60), Place(162, 50), Slot(4, 30), flat=shell)
    assert found.skin_mm == pytest.approx(45.0 - 45.0)
    other = web(Place(0, 50), Slot(4, 60), Place(198, 50), Slot(4, 30), flat=shell)
    assert other.skin_mm == pytest.approx(0.0)


@COUNTS
@given(
    holes=st.lists(st.tuples(st.builds(Place, ALONG, DOWN), SHAPE), max_size=25),
    limit=st.floats(0, 40),
)
def test_the_near_pairs_are_all_pairs_below_the_limit(count, holes, limit):
    # Brute force.
    shell = flat(ring_mm=5.0)
    wanted = {
        (i, j): web(*holes[i], *holes[j], flat=shell)
        for i in range(len(holes))
        for j in range(i + 1, len(holes))
    }
    wanted = {key: one for key, one in wanted.items() if one.least_mm < limit}
    found = {
        (near.first, near.second): near.web
        for near in webs_below(holes, flat=shell, limit_mm=limit)
    }
    assert found == wanted


def test_edges_cut_a_hole_below_nothing():
    shell = flat(depth_mm=140.0)
    assert to_edge_mm(Place(0, 2), Round(6), flat=shell, end="batter") == -1.0
    assert to_edge_mm(Place(0, 139), Slot(6, 9, "down"), flat=shell, end="resonant") == -3.5


def test_a_seam_across_the_datum():
    surface = flat(360.0 / math.pi).surface
    seam = {"along_deg": 359.0, "from_mm": 0.0, "to_mm": 140.0, "surface": surface}
    assert to_line_mm(Place(4, 60), Round(6), **seam) == pytest.approx(2.0)
    assert to_line_mm(Place(0, 60), Round(6), **seam) == pytest.approx(-2.0)


def test_a_crack_that_ends_above_the_hole():
    surface = flat(360.0 / math.pi).surface
    found = to_line_mm(
        Place(3, 24), Round(6), surface=surface, along_deg=0.0, from_mm=20.0, to_mm=0.0
    )
    assert found == pytest.approx(5.0 - 3.0)


def test_a_wall_thicker_than_the_shell_is_refused():
    with pytest.raises(BadInput, match="thicker than the shell"):
        web(Place(0, 50), Round(6), Place(9, 50), Round(6), flat=flat(20.0, wall_mm=11.0))
