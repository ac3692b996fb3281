"""Densities of readings. Truth: scipy.stats.exponnorm, quadrature, and sums that must be 1."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import exponnorm, norm, t

from counterhoop.parts.unknown.density import (
    alike,
    count_near,
    counted,
    reading,
    worn_normal,
)


@pytest.mark.parametrize("way", [-1, 1])
@pytest.mark.parametrize(("sd", "worn"), [(0.1, 0.05), (0.1, 0.5), (0.3, 0.3), (1.0, 0.1)])
def test_wear_and_error_as_scipy_has_them(sd: float, worn: float, way: int) -> None:
    off = np.linspace(-6.0, 6.0, 241)
    ours = worn_normal(off, sd=np.array(sd), worn=np.array(worn), way=way)
    theirs = exponnorm.logpdf(way * off, worn / sd, loc=0.0, scale=sd)
    told = np.isfinite(theirs)
    assert told.sum() > 100
    np.testing.assert_allclose(ours[told], theirs[told], rtol=1e-9, atol=1e-9)


@pytest.mark.parametrize("off", [-1.0, -0.2, 0.0, 0.3, 1.5])
def test_wear_and_error_are_the_integral_over_every_wear(off: float) -> None:
    sd, worn = 0.2, 0.4

    def at(lost: float) -> float:
        return float(math.exp(-lost / worn) / worn * norm.pdf(off + lost, scale=sd))

    whole, _ = quad(at, 0.0, 12.0, points=[max(0.0, -off)], limit=200, epsabs=0.0)
    ours = worn_normal(np.array(off), sd=np.array(sd), worn=np.array(worn), way=-1)
    assert math.isclose(math.exp(float(ours)), whole, rel_tol=1e-7)


@given(
    st.floats(-1e4, 1e4), st.floats(1e-3, 1e2), st.floats(1e-9, 1e3), st.sampled_from((-1, 0, 1))
)
def test_no_reading_overflows(off: float, sd: float, worn: float, way: int) -> None:
    held = worn_normal(np.array(off), sd=np.array(sd), worn=np.array(worn), way=way)
    assert np.isfinite(held)


def test_little_wear_is_none() -> None:
    off = np.linspace(-0.5, 0.5, 21)
    ours = worn_normal(off, sd=np.array(0.1), worn=np.array(1e-5), way=-1)
    np.testing.assert_allclose(ours, norm.logpdf(off, scale=0.1), atol=1e-3)
    still = worn_normal(off, sd=np.array(0.1), worn=np.array(0.5), way=0)
    np.testing.assert_allclose(still, norm.logpdf(off, scale=0.1), rtol=1e-12)


def test_a_worn_rod_is_likelier_thin_than_thick() -> None:
    thin, thick = worn_normal(np.array([-0.2, 0.2]), sd=np.array(0.05), worn=np.array(0.1), way=-1)
    assert thin > thick + 3.0


def test_a_reading_is_a_density() -> None:
    off = np.linspace(-12.0, 12.0, 48_001)
    held = np.exp(reading(off, sd=np.array(0.2), worn=np.array(0.3), way=1))
    assert math.isclose(float(np.trapezoid(held, off)), 1.0, rel_tol=1e-6)


def test_another_makes_size_is_student_in_its_logarithm() -> None:
    value = np.array([10.0, 38.0, 42.0, 55.0])
    theirs = t.logpdf(np.log(value / 42.0), 3, scale=0.12) - np.log(value)
    np.testing.assert_allclose(alike(value, size=np.array(42.0)), theirs, rtol=1e-12)


@pytest.mark.parametrize("size", [0.0, 1.0, 2.0, 10.0])
def test_counts_add_up_to_one(size: float) -> None:
    several = np.arange(0.0, 80.0)
    for law in (count_near, counted):
        held = np.exp(law(several, size=np.array(size)))
        assert math.isclose(float(held.sum()), 1.0, rel_tol=1e-9)
    assert counted(np.array(size), size=np.array(size)) > math.log(0.97)
