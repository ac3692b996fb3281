"""The run of readings that steps off its neighbours, against every run tried in turn."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

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
