"""The plan worked many times, against closed forms, quadrature, other luck and the plan itself.

Truth: scipy's lognormal, numerical integration, exact laws (Hypothesis), brute force.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats
from unsure_work import ALWAYS, chance, in_series, keys, unsure_shop

from counterhoop.errors import BadInput
from counterhoop.job.promise.finish_at import finish_at
from counterhoop.job.promise.luck import minutes_drawn
from counterhoop.job.promise.workings import WORKINGS, Workings, workings
from counterhoop.job.schedule.task import Shop
from counterhoop.job.schedule.work_through import work_through

SIGMAS = 4.0
"""How far a share may be off; draws that are dealt scatter no more than plain ones."""


def off(share: float, *counts: int) -> float:
    return SIGMAS * sqrt(sum(share * (1 - share) / count for count in counts))


@pytest.mark.parametrize("seed", range(4))
def test_sure_work_is_worked_as_planned(seed: int) -> None:
    tasks, _, shop = unsure_shop(seed, drums=5)
    sure = [replace(task, spread=0.0) for task in tasks]
    luck = chance(seed)
    order = [str(one) for one in luck.permutation(keys(sure))]
    held = [key for key in order if luck.random() < 0.2]
    plan = work_through(order, sure, shop, held=held)
    found = workings(plan.order, sure, shop, rng=luck, count=3, shared_spread=0.0, held=plan.held)
    for job in found.jobs:
        own = {task.key for task in sure if task.job == job}
        ready = max(one.cured for one in plan.placed if one.key in own)
        assert found.of(job).tolist() == [ready] * 3


@pytest.mark.parametrize("share", [0.1, 0.5, 0.8, 0.9])
@pytest.mark.parametrize(("spread", "shared"), [(0.4, 0.0), (0.4, 0.15), (0.0, 0.15), (1.0, 0.15)])
def test_one_piece_of_work_is_a_lognormal(spread: float, shared: float, share: float) -> None:
    tasks = in_series((600, spread))
    found = workings(keys(tasks), tasks, ALWAYS, rng=chance(1), count=4000, shared_spread=shared)
    truth = stats.lognorm(s=sqrt(spread**2 + shared**2), scale=600)
    at = finish_at(found.of("14"), share)
    # Whole minutes: half of one to either side.
    assert truth.cdf(at - 0.5) - off(share, 4000) <= share <= truth.cdf(at + 0.5) + off(share, 4000)


@pytest.mark.parametrize("shared", [0.0, 0.15])
@pytest.mark.parametrize("share", [0.2, 0.5, 0.8])
def test_two_in_series_are_a_convolution(share: float, shared: float) -> None:
    tasks = in_series((500, 0.5), (800, 0.3))
    found = workings(keys(tasks), tasks, ALWAYS, rng=chance(2), count=4000, shared_spread=shared)
    # Equally likely minutes of the first, and how often the second is done after each.
    first = stats.lognorm(s=0.5, scale=500).ppf((np.arange(4000) + 0.5) / 4000)
    second = stats.lognorm(s=0.3, scale=800)
    at = finish_at(found.of("14"), share)
    nodes, weights = np.polynomial.hermite_e.hermegauss(15)
    by_then = sum(
        weight * float(second.cdf(at / np.exp(shared * node) - first).mean())
        for node, weight in zip(nodes, weights, strict=True)
    ) / sqrt(2 * np.pi)
    assert by_then == pytest.approx(share, abs=off(share, 4000) + 0.002)


def held_in(seed: int, *, drums: int, count: int, told_by: int = WORKINGS) -> list[float]:
    """Return for each job the share of other workings done by the minute that 80 % gave."""
    tasks, _, shop = unsure_shop(seed, drums=drums)
    plan = work_through(keys(tasks), tasks, shop)
    told = workings(plan.order, tasks, shop, rng=chance(seed), count=told_by)
    came = workings(plan.order, tasks, shop, rng=chance(1000 + seed), count=count)
    return [float(np.mean(came.of(job) <= finish_at(told.of(job), 0.8))) for job in told.jobs]


def test_four_in_five_come_true_with_other_luck() -> None:
    for share in held_in(1, drums=4, count=1000, told_by=4000):
        assert share == pytest.approx(0.8, abs=off(0.8, 1000, 4000))


@pytest.mark.full
@pytest.mark.parametrize("seed", range(10))
def test_four_in_five_of_5000_come_true_within_two_percent(seed: int) -> None:
    for share in held_in(seed, drums=4 + 2 * (seed % 4), count=5000):
        assert share == pytest.approx(0.8, abs=0.02)


def test_a_minute_too_early_would_be_seen() -> None:
    """Without what the work of a job shares, four in five would not come true."""
    tasks = in_series(*[(60, 0.3)] * 8)
    told = workings(keys(tasks), tasks, ALWAYS, rng=chance(1), count=4000, shared_spread=0.0)
    came = workings(keys(tasks), tasks, ALWAYS, rng=chance(2), count=1000)
    share = float(np.mean(came.of("14") <= finish_at(told.of("14"), 0.8)))
    assert share < 0.8 - off(0.8, 1000, 4000)


SERIES = st.lists(st.tuples(st.integers(30, 300), st.floats(0.05, 0.6)), min_size=1, max_size=4)


@given(SERIES, st.floats(1.0, 3.0), st.integers(0, 99))
def test_more_spread_never_promises_earlier(
    pairs: list[tuple[int, float]], wider: float, seed: int
) -> None:
    """Exact for work in series, whole minutes apart.

    A working's sum is convex in the factor by which all spreads are widened: once above the
    sum of usual minutes, it only grows. So what lies at or above a quantile that is above that
    sum stays there.
    """
    tasks = in_series(*pairs)
    wide = [replace(task, spread=task.spread * wider) for task in tasks]
    least = finish_at(luck_of(tasks, seed, shared=0.15), 0.8)
    assume(least >= sum(task.minutes for task in tasks) + len(tasks))
    most = finish_at(luck_of(wide, seed, shared=0.15 * wider), 0.8)
    assert most >= least - len(tasks)
    if len(tasks) == 1:
        assert most >= least


def luck_of(tasks: list, seed: int, *, shared: float) -> np.ndarray:
    return workings(
        keys(tasks), tasks, ALWAYS, rng=chance(seed), count=200, shared_spread=shared
    ).of("14")


@pytest.mark.parametrize("seed", range(3))
def test_in_a_shop_more_spread_is_later_for_all_jobs(seed: int) -> None:
    tasks, _, shop = unsure_shop(seed, drums=4)
    order = work_through(keys(tasks), tasks, shop).order
    finishes = []
    for wider in (0.5, 1.0, 2.0):
        work = [replace(task, spread=task.spread * wider) for task in tasks]
        found = workings(order, work, shop, rng=chance(5), count=400, shared_spread=0.15 * wider)
        finishes.append([finish_at(found.of(job), 0.8) for job in found.jobs])
    assert np.all(np.diff(finishes, axis=0) >= 0)


def test_what_comes_in_changes_no_luck_of_what_is_there() -> None:
    old, new = in_series((60, 0.3), (90, 0.5)), in_series((45, 0.4), job="15")
    alone = minutes_drawn(old, rng=chance(3), count=50, shared_spread=0.15)
    both = minutes_drawn([*old, *new], rng=chance(3), count=50, shared_spread=0.15)
    assert (both[:, :2] == alone).all()
    assert len(set(both[:, 2])) > 10


def test_work_of_one_job_is_slow_together_and_of_two_jobs_is_not() -> None:
    """ln minutes of two in one job correlate as shared^2 / (shared^2 + spread^2)."""
    tasks = [*in_series((6000, 0.3), (6000, 0.3)), *in_series((6000, 0.3), job="15")]
    drawn = minutes_drawn(tasks, rng=chance(4), count=20_000, shared_spread=0.15)
    related = np.corrcoef(np.log(drawn), rowvar=False)
    assert related[0, 1] == pytest.approx(0.15**2 / (0.15**2 + 0.3**2), abs=SIGMAS / sqrt(20_000))
    assert related[0, 2] == pytest.approx(0.0, abs=SIGMAS / sqrt(20_000))
    assert np.log(drawn).std(axis=0) == pytest.approx(sqrt(0.15**2 + 0.3**2), rel=0.02)


def test_the_same_luck_works_the_same() -> None:
    tasks, _, shop = unsure_shop(2, drums=3)

    def again(seed: int) -> Workings:
        return workings(keys(tasks), tasks, shop, rng=chance(seed), count=20)

    assert (again(1).finish_min == again(1).finish_min).all()
    assert (again(1).finish_min != again(2).finish_min).any()


def test_workings_that_run_over_the_hours_given_are_not_done() -> None:
    tasks = in_series((60, 0.0), (60, 1.0))
    shop = Shop(open=((0, 120),), clamps=0, drying=0)
    found = workings(keys(tasks), tasks, shop, rng=chance(1), count=400, shared_spread=0.0)
    # Half take longer than usual; whole minutes let up to half of one more through.
    assert np.isinf(found.of("14")).mean() == pytest.approx(0.5, abs=0.02)
    assert finish_at(found.of("14"), 0.4) <= 120.0
    assert finish_at(found.of("14"), 0.8) == np.inf


def test_what_cannot_be_worked_is_refused() -> None:
    tasks = in_series((60, 0.1))
    for changes, says in (
        ({"order": ["14/0", "14/0"]}, "all work once"),
        ({"count": 0}, "at least once"),
        ({"shared_spread": -0.1}, "below nothing"),
    ):
        given_so = {"order": keys(tasks), "count": 2, "shared_spread": 0.1} | changes
        with pytest.raises(BadInput, match=says):
            workings(tasks=tasks, shop=ALWAYS, rng=chance(1), **given_so)
    with pytest.raises(BadInput, match="no work in the plan"):
        workings(keys(tasks), tasks, ALWAYS, rng=chance(1), count=2).of("15")
