"""Ovals, grain, warmth and the shell's own pitch.

Truth: Mathieu functions of an ellipse (scipy, an independent implementation); published and
hand-worked values named beside each.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.film_grain import grain_lean
from counterhoop.heads.head import film_head, weighed_head
from counterhoop.heads.oval import oval_doublet
from counterhoop.heads.shell_ring import ring_hz
from counterhoop.heads.temperature import drift_cents_per_k, shell_growth_per_k
from counterhoop.heads.uneven import doublet


def ellipse_pair(half_long: float, half_short: float) -> tuple[float, float]:
    """Wave numbers of the modes that swing along and across an ellipse, by Mathieu functions."""
    from scipy.optimize import brentq
    from scipy.special import mathieu_modcem1, mathieu_modsem1

    focus = math.sqrt(half_long**2 - half_short**2)
    edge = math.atanh(half_short / half_long)

    def root(function):
        return float(brentq(lambda k: function(1, (k * focus / 2.0) ** 2, edge)[0], 3.6, 4.1))

    return root(mathieu_modcem1), root(mathieu_modsem1)


@given(st.floats(0.002, 0.02))
def test_an_oval_splits_as_an_ellipse_does(flat):
    """The law against the exact ellipse ``1 + e`` by ``1 - e``: off by the square of e."""
    along, across = ellipse_pair(1.0 + flat, 1.0 - flat)
    pair = oval_doublet(1.0, difference_m=4.0 * flat, diameter_m=2.0, long_deg=30.0)
    assert pair.split_cents == pytest.approx(1200.0 * math.log2(across / along), rel=0.01)
    assert pair.tight_deg == pytest.approx(120.0)
    assert along < 3.8317 < across


@pytest.mark.parametrize(("millimetres", "cents"), [(1, 2.8), (2, 5.7), (3, 8.5), (5, 14.2)])
def test_ovals_of_a_12_in_drum(millimetres, cents):
    pair = oval_doublet(220.0, difference_m=millimetres / 1000.0, diameter_m=0.3048)
    assert pair.split_cents == pytest.approx(cents, abs=0.06)


def test_half_a_hundredth_of_oval():
    """e = 0.005 gives 8.66 cents, by a Ritz solution on the oval, worked out apart."""
    pair = oval_doublet(220.0, difference_m=0.01, diameter_m=1.0)
    assert pair.split_cents == pytest.approx(8.66, abs=0.01)


def test_grain_of_the_film():
    """490 and 510 kgf/mm2 in the bulletin: 12.5 cents; 12.2 with the rounded 4.81 and 5.00 GPa."""
    assert doublet(220.0, lean=grain_lean(), tight_deg=0.0).split_cents == pytest.approx(
        12.5, abs=0.5
    )


@pytest.mark.parametrize(("material", "cents"), [("wood", -8.3), ("steel", -3.5)])
def test_warmth(material, cents):
    """10 mil film at 2500 N/m, worked by hand from the film's growth of 17e-6."""
    drift = drift_cents_per_k(
        film_head(254e-6), tension_n_per_m=2500.0, shell_per_k=shell_growth_per_k(material)
    )
    assert drift == pytest.approx(cents, abs=0.06)


def test_a_brass_shell_grows_more_than_the_film_and_tightens_it():
    brass = shell_growth_per_k("brass")
    assert drift_cents_per_k(film_head(254e-6), tension_n_per_m=2500.0, shell_per_k=brass) > 0.0


def test_calf_and_unknown_shells_are_not_guessed():
    calf = weighed_head(mass_kg=0.1, diameter_m=0.4, calf=True)
    with pytest.raises(BadInput, match="a head of film with its thickness"):
        drift_cents_per_k(calf, tension_n_per_m=2500.0, shell_per_k=5e-6)
    with pytest.raises(BadInput, match="wood or steel"):
        shell_growth_per_k("glass")


def test_the_published_ring():
    """code_aster, verification manual V2.03.109, after Blevins 1979: 211.65 Hz oval."""
    hz = ring_hz(2, radius_m=0.369, wall_m=0.048, modulus_n_per_m2=185e9, density_kg_per_m3=7800.0)
    assert hz == pytest.approx(211.65, abs=0.01)


@pytest.mark.parametrize(
    ("wall_m", "modulus", "density", "pitches"),
    [(0.006, 10e9, 650.0, (126, 355, 681)), (0.008, 10e9, 650.0, (167, 474)),
     (0.001, 200e9, 7850.0, (27, 76, 146, 236))],
)  # fmt: skip
def test_rings_of_12_in(wall_m, modulus, density, pitches):
    """Worked out apart for a mean radius of 152.4 mm, to a hertz."""
    found = [ring_hz(n, radius_m=0.1524, wall_m=wall_m, modulus_n_per_m2=modulus,
                     density_kg_per_m3=density) for n in range(2, 2 + len(pitches))]  # fmt: skip
    assert found == pytest.approx(pitches, rel=0.015)
