"""The vent in the shell.

Truth: limits; what another program has for a 12 in tom; a count along a grid; the derivative by
differences.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from toms import INCH, cents, drum, pitches

from counterhoop.errors import BadInput
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.roots import negative, roots
from counterhoop.heads.stiffness import LEAK_HZ, Stiffness
from counterhoop.heads.vent import vent_hz

VENTED = replace(drum(), vent_m=0.012)


def test_a_usual_vent_is_hardly_heard():
    """12 mm in a 12 in tom breathes at 37.5 Hz and lifts the pair by about 1 and 8 cents: another
    program, whole cents. Heads that go together press nothing through it."""
    assert vent_hz(VENTED) == pytest.approx(37.5, abs=0.1)
    low, high = (
        cents(a, b) for a, b in zip(pitches(VENTED, 0)[:2], pitches(drum(), 0)[:2], strict=True)
    )
    assert 0.0 <= low < 1.5
    assert high == pytest.approx(8.0, abs=1.5)
    assert pitches(VENTED, 1) == pitches(drum(), 1)


def test_its_own_breathing_is_no_mode_of_the_heads():
    below = [hz for hz, _ in roots(Stiffness(VENTED, 0, 8), 400.0)]
    assert len(below) == len(pitches(VENTED, 0, up_to_hz=400.0)) + 1
    assert below[0] < vent_hz(VENTED)
    assert below[1:] == pytest.approx(pitches(VENTED, 0, up_to_hz=400.0))


def test_a_vent_as_good_as_none_changes_nothing():
    """A tenth of a millimetre is a leak; a millimetre is a vent, and not heard either."""
    assert pitches(replace(drum(), vent_m=1e-4), 0) == pitches(drum(), 0)
    small = replace(drum(), vent_m=0.001)
    assert vent_hz(small) > LEAK_HZ
    assert pitches(small, 0) == pytest.approx(pitches(drum(), 0), rel=1e-3)


def test_a_wide_vent_only_moves_up_what_presses():
    """Above its breathing a vent stiffens the even pressure: Rayleigh's principle. By how much
    follows from the pressed part alone, which the wider vent has more of."""
    raised = [
        pitches(replace(drum(), vent_m=vent), 0, up_to_hz=500.0)[1] for vent in (0.0, 0.01, 0.02)
    ]
    assert raised == sorted(raised)
    assert raised[2] > raised[1] + 1.0 > raised[0] + 1.0


def test_beside_an_open_end_a_vent_does_nothing():
    single = drum(resonant=None)
    assert pitches(replace(single, vent_m=0.012), 0) == pitches(single, 0)
    assert vent_hz(replace(single, vent_m=0.012)) == 0.0


@settings(max_examples=10, deadline=None)
@given(vent=st.floats(0.004, 0.03), tension=st.floats(600.0, 5000.0), deep=st.floats(3.0, 18.0))
def test_a_count_on_a_grid_agrees(vent, tension, deep):
    stiffness = Stiffness(replace(drum(12, deep, batter=tension), vent_m=vent), 0, 6)
    found = [hz for hz, _ in roots(stiffness, 600.0)]
    poles = stiffness.poles_hz(600.0)
    for hz in np.linspace(3.0, 597.0, 47):
        if min(abs(hz - other) for other in (*found, *poles)) < 1e-3:
            continue
        count = sum(f < hz for f in found) - sum(p < hz for p in poles)
        assert negative(stiffness.at(hz)) == count


@settings(max_examples=20, deadline=None)
@given(hz=st.floats(5.0, 900.0), vent=st.sampled_from([0.0, 0.012]), m=st.integers(0, 3),
       open_end=st.booleans())  # fmt: skip
def test_what_moves_is_how_fast_stiffness_falls(hz, vent, m, open_end):
    """By differences; away from where air alone resonates."""
    shell = drum(resonant=None) if open_end else replace(drum(), vent_m=vent)
    stiffness = Stiffness(shell, m, 5)
    if min((abs(hz / pole - 1.0) for pole in stiffness.poles_hz(2000.0)), default=1.0) < 0.02:
        return
    near, far = hz * (1 - 1e-4), hz * (1 + 1e-4)
    fall = (stiffness.at(near) - stiffness.at(far)) / ((2 * np.pi) ** 2 * (far**2 - near**2))
    assert np.allclose(stiffness.inertia(hz), fall, rtol=0, atol=3e-5 * np.abs(fall).max())


def test_what_cannot_be_is_refused():
    with pytest.raises(BadInput, match="no drum has that"):
        replace(drum(), vent_m=-0.01)
    with pytest.raises(BadInput, match="no drum has that"):
        replace(drum(), vent_m=9 * INCH)
    assert isinstance(VENTED, HeadedShell)
