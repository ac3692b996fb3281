"""What the hoop's height at the rods says.

Truth: a flat hoop that leans is a plane (exact); pairs worked by hand; and what is heard (two
lobes) must not come into it (Hypothesis).
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from taps import rods

from counterhoop.errors import BadInput
from counterhoop.listen.hoop_heights import CHECK_HOOP, HOOP_BENT, read_hoop_heights

COUNTS = st.integers(3, 12)


def heights(count, *, tilt_mm=0.0, high_deg=0.0, lobes_mm=0.0):
    return [
        9.0 + tilt_mm / 2.0 * math.cos(math.radians(at - high_deg))
        + lobes_mm * math.cos(2.0 * math.radians(at))
        for at in rods(count)
    ]  # fmt: skip


@given(COUNTS, st.floats(0.2, 3.0), st.floats(0.0, 359.0))
def test_a_leaning_hoop_is_read_as_the_plane_it_is(count, tilt, high):
    read = read_hoop_heights(
        heights(count, tilt_mm=tilt, high_deg=high), along_deg=rods(count), hoop_flat=True
    )
    assert read.tilt_mm == pytest.approx(tilt)
    assert math.cos(math.radians(read.high_deg - high)) == pytest.approx(1.0)


@given(st.integers(2, 6), st.floats(0.0, 0.5))
def test_two_lobes_are_left_to_the_ear(half, lobes):
    read = read_hoop_heights(
        heights(2 * half, lobes_mm=lobes), along_deg=rods(2 * half), hoop_flat=True
    )
    assert read.level


def test_opposite_rods_are_compared_and_half_the_difference_is_turned():
    """1.2 mm higher at rod 1 than at rod 4: 0.6 mm each, on a pitch of 1.2 mm half a turn."""
    read = read_hoop_heights(
        [9.6, 9.0, 9.0, 8.4, 9.0, 9.0], along_deg=rods(6), hoop_flat=True, thread_pitch_mm=1.2
    )
    first = read.opposites[0]
    assert (first.high, first.low) == (1, 4)
    assert first.by_mm == pytest.approx(1.2)
    assert first.turns == pytest.approx(0.5)
    assert "1.2 mm higher at rod 1 than at rod 4" in read.sentences[0]
    assert "about 1/2 of a turn" in read.sentences[0]
    assert len(read.sentences) == 2


def test_what_the_instrument_cannot_show_is_level():
    lean = [9.4, 9.0, 9.0, 9.0, 9.0, 9.0]
    by_rule = read_hoop_heights(lean, along_deg=rods(6), hoop_flat=True, resolution_mm=0.5)
    by_caliper = read_hoop_heights(lean, along_deg=rods(6), hoop_flat=True)
    assert by_rule.level
    assert "0.5 mm" in by_rule.sentences[0]
    assert not by_caliper.level


def test_odd_counts_lean_and_have_no_opposites():
    read = read_hoop_heights(
        heights(5, tilt_mm=1.0, high_deg=72.0), along_deg=rods(5), hoop_flat=True
    )
    assert read.opposites == ()
    assert "leans by 1.0 mm: high at rod 2, low at rods 4 and 5" in read.sentences[0]


@pytest.mark.parametrize(("flat", "says"), [(None, CHECK_HOOP), (False, HOOP_BENT)])
def test_a_hoop_that_is_not_known_to_be_flat_tells_nothing(flat, says):
    read = read_hoop_heights([9.6, 9.0, 9.0, 8.4, 9.0, 9.0], along_deg=rods(6), hoop_flat=flat)
    assert read.sentences == (says,)
    assert read.opposites == ()


@pytest.mark.parametrize("bad", [[9.0, 9.0], [9.0, 9.0, math.nan], [9.0] * 4])
def test_heights_that_cannot_be_used_are_refused(bad):
    with pytest.raises(BadInput):
        read_hoop_heights(bad, along_deg=rods(3), hoop_flat=True)
