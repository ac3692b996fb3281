"""The run of readings that steps off its neighbours, against every run tried in turn."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.survey.dial_crosscheck import reading_astray
from counterhoop.survey.round_stray import worst_stray


@given(st.lists(st.floats(-1, 1), min_size=8, max_size=24), st.data(), st.floats(20, 50))
def test_a_stray_run_against_brute_force(values, data, step):
    # Independent: every run tried in turn, its step by least squares over the fourth differences.
    count = len(values)
    first, long = data.draw(st.integers(0, count - 1)), data.draw(st.integers(1, count // 2))
    for k in range(long):
        values[(first + k) % count] += step
    table = np.array(
        [[(6, -4, 1, 0, 0)[min((i - j) % count, (j - i) % count, 4)] for j in range(count)]
         for i in range(count)], dtype=float,
    )  # fmt: skip
    if count == 8:
        table[abs(np.subtract.outer(range(8), range(8))) == 4] = 0.0
    rough = table @ values
    best = min(
        np.linalg.lstsq(u[:, None], rough, rcond=None)[1][0]
        for length in range(1, count // 2 + 1)
        for start in range(count)
        for u in [table @ np.roll(np.arange(count) < length, start).astype(float)]
    )
    found = worst_stray(values, longest=count // 2)
    assert found.left * (rough @ rough) == pytest.approx(best, rel=1e-6, abs=1e-6)
    assert (found.count, found.first if found.count < count / 2 else first) == (long, first)


def astray(heights):
    """Return what is said of heights by a feeler of 0.05."""
    count = len(heights)
    return reading_astray(
        [360.0 * k / count for k in range(count)],
        heights,
        names=[f"station {k}" for k in range(1, count + 1)],
        of="edge heights",
        least_mm=1.0,
        step_mm=0.05,
    )


@pytest.mark.parametrize("at", range(8))
def test_an_honest_rough_edge_of_eight_stations_holds_no_slip(at):
    # A tenth or two off the plate, worked by hand; a feeler of 0.05 shows no 0.02 to be misread.
    gaps = [0.0, -0.1, 0.0, -0.2, 0.0, -0.1, -0.1, 0.0]
    assert astray(gaps[at:] + gaps[:at]) is None


def test_a_gap_that_would_have_to_stand_out_is_no_slip():
    # 0.4 low between stations 0.05 high: 0.04 out was never meant.
    assert astray([0.05, 0.05, -0.4] + [0.05] * 9) is None
    # The same station with a gap that a feeler does show: 0.25 written as 2.5.
    found = astray([-0.25, -0.25, -2.5] + [-0.25] * 9)
    assert found is not None
    assert "one place too far right" in found.says
