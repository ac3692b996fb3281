"""Along the skin and straight across."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.chord import arc_mm, chord_mm
from counterhoop.development.cylinder import on_cylinder
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.errors import BadInput


def test_six_lugs_on_twelve_inches():
    # Exact law: the hexagon's side is the radius (Euclid, Elements IV.15).
    radius = 302.6 / 2
    spacing = math.pi * 302.6 / 6
    assert spacing == pytest.approx(158.44, abs=0.005)
    assert chord_mm(spacing, radius_mm=radius) == pytest.approx(151.30, abs=1e-9)


def test_dividers_opened_to_the_arc_step_too_far():
    # Recomputed: 302.6 asin(158.44 / 302.6); the sixth mark is five to six steps out.
    step = arc_mm(158.44, radius_mm=151.3)
    assert step == pytest.approx(166.75, abs=0.005)
    assert step - 158.44 == pytest.approx(8.3, abs=0.05)
    assert 6 * (step - 158.44) == pytest.approx(49.9, abs=0.05)


@given(st.floats(50, 400), st.floats(0, 1))
def test_there_and_back(radius, share):
    arc = share * math.pi * radius
    # Near half way round the chord hardly grows: the way back loses half the digits there.
    assert arc_mm(chord_mm(arc, radius_mm=radius), radius_mm=radius) == pytest.approx(
        arc, abs=1e-4 if share > 0.99 else 1e-9 * radius
    )


@given(st.floats(0, 360), st.floats(0, 360), st.floats(300, 2000))
def test_the_chord_is_the_distance_through_space(a, b, girth):
    # Independent: Euclid between the two places on the rolled-up shell.
    surface = Surface(skin=Skin.OLD, circumference_mm=girth)
    ends = [on_cylinder(Place(along, 30.0), surface=surface, depth_mm=200.0) for along in (a, b)]
    arc = abs(surface.apart_mm(Place(a, 0).along_deg, Place(b, 0).along_deg))
    assert chord_mm(arc, radius_mm=surface.radius_mm) == pytest.approx(math.dist(*ends), abs=1e-8)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: chord_mm(-1.0, radius_mm=100.0),
        lambda: chord_mm(700.0, radius_mm=100.0),
        lambda: chord_mm(10.0, radius_mm=0.0),
        lambda: arc_mm(201.0, radius_mm=100.0),
        lambda: arc_mm(-1.0, radius_mm=100.0),
        lambda: arc_mm(1.0, radius_mm=math.nan),
    ],
)
def test_what_is_not_on_the_shell_is_refused(wrong):
    with pytest.raises(BadInput):
        wrong()
