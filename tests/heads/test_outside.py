"""The air outside both ends of a drum.

Truth: closed forms for a disc; published end corrections; finite elements (scikit-fem) that know
nothing of shares or moments; boundary elements of another program, as far as it was run.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from free_disc import free_mass
from outside_by_elements import outside_by_elements
from scipy.special import jv
from toms import cents, drum

from counterhoop.heads.ends import FLANGED, other_share, outside_of, own_share
from counterhoop.heads.exterior import baffled_mass, baffled_opening_mass
from counterhoop.heads.modes import modes_of
from counterhoop.heads.shapes import air_norms, air_zeros, head_moments, head_norms, head_zeros
from counterhoop.heads.stiffness import MORE_AIR, Stiffness


def shares(mass, around):
    """Pumping and the same way, as shares of the wall's air."""
    wall = baffled_mass(around, 1)[0, 0]
    own, between = mass.batter[0, 0], mass.between[0, 0]
    return (own + between) / wall, (own - between) / wall


# --- a disc without a shell --------------------------------------------------------------------


def test_a_rigid_disc_in_free_air_carries_eight_thirds():
    """8/3 rho a^3: H. Lamb, Hydrodynamics, 108 (from memory); exact."""
    assert 2 * math.pi * free_mass(0, np.ones_like) == pytest.approx(8 / 3, rel=1e-6)


@pytest.mark.parametrize(
    ("around", "circles", "beta"),
    [
        (1, 1, 0.5736),
        *(
            pytest.param(*row, marks=pytest.mark.full)
            for row in ((0, 1, 0.9859), (2, 1, 0.4160), (0, 2, 0.3936), (1, 2, 0.3023))
        ),
    ],
)
def test_a_free_head_as_another_program_has_it(around, circles, beta):
    zero = head_zeros(around, circles)[-1]
    carried = free_mass(around, lambda r: jv(around, zero * r))
    assert carried / head_norms(around, circles)[-1] == pytest.approx(beta, abs=1e-4)


@pytest.mark.parametrize("around", [0, *(pytest.param(m, marks=pytest.mark.full) for m in (1, 2))])
def test_at_no_depth_both_ends_are_a_disc(around):
    """Outward at once: as in a wall, by symmetry; to and fro: half of the free disc's air."""
    zero = head_zeros(around, 1)[0]
    half = free_mass(around, lambda r: jv(around, zero * r)) / 2.0
    pumping, same = shares(outside_of(around, 1, 0.0), around)
    assert pumping == pytest.approx(1.0, abs=1e-4)
    assert same == pytest.approx(half / baffled_mass(around, 1)[0, 0], abs=1.5e-4)


# --- ends of a pipe ----------------------------------------------------------------------------


def plane_length(opening, terms):
    """End correction: plane flow far inside, any flow at the end, least energy."""
    norms, zeros = air_norms(0, terms), air_zeros(0, terms)
    inner = opening[1:, 1:] + np.diag(norms[1:] / zeros[1:])
    eased = opening[0, 1:] @ np.linalg.solve(inner, opening[1:, 0])
    return (opening[0, 0] - eased) / norms[0]


def test_an_open_end_is_as_long_as_published():
    """In a wall 0.8217 (Nomura 1960), without 0.6133 of the radius (Levine and Schwinger 1948),
    both from memory; so many shapes as are used leave 0.0009 of it."""
    few = 8 + MORE_AIR
    assert plane_length(baffled_opening_mass(0, 60), 60) == pytest.approx(FLANGED, abs=2e-4)
    open_end = outside_of(0, 8, 2.0, opening_terms=few).other
    assert plane_length(open_end, few) == pytest.approx(0.6133, abs=1e-3)


# --- finite elements ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("around", "deep", "pumping", "same"),
    [(0, 0.7, 0.944, 0.741), (0, 1.33, 0.922, 0.766), (0, 2.0, 0.909, 0.782),
     (1, 0.7, 0.967, 0.928), (1, 1.33, 0.959, 0.939), (1, 2.0, 0.955, 0.944)],
)  # fmt: skip
def test_the_table_as_boundary_elements_of_another_program_have_it(around, deep, pumping, same):
    assert shares(outside_of(around, 1, deep), around) == pytest.approx((pumping, same), abs=0.0025)


@pytest.mark.parametrize(
    ("around", "deep"), [(0, 0.0), (0, 0.5), (0, 2.0), (0, 8.0), (1, 0.85), (2, 1.33), (3, 1.33)]
)
def test_the_table_and_between_its_rows_by_finite_elements(around, deep):
    found = shares(outside_by_elements(around, 1, deep), around)
    assert shares(outside_of(around, 1, deep), around) == pytest.approx(found, abs=1e-3)


def test_the_elements_could_disagree():
    pumping, same = shares(outside_by_elements(0, 1, 2.0), 0)
    assert abs(pumping - same) > 0.1
    assert abs(pumping - 1.0) > 0.05


@pytest.mark.full
def test_finer_elements_change_nothing():
    rough, fine = (
        shares(outside_by_elements(0, 1, 0.7, finest=finest, growth=growth), 0)
        for finest, growth in ((0.004, 1.35), (0.002, 1.2))
    )
    assert rough == pytest.approx(fine, abs=2e-4)


OPEN = drum(resonant=None)


@pytest.mark.parametrize(
    ("shell", "within", "around"),
    [
        (drum(), (0.3, 1.5), 0),
        (drum(), (0.3, 1.5), 1),
        (OPEN, (1.5, 1.5), 0),
        *(
            pytest.param(shell, within, around, marks=pytest.mark.full)
            for shell, within, around in (
                (drum(), (0.3, 1.5), 2),
                *((drum(14, 5.5), (0.3, 1.5), around) for around in range(3)),
                (OPEN, (1.5, 1.5), 1),
                (OPEN, (1.5, 1.5), 2),
            )
        ),
    ],
)
def test_pitches_with_the_whole_field_outside_are_the_same(shell, within, around):
    """Shares and moments stand for a field that finite elements have whole: in cents, for the two
    lowest; (0,2) and above, by 4."""
    opening = 8 + MORE_AIR if shell.is_open else 0
    deep = shell.depth_m / shell.radius_m
    whole = outside_by_elements(around, 8, deep, opening_terms=opening)
    exact = modes_of(Stiffness(shell, around, 8, whole), up_to_hz=500.0)
    ours = modes_of(Stiffness(shell, around, 8), up_to_hz=500.0)
    off = [abs(cents(a.hz, b.hz)) for a, b in zip(ours, exact, strict=True)]
    assert max(off) < 4.0
    assert all(one < most for one, most in zip(off, within, strict=False))


# --- laws --------------------------------------------------------------------------------------


def test_from_afar_an_end_is_a_point():
    """The pressure of a point source in free space, ``1 / (4 pi L)``: exact as depth grows."""
    swept = 2 * math.pi * head_moments(0, 1)[0]
    norm = 2 * math.pi * baffled_mass(0, 1)[0, 0]
    for deep in (30.0, 100.0):
        point = swept**2 / (4 * math.pi * deep) / norm
        assert other_share(0, deep) == pytest.approx(point, rel=2.5 / deep)


@pytest.mark.parametrize("around", [0, 1, 2])
def test_what_is_felt_falls_with_depth_without_a_step(around):
    deep = np.linspace(0.0, 12.0, 241)
    felt = np.array([other_share(around, one) for one in deep])
    own = np.array([own_share(around, one) for one in deep])
    assert np.all(np.diff(felt) < 0)
    assert np.all(np.diff(own) >= 0)
    assert felt[-1] > 0


@pytest.mark.parametrize("deep", [0.0, 0.3, 0.7, 3.0])
@pytest.mark.parametrize("opening", [0, 14])
@pytest.mark.parametrize("around", [0, 1, 2, 5])
def test_air_outside_always_weighs(around, opening, deep):
    """Kinetic energy is positive whatever the ends do."""
    mass = outside_of(around, 8, deep, opening_terms=opening).mass
    assert np.linalg.eigvalsh(mass).min() > 0.0


@pytest.mark.parametrize("depth", [0.7, 1.33, 2.0])
def test_leaving_out_what_is_felt_outside_sharpens_or_flattens(depth):
    """Of the (0,1) pair, 12 in at 1500 to 3500 N/m, the lower would be 12 to 27 cents flat, the
    upper 6 to 19 cents sharp; another program, which spread it over all shapes alike, had 14 to
    27 and 15 to 22."""
    for tension in (1500.0, 3500.0):
        shell = drum(12, 6 * depth, batter=tension, resonant=tension)
        felt = outside_of(0, 8, depth)
        alone = type(felt)(felt.batter, felt.other, np.zeros_like(felt.between))
        with_it, without = (
            modes_of(Stiffness(shell, 0, 8, one), up_to_hz=400.0) for one in (felt, alone)
        )
        assert -27 < cents(without[0].hz, with_it[0].hz) < -12
        assert 5 < cents(without[1].hz, with_it[1].hz) < 20
