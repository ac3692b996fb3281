"""Weighted quantiles against numpy, against repeated readings, and by exact laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.job.trade.weighted import effective_number, weighted_median, weighted_quantile

READINGS = st.lists(
    st.tuples(st.integers(-50, 50), st.integers(0, 6)), min_size=1, max_size=12
).filter(lambda readings: any(weight for _, weight in readings))
SHARES = st.integers(0, 100).map(lambda hundredth: hundredth / 100)


def arrays(readings: list[tuple[int, int]]) -> tuple[np.ndarray, np.ndarray]:
    values, weights = zip(*readings, strict=True)
    return np.array(values, dtype=float), np.array(weights, dtype=float)


def repeated(readings: list[tuple[int, int]]) -> np.ndarray:
    return np.array([float(v) for v, w in readings for _ in range(w)])


@given(READINGS, SHARES)
def test_a_whole_weight_is_a_reading_said_so_often(
    readings: list[tuple[int, int]], share: float
) -> None:
    """Brute force: the smallest reading with enough at or below it, counted one by one."""
    every = sorted(repeated(readings))
    by_hand = next(v for v in every if sum(o <= v for o in every) >= share * len(every) - 1e-9)
    assert weighted_quantile(*arrays(readings), share=share) == by_hand


@given(READINGS, st.integers(1, 99))
def test_quantiles_agree_with_numpy(readings: list[tuple[int, int]], hundredth: int) -> None:
    """Independent implementation; shares that fall between two readings, where it is sure."""
    values, weights = arrays(readings)
    share = (hundredth + 0.5) / 100 + 1e-4
    theirs = np.quantile(values, share, weights=weights, method="inverted_cdf")
    assert weighted_quantile(values, weights, share=share) == theirs


@given(READINGS)
def test_the_median_agrees_with_numpy_and_turns_with_the_signs(
    readings: list[tuple[int, int]],
) -> None:
    values, weights = arrays(readings)
    assert weighted_median(values, weights) == np.median(repeated(readings))
    assert weighted_median(-values, weights) == -weighted_median(values, weights)


@given(READINGS, SHARES, st.integers(0, 11), st.integers(1, 30))
def test_a_reading_that_rises_never_lowers_the_quantile(
    readings: list[tuple[int, int]], share: float, which: int, rise: int
) -> None:
    values, weights = arrays(readings)
    raised = values.copy()
    raised[which % len(values)] += rise
    assert weighted_quantile(raised, weights, share=share) >= weighted_quantile(
        values, weights, share=share
    )


@given(READINGS, st.integers(0, 11), st.integers(1, 30))
def test_more_weight_draws_the_median_its_way(
    readings: list[tuple[int, int]], which: int, more: int
) -> None:
    values, weights = arrays(readings)
    at = which % len(values)
    heavier = weights.copy()
    heavier[at] += more
    before, after = weighted_median(values, weights), weighted_median(values, heavier)
    assert abs(values[at] - after) <= abs(values[at] - before)
    assert (after - before) * (values[at] - before) >= 0.0


@given(READINGS, st.floats(1e-9, 1e9))
def test_the_effective_number_counts_readings_and_not_their_unit(
    readings: list[tuple[int, int]], unit: float
) -> None:
    _, weights = arrays(readings)
    effective = effective_number(weights)
    assert 1.0 - 1e-9 <= effective <= np.count_nonzero(weights) + 1e-9
    assert effective_number(unit * weights) == pytest.approx(effective)
    assert effective_number(np.concatenate([weights, weights])) == pytest.approx(2 * effective)
