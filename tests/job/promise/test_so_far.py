"""What is left of work in hand, and what finished work tells of the rest of its job.

Truth: scipy's lognormal, the law of the median far out in the tail, drawing and throwing away
what does not fit, and a posterior summed up on a grid.
"""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from unsure_work import chance, in_series

from counterhoop.errors import BadInput
from counterhoop.job.promise.luck import minutes_drawn
from counterhoop.job.promise.so_far import Begun, left_of

(PLUG,) = in_series((60, 0.4))


@pytest.mark.parametrize("worked_min", [0.0, 1.0, 30.0, 60.0, 90.0, 150.0, 300.0])
def test_half_of_those_that_take_longer_take_so_much_longer(worked_min: float) -> None:
    truth = stats.lognorm(s=0.4, scale=60)
    expected = truth.isf(truth.sf(worked_min) / 2) - worked_min
    assert left_of(PLUG, worked_min) == pytest.approx(expected, rel=1e-9)


@given(st.integers(1, 1000), st.floats(0.05, 1.5), st.floats(0.0, 1e6))
def test_by_then_half_are_done_however_long_it_has_taken(
    minutes: int, spread: float, worked_min: float
) -> None:
    task = replace(PLUG, minutes=minutes, spread=spread)
    left = left_of(task, worked_min)
    assert left >= 1.0
    if left == 1.0:
        return

    def above(minute: float) -> float:
        return float(stats.norm.logsf(log(minute / minutes) / spread)) if minute else 0.0

    # A float's last digit of hours, where the tail falls steeply, is a little of the half.
    assert above(worked_min + left) - above(worked_min) == pytest.approx(-log(2), rel=1e-6)


def test_sure_work_is_subtracted() -> None:
    assert left_of(replace(PLUG, spread=0.0), 20.0) == 40.0
    assert left_of(replace(PLUG, spread=0.0), 100.0) == 1.0


def drawn(begun: list[Begun], tasks: list, *, seed: int = 1, shared: float = 0.15) -> np.ndarray:
    return minutes_drawn(
        tasks, rng=chance(seed), count=20_000, shared_spread=shared, so_far=begun
    ).astype(float)


def alike(one: np.ndarray, two: np.ndarray) -> float:
    return float(stats.ks_2samp(one, two).pvalue)


@pytest.mark.parametrize("worked_min", [0.0, 5_000.0, 9_000.0])
def test_work_in_hand_is_what_remains_of_all_luck_that_fits(worked_min: float) -> None:
    """Against luck drawn without knowing, of which only what takes longer is kept.

    The next work of the job is slower then too, for the factor that they share.
    """
    one, two = in_series((6000, 0.3), (6000, 0.2))
    luck = np.random.default_rng(7).standard_normal((3, 400_000))
    first = 6000 * np.exp(0.25 * luck[0] + 0.3 * luck[1])
    second = 6000 * np.exp(0.25 * luck[0] + 0.2 * luck[2])
    fits = first > worked_min
    found = drawn([Begun(task=one, worked_min=worked_min)], [one, two], shared=0.25)
    assert alike(found[:, 0], first[fits] - worked_min) > 0.001
    assert alike(found[:, 1], second[fits]) > 0.001
    together = np.corrcoef(np.log(found + np.array([worked_min, 0.0])), rowvar=False)[0, 1]
    truth = np.corrcoef(np.log(first[fits]), np.log(second[fits]))[0, 1]
    assert together == pytest.approx(truth, abs=4 / sqrt(20_000) + 4 / sqrt(fits.sum()))
    if worked_min:
        assert alike(found[:, 1], second) < 1e-6


def test_finished_work_tells_of_the_rest_of_its_job_and_of_no_other() -> None:
    """Against the posterior of the shared factor summed up on a grid."""
    one, two, three = in_series((6000, 0.3), (3000, 0.5), (6000, 0.0))
    other = replace(three, key="15/0", job="15", after=())
    begun = [
        Begun(task=one, worked_min=9000.0, finished=True),
        Begun(task=two, worked_min=4500.0, finished=True),
    ]
    found = np.log(drawn(begun, [three, other]) / 6000)
    grid = np.linspace(-1.5, 1.5, 6001)
    chances = stats.norm.pdf(grid, 0, 0.15)
    chances *= stats.norm.pdf(log(1.5), grid, 0.3) * stats.norm.pdf(log(1.5), grid, 0.5)
    chances /= chances.sum()
    mean = float(chances @ grid)
    sigma = sqrt(float(chances @ (grid - mean) ** 2))
    assert mean > 0.05
    assert found[:, 0].mean() == pytest.approx(mean, abs=4 * sigma / sqrt(20_000))
    assert found[:, 0].std() == pytest.approx(sigma, rel=0.02)
    assert found[:, 1].mean() == pytest.approx(0.0, abs=4 * 0.15 / sqrt(20_000))
    assert found[:, 1].std() == pytest.approx(0.15, rel=0.02)


def test_a_wild_time_moves_the_rest_no_more_than_threefold_does() -> None:
    one, two = in_series((6000, 0.3), (6000, 0.2))
    wild, three = (
        drawn([Begun(task=one, worked_min=minutes, finished=True)], [two])
        for minutes in (600_000.0, 18_000.0)
    )
    assert (wild == three).all()


def test_sure_work_that_took_another_time_tells_nothing_of_the_job() -> None:
    one, two = in_series((60, 0.0), (6000, 0.2))
    told = drawn([Begun(task=one, worked_min=90.0, finished=True)], [two])
    assert (told == drawn([], [two])).all()


def test_sure_work_in_hand_is_what_is_left() -> None:
    one = replace(PLUG, spread=0.0)
    found = drawn([Begun(task=one, worked_min=25.0)], [one], shared=0.0)
    assert set(found[:, 0]) == {35.0}


@pytest.mark.parametrize(
    ("begun", "says"),
    [
        ([Begun(task=PLUG, worked_min=9.0, finished=True)], "stands in the plan no more"),
        ([Begun(task=replace(PLUG, key="x"), worked_min=9.0)], "work in hand does"),
        ([Begun(task=replace(PLUG, job="15"), worked_min=9.0)], "for its job"),
        ([Begun(task=PLUG, worked_min=9.0)] * 2, "in hand"),
    ],
)
def test_what_cannot_have_been_begun_is_refused(begun: list[Begun], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        drawn(begun, [PLUG])


def test_work_takes_time() -> None:
    with pytest.raises(BadInput, match="takes some time"):
        Begun(task=PLUG, worked_min=0.0, finished=True)
    with pytest.raises(BadInput, match="takes some time"):
        left_of(PLUG, -1.0)
    for never in (float("inf"), float("nan")):
        with pytest.raises(BadInput, match="takes some time"):
            Begun(task=PLUG, worked_min=never)
        with pytest.raises(BadInput, match="takes some time"):
            left_of(PLUG, never)
