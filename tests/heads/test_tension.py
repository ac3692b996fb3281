"""Tension from a pitch near the rim.

Truth: the forward model, which finds pitches from tensions in another way (roots by counting);
exact laws by Hypothesis; figures of another program once.
"""

from __future__ import annotations

import pytest
from counts import cases
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.head import Head, film_head, weighed_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.ideal import ideal_tension_n_per_m
from counterhoop.heads.mode import Standing
from counterhoop.heads.modes import batter_lug_mode, modes_around, resonant_lug_mode
from counterhoop.heads.tension import print_tension, rim_hz, tension_from_pitch

INCH = 0.0254
TEN, SEVEN = film_head(254e-6), film_head(190.5e-6)
TOM = {"radius_m": 6 * INCH, "depth_m": 8 * INCH, "head": TEN}

sizes = st.tuples(st.floats(4, 11), st.floats(3, 18))
tensions = st.floats(500, 6000)


@cases(8)
@given(size=sizes, n_per_m=tensions)
def test_an_open_drum_and_back(size, n_per_m):
    """The forward model searches for the pitch of a tension; here it is an eigenvalue."""
    radius_m, depth_m = size[0] * INCH, size[1] * INCH
    shell = HeadedShell(radius_m=radius_m, depth_m=depth_m, batter=TEN, batter_n_per_m=n_per_m)
    hz = modes_around(shell, around=1, up_to_hz=1200)[0].hz
    back = tension_from_pitch(hz, radius_m=radius_m, depth_m=depth_m, head=TEN, end="open")
    assert back.n_per_m == pytest.approx(n_per_m, rel=1e-6)
    assert back.standing is Standing.UNCHECKED
    again = rim_hz(n_per_m, radius_m=radius_m, depth_m=depth_m, head=TEN, end="open")
    assert again == pytest.approx(hz, rel=1e-7)


@cases(8)
@given(size=sizes, n_per_m=tensions)
def test_a_muted_head_and_back(size, n_per_m):
    """A head too heavy to move stands for the cloth, in the forward model."""
    radius_m, depth_m = size[0] * INCH, size[1] * INCH
    still = Head(mass_kg_per_m2=1390.0)
    shell = HeadedShell(
        radius_m=radius_m, depth_m=depth_m, batter=TEN, batter_n_per_m=n_per_m, resonant=still,
        resonant_n_per_m=1.0,
    )  # fmt: skip
    hz = next(m.hz for m in modes_around(shell, around=1, up_to_hz=1200) if m.batter_share > 0.5)
    back = tension_from_pitch(hz, radius_m=radius_m, depth_m=depth_m, head=TEN)
    assert back.n_per_m == pytest.approx(n_per_m, rel=1e-3)
    again = rim_hz(n_per_m, radius_m=radius_m, depth_m=depth_m, head=TEN)
    assert again == pytest.approx(hz, rel=5e-4)


@cases(8)
@given(n_per_m=st.floats(800, 5000), ratio=st.sampled_from([0.5, 0.7, 1.0, 1.6, 2.2]))
def test_a_head_that_rings_along(n_per_m, ratio):
    shell = HeadedShell(
        radius_m=6 * INCH, depth_m=8 * INCH, batter=TEN, batter_n_per_m=n_per_m, resonant=SEVEN,
        resonant_n_per_m=ratio * n_per_m,
    )  # fmt: skip
    how = {"end": "sounds", "other": SEVEN, "other_n_per_m": ratio * n_per_m}
    own = tension_from_pitch(batter_lug_mode(shell).hz, **TOM, **how)
    assert own.n_per_m == pytest.approx(n_per_m, rel=1e-5)
    how = {"end": "sounds", "other": TEN, "other_n_per_m": n_per_m}
    other = tension_from_pitch(resonant_lug_mode(shell).hz, **{**TOM, "head": SEVEN}, **how)
    assert other.n_per_m == pytest.approx(ratio * n_per_m, rel=1e-5)


@cases(8)
@given(hz=st.floats(100, 400), more=st.floats(1.001, 1.2), end=st.sampled_from(["muted", "open"]))
def test_a_higher_pitch_is_a_tighter_head(hz, more, end):
    # Exact law: each eigenvalue of the dynamic stiffness falls as the pitch rises.
    low = tension_from_pitch(hz, **TOM, end=end).n_per_m
    assert tension_from_pitch(more * hz, **TOM, end=end).n_per_m > more * low


@given(hz=st.floats(60, 400))
@cases(8)
def test_air_only_weighs(hz):
    # Below the slosh of the air a head with air is tighter than an ideal one of that pitch.
    bare = ideal_tension_n_per_m(1, 1, hz=hz, radius_m=6 * INCH, mass_kg_per_m2=TEN.mass_kg_per_m2)
    assert tension_from_pitch(hz, **TOM).n_per_m > bare


def test_as_another_program_has_it():
    """12 x 8 in, 10 mil, 1500 N/m: 220.1 to 220.6 Hz beside heads of several tensions.

    Computed once by an independent program; no published check.
    """
    assert tension_from_pitch(220.3, **TOM).n_per_m == pytest.approx(1500, rel=0.01)


def test_what_is_said():
    usual = tension_from_pitch(220.0, **TOM)
    assert usual.usual
    assert usual.says == "220 Hz near the rim is about 1500 N/m."
    tight = tension_from_pitch(520.0, **TOM)
    assert not tight.usual
    assert "heads are played at 500 to 6000" in tight.says
    assert not tension_from_pitch(60.0, **TOM).usual
    skin = weighed_head(mass_kg=0.04, diameter_m=0.33, calf=True)
    assert "today" in tension_from_pitch(200.0, **{**TOM, "head": skin}).says
    assert print_tension(1526.0) == "1550 N/m"


def test_doubt_grows_with_what_is_not_known():
    deep, shallow = (
        tension_from_pitch(220.0, **{**TOM, "depth_m": deep * INCH}) for deep in (12, 3)
    )
    # 5 cents of pitch are 0.58 per cent of tension, whatever the shell.
    assert deep.doubt_n_per_m / deep.n_per_m == pytest.approx(0.0058, abs=2e-3)
    assert shallow.doubt_n_per_m > 3 * deep.doubt_n_per_m


def test_refused():
    for wrong in (0.0, -3.0, float("nan"), float("inf")):
        with pytest.raises(BadInput, match="no pitch at all"):
            tension_from_pitch(wrong, **TOM)
        with pytest.raises(BadInput, match="tension"):
            rim_hz(wrong, **TOM)
    with pytest.raises(BadInput, match="which head rings along"):
        tension_from_pitch(220.0, **TOM, end="sounds")
    with pytest.raises(BadInput, match="no head of this size"):
        tension_from_pitch(900.0, **TOM)
