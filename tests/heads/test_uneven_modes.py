"""Uneven heads beyond the first order.

Truth: figures worked out apart from this code with the same basis; the first-order law; exact
laws. ``test_uneven_by_elements`` solves the same heads by finite elements.
"""

from __future__ import annotations

import math

import pytest
from counts import cases
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.film_field import FilmField
from counterhoop.heads.ideal import ideal_hz
from counterhoop.heads.rim_load import RimLoad, Wave
from counterhoop.heads.uneven import doublet_of
from counterhoop.heads.uneven_modes import ritz_doublet, uneven_modes

EVEN_HZ = ideal_hz(1, 1, radius_m=1.0, tension_n_per_m=1.0, mass_kg_per_m2=1.0)
HELD = st.sampled_from(("stuck", "slips"))


def film(*waves: tuple[int, float, float], held="stuck") -> FilmField:
    edge = RimLoad(
        mean_n_per_m=1.0,
        waves=tuple(Wave(lobes=p, high_n_per_m=high, tight_deg=deg) for p, high, deg in waves),
    )
    return FilmField(edge=edge, radius_m=1.0, held=held)


def split(field: FilmField, around: int) -> float:
    """The split of (around, 1) over its pitch."""
    found = uneven_modes(field, mass_kg_per_m2=1.0, around=6, circles=6)
    low, high = (mode.hz for mode in found if (mode.around, mode.circles) == (around, 1))
    return (high - low) / low


FULL = pytest.param(10, 0.946534, marks=pytest.mark.full)


@pytest.mark.parametrize(("most", "lowest"), [(3, 0.946551), (4, 0.946536), (6, 0.946534), FULL])
def test_the_table_of_convergence(most, lowest):
    """Two lobes of 0.2 and three of 0.15 together; 21, 36, 78, 210 functions."""
    field = film((2, 0.2, 0.0), (3, 0.15, 0.0))
    found = uneven_modes(field, mass_kg_per_m2=1.0, around=most, circles=most)
    assert found[1].hz / EVEN_HZ == pytest.approx(lowest, abs=1.1e-6)
    assert (found[1].around, found[1].circles) == (1, 1)


@pytest.mark.parametrize("held", ["stuck", "slips"])
@pytest.mark.parametrize(("lean", "percent"), [(0.05, 2.500), (0.10, 5.002), (0.20, 10.012)])
def test_the_split_of_large_leans(held, lean, percent):
    pair = ritz_doublet(film((2, lean, 0.0), held=held), even_hz=1.0)
    assert 100.0 * (pair.high_hz - pair.low_hz) == pytest.approx(percent, abs=6e-4)


def test_the_mean_hardly_moves():
    """0.04 % down at a lean of 0.1."""
    pair = ritz_doublet(film((2, 0.1, 0.0)), even_hz=1.0)
    assert 100.0 * (pair.mean_hz - 1.0) == pytest.approx(-0.04, abs=0.005)


@given(st.floats(0.001, 0.1), st.floats(0.0, 180.0), HELD)
@cases(4)
def test_small_leans_go_by_the_law(lean, axis_deg, held):
    field = film((2, lean, axis_deg), held=held)
    exact, law = ritz_doublet(field, even_hz=220.0), doublet_of(field.edge, even_hz=220.0)
    assert exact.split_cents == pytest.approx(law.split_cents, rel=1e-3)
    assert exact.mean_hz == pytest.approx(220.0, rel=0.05 * lean**2)
    turn = math.radians(2.0 * (exact.tight_deg - law.tight_deg))
    assert math.cos(turn) == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(("held", "share"), [("stuck", 0.229), ("slips", 0.233)])
def test_two_nodal_diameters_feel_four_lobes(held, share):
    assert split(film((4, 0.01, 0.0), held=held), 2) / 0.01 == pytest.approx(share, abs=7e-4)


def test_two_nodal_diameters_feel_two_lobes_by_their_square():
    """Half the wave leaves a quarter of the split: nothing at first order."""
    splits = [split(film((2, lean, 0.0)), 2) for lean in (0.02, 0.01)]
    assert splits[0] / splits[1] == pytest.approx(4.0, rel=0.02)
    assert splits[1] < 0.002


def test_the_lowest_feels_no_wave():
    lowest = ideal_hz(0, 1, radius_m=1.0, tension_n_per_m=1.0, mass_kg_per_m2=1.0)
    for lobes in range(1, 7):
        few = {"around": 3, "circles": 2}
        found = uneven_modes(film((lobes, 0.01, 0.0)), mass_kg_per_m2=1.0, **few)[0]
        assert found.hz == pytest.approx(lowest, rel=1e-4)


def test_odd_waves_say_nothing_but_that_they_are_there():
    """One lobe of 0.2 takes 1.5 and 1.2 % off the pair; which way round it is is not heard."""
    for high, deg in ((0.2, 0.0), (0.2, 180.0)):
        found = uneven_modes(film((1, high, deg)), mass_kg_per_m2=1.0)[1:3]
        moved = [100.0 * (mode.hz / EVEN_HZ - 1.0) for mode in found]
        assert moved == pytest.approx((-1.5, -1.2), abs=0.05)


@pytest.mark.parametrize(
    "turn_deg", [37.3, *(pytest.param(deg, marks=pytest.mark.full) for deg in (0.0, 90.0, 171.0))]
)
def test_a_turned_or_mirrored_drum_sounds_the_same(turn_deg):
    plain = film((1, 0.1, 20.0), (2, 0.15, 40.0), (3, 0.1, 5.0))
    turned = film(*((p, high, deg + turn_deg) for p, high, deg in
                    ((1, 0.1, 20.0), (2, 0.15, 40.0), (3, 0.1, 5.0))))  # fmt: skip
    mirror = film(*((p, high, -deg) for p, high, deg in
                    ((1, 0.1, 20.0), (2, 0.15, 40.0), (3, 0.1, 5.0))))  # fmt: skip
    few = {"mass_kg_per_m2": 1.0, "around": 3, "circles": 2}
    pitches = [mode.hz for mode in uneven_modes(plain, **few)]
    for other in (turned, mirror):
        assert [mode.hz for mode in uneven_modes(other, **few)] == pytest.approx(pitches)
    here, there = (ritz_doublet(field, even_hz=1.0).tight_deg for field in (plain, turned))
    assert math.cos(math.radians(2.0 * (there - here - turn_deg))) == pytest.approx(1.0)


def test_slack_film_is_refused():
    with pytest.raises(BadInput, match="slack"):
        uneven_modes(film((2, 1.2, 0.0)), mass_kg_per_m2=1.0)
