"""Sections of bearing edges: hand-worked cases, shapely's areas and tangents, laws of scale."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.shell.readings import CUTS, ProfileRead
from counterhoop.survey.edge_profile import edge_profile
from counterhoop.survey.edge_profile_contact import film_contact

ROUND_45 = ProfileRead(cut="round-over and 45 inside", apex_mm=4.0, inner_deg=45.0, outer_mm=4.0)
STEPS = 2000
WALLS = st.floats(4.0, 14.0)
READS = st.builds(
    ProfileRead,
    cut=st.sampled_from(CUTS),
    apex_mm=st.none() | st.floats(0.5, 3.5),
    inner_deg=st.none() | st.floats(15.0, 60.0),
    outer_mm=st.none() | st.floats(0.5, 3.5),
)


def drawn(profile, steps=STEPS):
    """Return the section's points, every arc divided evenly: made from its centre, not its bulge.

    The arcs of an edge bulge upward and outward, so their centre lies to the right of the chord
    as one goes from the outside to the bore.
    """
    found = [profile.points[0]]
    for (x1, y1), (x2, y2), bulge in zip(
        profile.points, profile.points[1:], profile.bulges, strict=False
    ):
        if bulge:
            chord = math.dist((x1, y1), (x2, y2))
            half = 2.0 * math.atan(bulge)
            r = chord / (2.0 * math.sin(half))
            up = r * math.cos(half)
            cx = (x1 + x2) / 2.0 - (y2 - y1) / chord * up
            cy = (y1 + y2) / 2.0 + (x2 - x1) / chord * up
            begin = math.atan2(y1 - cy, x1 - cx)
            found += [
                (cx + r * math.cos(begin + t), cy + r * math.sin(begin + t))
                for t in (2.0 * half * i / steps for i in range(1, steps))
            ]
        found.append((x2, y2))
    return found


def wood(profile, down_mm=30.0):
    """Area of the section down to a depth, by shapely."""
    points = [(0.0, down_mm), *drawn(profile), (profile.wall_mm, down_mm)]
    return shapely.Polygon(points).area


def test_a_round_over_with_45_inside_by_hand():
    # Hand-worked: wall 5 with a ring of 4, apex 4 from outside: 5 mm of width at 45 degrees is
    # 5 mm down; a quarter of a circle of 4 mm is off outside. One of 6 plies is 5/6 mm.
    found = edge_profile(ROUND_45, wall_mm=5.0, ring_mm=4.0, ring_wide_mm=30.0, plies=6)
    assert found.points == ((0.0, pytest.approx(4.0)), (4.0, 0.0), (9.0, pytest.approx(5.0)))
    assert found.bulges == (pytest.approx(math.tan(math.pi / 8.0)), 0.0)
    assert found.inside_mm == pytest.approx(5.0)
    assert found.outside_mm == pytest.approx(4.0)
    assert found.bore_mm == pytest.approx(25.0)
    assert found.ply_mm == pytest.approx(5.0 / 6.0)
    assert found.ply_left
    assert found.head_mm(300.0) == pytest.approx(292.0)
    assert found.usual == ()
    off = (1.0 - math.pi / 4.0) * 16.0 + 12.5
    assert wood(found) == pytest.approx(9.0 * 30.0 - off, abs=1e-4)


def test_a_round_over_is_round_on_both_sides():
    # Hand-worked: two quarters of circles of 3 and 5 mm on a wall of 8.
    found = edge_profile(ProfileRead(cut="round-over", apex_mm=3.0, outer_mm=3.0), wall_mm=8.0)
    assert found.inner_deg is None
    assert (found.outside_mm, found.inside_mm) == (pytest.approx(3.0), pytest.approx(5.0))
    assert wood(found) == pytest.approx(8.0 * 30.0 - (1.0 - math.pi / 4.0) * 34.0, abs=1e-4)
    assert found.usual == ("round inside",)


def test_a_wide_round_over_that_the_inner_cut_meets_before_its_top():
    # Hand-worked: radius 10, apex 2 from outside. The arc leaves the outside sqrt(2 * 18) = 6 mm
    # down and rises to the apex; its centre lies 10 from the outside and 6 below the apex.
    read = ProfileRead(cut="30", apex_mm=2.0, outer_mm=10.0)
    found = edge_profile(read, wall_mm=8.0)
    assert found.outside_mm == pytest.approx(6.0)
    for x, y in drawn(found)[: STEPS + 1]:
        assert math.hypot(x - 10.0, y - 6.0) == pytest.approx(10.0)
    assert found.inside_mm == pytest.approx(6.0 / math.sqrt(3.0))


def test_a_land_lies_between_a_small_round_over_and_an_apex_further_in():
    read = ProfileRead(cut="round-over and 45 inside", apex_mm=5.0, outer_mm=2.0)
    found = edge_profile(read, wall_mm=8.0)
    assert found.points[1:3] == ((2.0, 0.0), (5.0, 0.0))


def test_a_back_cut_and_a_single_45_by_hand():
    back = edge_profile(ProfileRead(cut="45 with back-cut"), wall_mm=9.0)
    assert back.points == ((0.0, 2.0), (2.0, 0.0), (9.0, pytest.approx(7.0)))
    assert set(back.usual) == {"apex", "slope of the inner cut", "depth of the counter-cut"}
    single = edge_profile(ProfileRead(cut="single 45"), wall_mm=6.0, plies=6)
    assert single.points == ((0.0, 0.0), (6.0, pytest.approx(6.0)))
    assert single.ply_left is False
    assert single.head_mm(350.0) == 350.0


def test_a_ply_is_left_only_when_it_is_left_whole():
    # 6 plies of 1 mm: at 1.0 the outermost is whole, at 0.9 it is not; without a count nobody says.
    for apex, left in ((1.0, True), (0.9, False)):
        read = ProfileRead(cut="single 45", apex_mm=apex)
        assert edge_profile(read, wall_mm=6.0, ring_mm=3.0, plies=6).ply_left is left
        assert edge_profile(read, wall_mm=6.0).ply_left is None


@given(READS, WALLS)
def test_the_section_keeps_to_the_wall_and_is_highest_at_its_apex(read, wall):
    try:
        found = edge_profile(read, wall_mm=wall)
    except BadInput:
        assume(False)
        raise
    points = drawn(found, 50)
    assert min(y for _, y in points) == pytest.approx(0.0, abs=1e-9)
    assert all(-1e-9 <= x <= wall + 1e-9 for x, _ in points)
    assert [x for x, _ in points] == sorted(x for x, _ in points)
    assert points[-1] == (wall, pytest.approx(found.inside_mm))
    # An arc outside is the tangent of the skin: no step for the guide.
    if found.bulges[0] and found.outer_mm:
        assert math.dist(points[1], (0.0, points[1][1])) < 0.02 * found.outer_mm


@given(READS, WALLS, st.floats(0.2, 5.0), st.floats(0.0, 4.0))
def test_everything_scales_with_the_drum(read, wall, by, room):
    # Exact law: a drum twice as large has a section twice as large and touches twice as much.
    def scaled(value):
        return None if value is None else value * by

    read = replace(read, apex_mm=read.apex_mm or 2.0)
    try:
        small = edge_profile(read, wall_mm=wall)
    except BadInput:
        assume(False)
        raise
    big_read = replace(read, apex_mm=scaled(read.apex_mm), outer_mm=scaled(read.outer_mm))
    big = edge_profile(big_read, wall_mm=wall * by)
    for one, other in zip(small.points, big.points, strict=True):
        assert other == (pytest.approx(one[0] * by), pytest.approx(one[1] * by))
    assert big.bulges == pytest.approx(small.bulges)
    touched = film_contact(small, bare_mm=300.0, collar_mm=300.0 + room)
    more = film_contact(big, bare_mm=300.0 * by, collar_mm=(300.0 + room) * by, below_mm=10.0 * by)
    assert more.length_mm == pytest.approx(touched.length_mm * by, abs=1e-9)
    assert more.from_down_mm == pytest.approx(touched.from_down_mm * by, abs=1e-9)


def taut(points):
    """Upper hull from the first point to the last, by sorting (Andrew 1979)."""
    hull = []
    for x, y in sorted(points, key=lambda p: (p[0], -p[1])):
        while len(hull) > 1 and (
            (hull[-1][0] - hull[-2][0]) * (y - hull[-2][1])
            - (hull[-1][1] - hull[-2][1]) * (x - hull[-2][0])
            <= 0.0
        ):
            hull.pop()
        hull.append((x, y))
    return hull


@settings(max_examples=60, deadline=None)
@given(READS, WALLS, st.floats(0.0, 6.0), st.floats(6.0, 20.0))
def test_the_film_is_a_taut_string_over_the_outline(read, wall, room, below):
    """Independent implementation: the string is the upper hull of its ends and the outline."""
    try:
        profile = edge_profile(read, wall_mm=wall)
    except BadInput:
        assume(False)
        raise
    touched = film_contact(profile, bare_mm=300.0, collar_mm=300.0 + room, below_mm=below)
    outline = [p for p in drawn(profile, 500) if p[0] <= profile.apex_mm + 1e-12]
    assume(outline[0][1] < below)
    start, first = (-room / 2.0, below), (touched.from_outside_mm, touched.from_down_mm)
    string = shapely.LineString(taut([start, *outline]))
    assert string.distance(shapely.Point(first)) < 1e-4
    assert math.dist(start, first) + touched.length_mm == pytest.approx(string.length, abs=1e-4)
    assert shapely.LineString([*outline, (wall, 40.0)]).distance(shapely.Point(first)) < 1e-3


def test_more_room_in_the_collar_touches_less_of_the_edge():
    profile = edge_profile(ROUND_45, wall_mm=9.0)
    lengths = [
        film_contact(profile, bare_mm=300.0, collar_mm=300.0 + room).length_mm
        for room in (0.0, 1.0, 2.0, 4.0, 8.0)
    ]
    assert lengths == sorted(lengths, reverse=True)
    # By hand: without room the film comes up the skin and lies on the whole quarter circle.
    assert lengths[0] == pytest.approx(math.pi / 2.0 * 4.0)


def test_a_back_cut_that_is_steeper_than_the_film_is_not_touched():
    # Hand-worked: apex 2, 5 down; from 2 mm outside and 10 below, the film passes the outside
    # 10 * 2 / (2 + 2) = 5 mm down: just at the foot. A hair more room and it only meets the apex.
    read = ProfileRead(cut="45 with back-cut", apex_mm=2.0, outer_mm=5.0)
    profile = edge_profile(read, wall_mm=9.0)
    near = film_contact(profile, bare_mm=300.0, collar_mm=303.99)
    far = film_contact(profile, bare_mm=300.0, collar_mm=304.01)
    assert near.length_mm == pytest.approx(math.hypot(2.0, 5.0))
    assert (far.length_mm, far.from_outside_mm) == (0.0, 2.0)


@pytest.mark.parametrize(
    ("read", "more", "says"),
    [
        (ProfileRead(cut="double 45"), {}, "no cut of an edge that has a name here"),
        (ProfileRead(cut="30", apex_mm=6.0), {}, "the apex does not lie on the wall"),
        (ProfileRead(cut="30", apex_mm=-0.5), {}, "the apex does not lie on the wall"),
        (ProfileRead(cut="round-over", outer_mm=7.0), {}, "the apex does not lie on the wall"),
        (ProfileRead(cut="30", inner_deg=90.0), {}, "no slope of an inner cut"),
        (ProfileRead(cut="30", outer_mm=-1.0, apex_mm=2.0), {}, "no cut outside"),
        (ProfileRead(cut="30", outer_mm=2.0, apex_mm=0.0), {}, "where the apex is the outside"),
        (ProfileRead(cut="45 with back-cut", apex_mm=0.0), {}, "a back-cut goes down outside"),
        (
            ProfileRead(cut="single 45"),
            {"ring_mm": 4.0, "ring_wide_mm": 8.0},
            "the inner cut runs out below the ring",
        ),
        (ProfileRead(cut="30"), {"ring_mm": -1.0}, "an edge has a wall"),
    ],
)
def test_a_cut_that_does_not_fit_is_refused(read, more, says):
    with pytest.raises(BadInput, match=says):
        edge_profile(read, wall_mm=6.0, **more)


def test_a_head_that_does_not_go_on_touches_nothing():
    profile = edge_profile(ROUND_45, wall_mm=9.0)
    with pytest.raises(BadInput, match="does not go over"):
        film_contact(profile, bare_mm=300.0, collar_mm=299.9)
    with pytest.raises(BadInput, match="from below"):
        film_contact(profile, bare_mm=300.0, collar_mm=301.0, below_mm=0.0)
