"""Gaps between lugs that must add up to once round."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.chord import chord_mm
from counterhoop.development.tape import close_gaps
from counterhoop.errors import BadInput


def test_a_lug_off_its_place_still_closes():
    # Bench case: 14 dia, eight lugs, lug 4 by 3.0 toward lug 3.
    girth = math.pi * 355.0
    gap = girth / 8
    gaps = [gap, gap, gap - 3.0, gap + 3.0, gap, gap, gap, gap]
    assert gap == pytest.approx(139.41, abs=0.005)
    found = close_gaps(gaps, girth_mm=girth)
    assert found.closed
    assert found.suspect is None


@given(
    st.integers(3, 12),
    st.floats(200, 600),
    st.floats(-30, 30).filter(lambda slip: abs(slip) > 4),
    st.data(),
)
def test_one_misread_gap_is_named_and_put_right(lugs, diameter, slip, data):
    girth = math.pi * diameter
    which = data.draw(st.integers(0, lugs - 1))
    noise = data.draw(st.lists(st.floats(-0.25, 0.25), min_size=lugs, max_size=lugs))
    gaps = [girth / lugs + n for n in noise]
    true = gaps[which]
    gaps[which] += slip
    found = close_gaps(gaps, girth_mm=girth)
    assert found.cause == "one gap" or (found.cause == "chords" and slip < 0)
    if found.cause == "one gap":
        assert found.suspect == which
        # The others' noise is what is left over.
        assert found.corrected_mm == pytest.approx(true, abs=0.25 * lugs)


def test_even_gaps_with_an_odd_girth_name_the_girth():
    found = close_gaps([158.5] * 6, girth_mm=961.0)
    assert found.cause == "girth"
    assert found.suspect is None


@pytest.mark.parametrize("lugs", [4, 5, 6, 8, 10])
def test_gaps_stepped_with_dividers_are_told(lugs):
    girth = 950.65
    chord = chord_mm(girth / lugs, radius_mm=girth / (2 * math.pi))
    found = close_gaps([chord] * lugs, girth_mm=girth)
    assert found.cause == "chords"
    assert not found.closed


def test_two_equally_odd_gaps_are_both_named():
    found = close_gaps([158.5, 168.0, 158.5, 168.3, 158.5, 158.5], girth_mm=960.0)
    assert found.suspect == 3
    assert found.as_likely == (1,)


@given(st.lists(st.floats(50, 300), min_size=2, max_size=10), st.floats(500, 2000))
def test_numbering_from_another_lug_names_the_same_gap(gaps, girth):
    found = close_gaps(gaps, girth_mm=girth)
    moved = close_gaps(gaps[1:] + gaps[:1], girth_mm=girth)
    assert moved.cause == found.cause
    assert moved.misfit_mm == pytest.approx(found.misfit_mm, abs=1e-9)
    if found.suspect is not None and gaps.count(gaps[found.suspect]) == 1:
        assert moved.suspect == (found.suspect - 1) % len(gaps)


def test_the_doubt_adds_as_the_root_of_squares():
    # JCGM 100:2008 (GUM) 5.1.2 for independent readings.
    assert close_gaps([100.0] * 8, girth_mm=800.0).doubt_mm == pytest.approx(0.5 * 3.0)


@pytest.mark.parametrize("gaps", [[], [100.0, 0.0], [100.0, -5.0], [math.nan]])
def test_gaps_of_nothing_are_refused(gaps):
    with pytest.raises(BadInput):
        close_gaps(gaps, girth_mm=900.0)
