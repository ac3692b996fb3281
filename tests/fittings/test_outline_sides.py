"""Room inside an outline and crossed outlines, held against an independent implementation."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, Point, Polygon

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.fittings.outline_sides import is_outline, room_mm

coordinates = st.integers(-60, 60).map(lambda n: n / 2.0)
points = st.tuples(coordinates, coordinates)


@given(st.lists(points, min_size=3, max_size=9, unique=True), points)
def test_room_agrees_with_shapely(
    corners: list[tuple[float, float]], at: tuple[float, float]
) -> None:
    polygon = Polygon(corners)
    if not polygon.is_valid or polygon.area < 0.1:
        return
    point = Point(at)
    away = polygon.exterior.distance(point)
    wanted = away if polygon.contains(point) else -away
    assert room_mm(Outline(tuple(corners)), right_mm=at[0], down_mm=at[1]) == pytest.approx(
        wanted, abs=1e-9
    )


@given(st.lists(points, min_size=3, max_size=8, unique=True))
def test_an_outline_that_shapely_calls_simple_is_accepted(
    corners: list[tuple[float, float]],
) -> None:
    if LinearRing(corners).is_simple and Polygon(corners).area > 0.1:
        assert is_outline(Outline(tuple(corners)))


@given(st.lists(points, min_size=4, max_size=8, unique=True))
def test_a_proper_crossing_is_refused(corners: list[tuple[float, float]]) -> None:
    n = len(corners)
    sides = [(corners[i], corners[(i + 1) % n]) for i in range(n)]

    def turn(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        twice = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
        return math.copysign(1.0, twice) if twice else 0.0

    crossed = any(
        turn(*a, b[0]) * turn(*a, b[1]) < 0 and turn(*b, a[0]) * turn(*b, a[1]) < 0
        for a in sides
        for b in sides
    )
    if crossed:
        assert not is_outline(Outline(tuple(corners)))


@pytest.mark.parametrize("outline", [rounded(24.0, 57.0, corner_mm=12.0), disc(19.0)])
def test_round_outlines_are_outlines(outline: Outline) -> None:
    assert is_outline(outline)
    assert is_outline(Outline(outline.points[::-1]))


def test_a_line_holds_no_area() -> None:
    assert not is_outline(Outline(((0.0, 0.0), (10.0, 0.0), (20.0, 0.0))))
    assert not is_outline(Outline(((0.0, 0.0),) * 3))


def test_room_in_a_disc_is_what_is_left_of_its_radius() -> None:
    # Sides of a polygon of 128 corners lie within R (1 - cos(pi / 128)) of the circle.
    radius, out = 30.0, 12.0
    room = room_mm(disc(2 * radius), right_mm=out, down_mm=0.0)
    assert radius - out - radius * (1 - math.cos(math.pi / 128)) <= room <= radius - out
