"""What a list of work takes in all, held against simulated jobs."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from counterhoop.errors import BadInput
from counterhoop.job.hours.belief import Belief, believed
from counterhoop.job.hours.hours_said import HoursSaid, hours_of
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.hours.sum_of_work import percentiles_of
from counterhoop.shell.operations import operations

BOOK = {one.name: believed(one, ()) for one in operations()}
SNARE = (
    *(("photograph and book in", 1), ("survey a drum", 1), ("strip a drum", 1)),
    *(("soak and clean a lug", 10), ("clean a hoop", 2), ("plug a hole", 9)),
    *(("true an edge", 2), ("lay out a row", 1), ("drill a hole", 20), ("fit a lug", 10)),
    *(("put on hoop and head", 2), ("tune a drum", 1), ("pack a drum", 1)),
)


def belief(median_min: float, spread: float) -> Belief:
    return Belief(operation="x", median_min=median_min, spread=spread, times=0, whose="the book's")


def hours(*times: tuple[float, float]) -> HoursSaid:
    beliefs = {str(place): belief(*one) for place, one in enumerate(times)}
    return hours_of([(name, 1) for name in beliefs], beliefs)


WIDE = {
    "one line": [(60.0, 0.36)],
    "one very wide": [(60.0, 1.2)],
    "one wide, one narrow": [(100.0, 0.3), (100.0, 1.0)],
    "one wide among small ones": [(100.0, 0.8), (10.0, 0.3), (10.0, 0.3)],
    "one sure, one not": [(600.0, 0.0), (60.0, 0.5)],
    "a small one beside a big one": [(600.0, 0.4), (1.0, 1.2)],
    "ten very wide": [(10.0, 1.2)] * 10,
    "a whole drum": [(n * BOOK[name].median_min, BOOK[name].spread) for name, n in SNARE],
}


@pytest.mark.parametrize("times", WIDE.values(), ids=WIDE.keys())
def test_the_interval_is_that_of_simulated_jobs(times: list[tuple[float, float]]) -> None:
    # 200,000 simulated jobs; evenly spread chances for the widest line of each keep the
    # simulation's own doubt well below the 1 % that is asked for.
    random = np.random.default_rng(90)
    count = 200_000
    even = stats.norm.ppf((random.permutation(count) + 0.5) / count)
    widest = max(range(len(times)), key=lambda k: times[k][0] * math.sinh(times[k][1]))
    total = sum(
        median * np.exp(spread * (even if k == widest else random.standard_normal(count)))
        for k, (median, spread) in enumerate(times)
    ) * np.exp(SHARED_SPREAD * random.standard_normal(count))
    said = hours(*times)
    found = (said.quick_min, said.usual_min, said.slow_min)
    assert found == pytest.approx(np.quantile(total, [0.1, 0.5, 0.9]), rel=0.01)
    assert said.mean_min == pytest.approx(total.mean(), rel=0.01)


@pytest.mark.parametrize("spread", [0.0, 0.02, 0.3, 0.7, 1.2])
def test_one_line_alone_is_a_lognormal_of_both_spreads(spread: float) -> None:
    # Exact law: the product of two lognormals is one, their variances add.
    law = stats.lognorm(s=math.hypot(spread, SHARED_SPREAD), scale=45.0)
    found = percentiles_of([(45.0, spread)], percents=(1, 10, 50, 90, 95))
    assert found == pytest.approx(law.ppf([0.01, 0.1, 0.5, 0.9, 0.95]), rel=0.006)


def test_many_lines_cannot_make_the_shared_factor_small() -> None:
    # Exact law in the limit: what is shared does not average out; independent sums would.
    many = hours(*[(10.0, 0.4)] * 40)
    reach = math.log(many.slow_min / many.quick_min) / (2 * stats.norm.ppf(0.9))
    alone = math.sqrt(math.log1p(math.expm1(0.16) / 40))
    assert reach == pytest.approx(math.hypot(SHARED_SPREAD, alone), rel=0.01)
    assert reach > 2 * alone


@given(
    times=st.lists(st.tuples(st.floats(1, 200), st.floats(0.05, 1.0)), min_size=1, max_size=5),
    factor=st.floats(0.1, 10),
)
@settings(max_examples=15, deadline=None)
def test_times_in_another_measure_give_the_same_hours(
    times: list[tuple[float, float]], factor: float
) -> None:
    one = percentiles_of(times, percents=(10, 50, 90))
    other = percentiles_of([(median * factor, spread) for median, spread in times],
                           percents=(10, 50, 90))  # fmt: skip
    assert other == pytest.approx([factor * minutes for minutes in one], rel=1e-6)
    assert one[0] < one[1] < one[2]


def test_lines_say_their_own_figures_and_whose_they_are() -> None:
    said = hours_of([("drill a hole", 20), ("tune a drum", 1)], BOOK)
    drill, tune = said.lines
    assert (drill.operation, drill.count, drill.whose) == ("drill a hole", 20, "the book's")
    assert drill.usual_min == pytest.approx(120.0)
    assert drill.quick_min == pytest.approx(20 * BOOK["drill a hole"].quick_min)
    assert tune.usual_min == pytest.approx(25.0)
    assert said.usual_min >= drill.usual_min + tune.usual_min


def test_no_work_takes_no_time() -> None:
    for works in ([], [("drill a hole", 0)]):
        said = hours_of(works, BOOK)
        assert (said.quick_min, said.usual_min, said.slow_min, said.mean_min) == (0, 0, 0, 0)
    assert hours((0.0, 0.0), (30.0, 0.3)).usual_min == hours((30.0, 0.3)).usual_min


def test_work_that_nobody_knows_is_refused() -> None:
    with pytest.raises(BadInput, match="nobody has said how long this takes: found 'bend'"):
        hours_of([("bend", 1)], BOOK)
    with pytest.raises(BadInput, match="drill a hole: less than none"):
        hours_of([("drill a hole", -1)], BOOK)
