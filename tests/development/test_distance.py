"""Two places on the skin."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.cylinder import on_cylinder
from counterhoop.development.distance import apart
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface

ALONG = st.floats(-720, 720)
DOWN = st.floats(0, 400)


def skin(girth_mm: float = 960.0) -> Surface:
    return Surface(skin=Skin.OLD, circumference_mm=girth_mm)


def test_across_the_datum_the_short_way():
    found = apart(Place(359.0, 50.0), Place(1.0, 50.0), surface=skin(720.0))
    assert found.along_mm == pytest.approx(4.0)
    assert found.distance_mm == pytest.approx(4.0)


@given(ALONG, DOWN, ALONG, DOWN, st.floats(-360, 360))
def test_turning_the_drum_changes_nothing(a, da, b, db, turn):
    before = apart(Place(a, da), Place(b, db), surface=skin())
    after = apart(Place(a + turn, da), Place(b + turn, db), surface=skin())
    assert after.distance_mm == pytest.approx(before.distance_mm, abs=1e-8)


@given(ALONG, DOWN, ALONG, DOWN)
def test_from_the_other_end_the_same(a, da, b, db):
    there = apart(Place(a, da), Place(b, db), surface=skin())
    back = apart(Place(b, db), Place(a, da), surface=skin())
    assert there.distance_mm == pytest.approx(back.distance_mm, abs=1e-8)
    assert there.down_mm == -back.down_mm


@given(ALONG, DOWN, ALONG, DOWN, st.floats(0.5, 3))
def test_a_drum_twice_the_size_doubles_it(a, da, b, db, scale):
    small = apart(Place(a, da), Place(b, db), surface=skin())
    big = apart(Place(a, da * scale), Place(b, db * scale), surface=skin(960.0 * scale))
    assert big.distance_mm == pytest.approx(small.distance_mm * scale, rel=1e-9, abs=1e-8)


@given(ALONG, DOWN, ALONG, DOWN, ALONG, DOWN)
def test_no_way_round_a_third_place_is_shorter(a, da, b, db, c, dc):
    places = [Place(a, da), Place(b, db), Place(c, dc)]
    ab, bc, ac = (
        apart(places[i], places[j], surface=skin()).distance_mm for i, j in ((0, 1), (1, 2), (0, 2))
    )
    assert ac <= ab + bc + 1e-8


@given(ALONG, DOWN, ALONG, DOWN)
def test_it_is_the_length_of_the_line_drawn_on_the_rolled_up_skin(a, da, b, db):
    # Independent: many short chords through space.
    surface = skin()
    found = apart(Place(a, da), Place(b, db), surface=surface)
    steps = 400
    line = [
        on_cylinder(
            Place(
                a + surface.along_deg(found.along_mm * t / steps),
                da + found.down_mm * t / steps,
            ),
            surface=surface,
            depth_mm=400.0,
        )
        for t in range(steps + 1)
    ]
    length = math.fsum(math.dist(p, q) for p, q in itertools.pairwise(line))
    assert length == pytest.approx(found.distance_mm, rel=1e-5, abs=1e-6)
