"""Film in balance.

Truth: the equations of balance and of stretch, by finite differences; ``test_uneven_by_elements``
solves the same film by finite elements.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.film_field import FilmField
from counterhoop.heads.rim_load import RimLoad, Wave

STEP = 1e-4


def film(held="stuck", first=1, poisson=0.38) -> FilmField:
    waves = tuple(Wave(lobes=p, high_n_per_m=100.0 * p, tight_deg=7.0 * p) for p in range(first, 7))
    edge = RimLoad(mean_n_per_m=2500.0, waves=waves)
    return FilmField(edge=edge, radius_m=0.15, poisson=poisson, held=held)


FILMS = [film(), film("slips", first=2), film(poisson=0.2)]
OUT, TURN = np.meshgrid(np.array([0.02, 0.07, 0.11, 0.149]), np.arange(12) * 0.5, indexing="ij")


def slope(of, *, out=0.0, turn=0.0):
    return (of(OUT + out, TURN + turn) - of(OUT - out, TURN - turn)) / (2.0 * (out + turn))


def out_of_balance(field) -> float:
    """Greatest force left over on a piece of film, N/m2."""

    def part(k):
        return lambda r, t: field.at(r, t)[k]

    rr, tt, rt = field.at(OUT, TURN)
    h = STEP * 0.15
    outward = slope(part(0), out=h) + slope(part(2), turn=STEP) / OUT + (rr - tt) / OUT
    around = slope(part(2), out=h) + slope(part(1), turn=STEP) / OUT + 2.0 * rt / OUT
    return float(max(abs(outward).max(), abs(around).max()))


@pytest.mark.parametrize("field", FILMS)
def test_every_piece_of_film_is_in_balance(field):
    """Forces of some 10 000 N/m2 add up to nothing, as far as differences can tell."""
    assert out_of_balance(field) < 0.1


@dataclass(frozen=True)
class Askew:
    """The same with its shear the wrong way round."""

    field: FilmField

    def at(self, out, turn):
        rr, tt, rt = self.field.at(out, turn)
        return rr, tt, -rt


def test_that_can_fail():
    assert out_of_balance(Askew(film())) > 1000.0


@pytest.mark.parametrize("field", FILMS)
def test_the_film_stretches_by_what_pulls_it(field):
    """Hooke's law in plane stress, from how far the film has moved."""
    stiffness, nu, h = 1.2e6, field.poisson, STEP * 0.15

    def part(k):
        return lambda r, t: field.moved(r, t, stiffness_n_per_m=stiffness)[k]

    rr, tt, rt = field.at(OUT, TURN)
    outward, around = part(0)(OUT, TURN), part(1)(OUT, TURN)
    assert slope(part(0), out=h) * stiffness == pytest.approx(rr - nu * tt, abs=1e-2)
    round_it = slope(part(1), turn=STEP) / OUT + outward / OUT
    assert round_it * stiffness == pytest.approx(tt - nu * rr, abs=1e-2)
    shear = slope(part(0), turn=STEP) / OUT + slope(part(1), out=h) - around / OUT
    assert shear * stiffness == pytest.approx(2.0 * (1.0 + nu) * rt, abs=1e-2)


@pytest.mark.parametrize("field", FILMS)
def test_the_edge_is_as_it_was_asked_for(field):
    turn = np.linspace(0.0, 6.0, 40)
    outward, _, shear = field.at(0.15, turn)
    asked = [field.edge.at(float(here)) for here in np.degrees(turn)]
    assert outward == pytest.approx(np.array(asked), rel=1e-12)
    if field.held == "slips":
        assert shear == pytest.approx(0.0 * turn, abs=1e-9)
    else:
        _, around = field.moved(0.15, turn, stiffness_n_per_m=1.2e6)
        assert around == pytest.approx(0.0 * turn, abs=1e-15)


@given(st.floats(0.0, 360.0), st.floats(0.001, 0.15), st.floats(0.0, 6.0))
def test_turned_rods_turn_the_film(turn_deg, out_m, along_rad):
    field = film()
    waves = tuple(replace(w, tight_deg=w.tight_deg + turn_deg) for w in field.edge.waves)
    turned = replace(field, edge=replace(field.edge, waves=waves))
    there = turned.at(out_m, along_rad + np.radians(turn_deg))
    for here, again in zip(field.at(out_m, along_rad), there, strict=True):
        assert float(again) == pytest.approx(float(here), abs=1e-8)


def test_an_even_edge_pulls_the_same_everywhere():
    field = FilmField(edge=RimLoad(mean_n_per_m=2000.0), radius_m=0.15)
    outward, around, shear = field.at(OUT, TURN)
    assert (outward == 2000.0).all()
    assert (around == 2000.0).all()
    assert (shear == 0.0).all()


def test_film_that_slips_has_no_wave_of_one_lobe():
    with pytest.raises(BadInput, match="slides across"):
        film("slips", first=1)
