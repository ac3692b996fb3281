"""Rolled up again, and which way round it reads."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.cylinder import from_cylinder, handedness, on_cylinder, outward
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.errors import BadInput

SURFACE = Surface(skin=Skin.OLD, circumference_mm=math.pi * 302.6)
DEPTH = 200.0
# An L in millimetres right and down: a long stroke down, a short one to the right.
L_MARK = ((0.0, 0.0), (0.0, 30.0), (15.0, 30.0))


def wrapped(points, *, along_mm=0.0, down_mm=60.0):
    return [
        on_cylinder(
            Place(SURFACE.along_deg(along_mm + x), down_mm + y), surface=SURFACE, depth_mm=DEPTH
        )
        for x, y in points
    ]


@given(st.floats(0, 359.999), st.floats(-10, 400), st.floats(-20, 50))
def test_there_and_back(along, down, out):
    place = Place(along, down)
    point = on_cylinder(place, surface=SURFACE, depth_mm=DEPTH, out_mm=out)
    back = from_cylinder(*point, depth_mm=DEPTH)
    assert SURFACE.apart_mm(place.along_deg, back.along_deg) == pytest.approx(0.0, abs=1e-9)
    assert back.down_mm == pytest.approx(down, abs=1e-9)


def test_right_handed_and_anticlockwise_from_the_batter_side():
    # Exact law: along x down-the-shell... right x up = outward, at every place.
    for along in (0.0, 77.0, 180.0, 359.0):
        here, step = Place(along, 50.0), 1e-6
        p = on_cylinder(here, surface=SURFACE, depth_mm=DEPTH)
        right = on_cylinder(Place(along + step, 50.0), surface=SURFACE, depth_mm=DEPTH)
        e = [b - a for a, b in zip(p, right, strict=True)]
        length = math.hypot(*e)
        e = [v / length for v in e]
        up = (0.0, 0.0, 1.0)
        cross = (
            e[1] * up[2] - e[2] * up[1],
            e[2] * up[0] - e[0] * up[2],
            e[0] * up[1] - e[1] * up[0],
        )
        assert cross == pytest.approx(outward(here), abs=1e-6)
    x, y, _ = on_cylinder(Place(10.0, 0.0), surface=SURFACE, depth_mm=DEPTH)
    assert x > 0
    assert y > 0


def test_the_edges():
    assert on_cylinder(Place(0, 0), surface=SURFACE, depth_mm=DEPTH)[2] == DEPTH
    assert on_cylinder(Place(0, DEPTH), surface=SURFACE, depth_mm=DEPTH)[2] == 0.0


@given(st.floats(0, 950), st.floats(0, 150))
def test_an_l_reads_the_same_wherever_it_is(along, down):
    # Down, then right, then back: anticlockwise as one looks at it.
    assert handedness(wrapped(L_MARK, along_mm=along, down_mm=down)) > 0


@given(st.floats(0, 950))
def test_a_mirrored_writer_is_told(along):
    mirrored_along = [(-x, y) for x, y in L_MARK]
    mirrored_down = [(x, -y) for x, y in L_MARK]
    right = handedness(wrapped(L_MARK, along_mm=along))
    for wrong in (mirrored_along, mirrored_down):
        assert handedness(wrapped(wrong, along_mm=along)) == pytest.approx(-right, rel=0.02)
    # Turned upside down it is the same mark, not a mirrored one.
    half_turn = [(-x, -y) for x, y in L_MARK]
    assert handedness(wrapped(half_turn, along_mm=along)) > 0


def test_an_outside_read_clockwise_from_above_is_told():
    # A drum drawn with along running the wrong way round: x = R cos, y = -R sin.
    right = wrapped(L_MARK, along_mm=100.0)
    assert handedness([(x, -y, z) for x, y, z in right]) == pytest.approx(-handedness(right))


def test_the_area_of_a_small_mark():
    # Seen square on, a mark of 15 x 30 / 2; foreshortened by under (15 / R)^2.
    assert handedness(wrapped(L_MARK)) == pytest.approx(225.0, rel=0.01)


@pytest.mark.parametrize(
    "points",
    [
        L_MARK[:2],
        ((0.0, 0.0), (0.0, 10.0), (0.0, 30.0)),
        ((0.0, 0.0), (0.0, 0.0), (0.0, 0.0)),
        ((0.0, 0.0), (0.0, 30.0), (475.0, 30.0)),
        ((0.0, 0.0), (330.0, 30.0), (620.0, 0.0)),
    ],
)
def test_marks_that_cannot_tell_are_refused(points):
    with pytest.raises(BadInput):
        handedness(wrapped(points))


def test_the_axis_lies_under_no_place():
    with pytest.raises(BadInput):
        from_cylinder(0.0, 0.0, 50.0, depth_mm=DEPTH)
