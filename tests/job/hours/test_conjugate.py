"""A normal of unknown mean and spread, one reading after the other."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from counterhoop.job.hours.conjugate import NormalGuess, guess_of

PRIOR = NormalGuess(mean=0.0, weight=2.0, shape=3.0, scale=2.0)


def after(readings: list[float], guess: NormalGuess = PRIOR) -> NormalGuess:
    for reading in readings:
        guess = guess.learn(reading)
    return guess


def test_two_readings_worked_by_hand() -> None:
    # By the closed form for n readings at once: mean (2 x 0 + 2 x 2) / 4, weight 2 + 2, shape
    # 3 + 2/2, scale 2 + (1 + 1) / 2 + 2 x 2 x 2^2 / (2 x 4). Murphy 2007, eq. 200 and after;
    # Gelman and others, section 3.3 (both from memory).
    found = after([1.0, 3.0])
    assert found.mean == pytest.approx(1.0)
    assert found.weight == pytest.approx(4.0)
    assert found.shape == pytest.approx(4.0)
    assert found.scale == pytest.approx(5.0)


def test_the_posterior_is_that_of_bayes_rule_on_a_grid() -> None:
    # Brute force: prior times likelihood over a fine grid of mean and variance, scipy's densities.
    readings = [0.4, -0.3, 1.1, 0.8]
    mean, variance = np.meshgrid(np.linspace(-6, 6, 1201), np.geomspace(0.01, 200.0, 1500))
    weight = stats.invgamma.pdf(variance, PRIOR.shape, scale=PRIOR.scale)
    weight *= stats.norm.pdf(mean, PRIOR.mean, np.sqrt(variance / PRIOR.weight))
    for reading in readings:
        weight *= stats.norm.pdf(reading, mean, np.sqrt(variance))
    weight *= variance  # the grid of variances is even in their logarithm
    weight /= weight.sum()
    found = after(readings)
    assert (weight * mean).sum() == pytest.approx(found.mean, abs=1e-4)
    middle = (weight * mean).sum()
    next_variance = (weight * (variance + (mean - middle) ** 2)).sum()
    assert math.sqrt(next_variance) == pytest.approx(found.spread, rel=2e-3)


def test_the_spread_is_that_of_the_next_readings_student_t() -> None:
    # Independent: scipy's Student t, with the scale that the textbooks give for the next reading.
    found = after([0.5, 0.1, 0.9])
    scale = math.sqrt(found.scale * (found.weight + 1.0) / (found.shape * found.weight))
    assert found.spread == pytest.approx(stats.t(2.0 * found.shape, scale=scale).std())


@given(readings=st.lists(st.floats(-5, 5), min_size=1, max_size=12), data=st.data())
@settings(max_examples=50, deadline=None)
def test_the_order_of_readings_changes_nothing(readings: list[float], data: st.DataObject) -> None:
    other = data.draw(st.permutations(readings))
    one, two = after(readings), after(list(other))
    assert one.mean == pytest.approx(two.mean, abs=1e-9)
    assert one.scale == pytest.approx(two.scale, abs=1e-9)


@given(mean=st.floats(-5, 5), spread=st.floats(0.01, 3), weight=st.floats(0.1, 9))
@settings(max_examples=50, deadline=None)
def test_a_guess_has_the_spread_that_it_was_made_with(
    mean: float, spread: float, weight: float
) -> None:
    made = guess_of(mean=mean, spread=spread, weight=weight, shape=3.0)
    assert made.spread == pytest.approx(spread)
