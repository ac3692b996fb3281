"""The odds of years as steps: where they stand, and what they stand for."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.papers.drawing.records import Line, Path
from counterhoop.papers.years_plot import AROUND_YEARS, draw_years


@given(
    st.lists(st.floats(0.001, 1.0), min_size=5, max_size=60),
    st.floats(80.0, 180.0),
)
def test_the_steps_hold_the_odds_and_the_bars_the_spans(weights: list[float], wide: float) -> None:
    """Exact law: heights are as the odds, one step to a year; a bar covers its years, no more."""
    whole = sum(weights)
    p = [one / whole for one in weights]
    years = [1950.0 + at for at in range(len(p))]
    spans = {0.5: (1951, 1952), 0.8: (1951, 1953), 0.95: (1950, 1953)}
    drawn = draw_years(years, p, spans=spans, wide_mm=wide)
    (steps,) = [one for one in drawn.strokes if isinstance(one, Path)]
    first, last = 1950, min(1953 + AROUND_YEARS, int(years[-1]))
    bottom = steps.points[0][1]
    tops = [bottom - y for _, y in steps.points[1:-1:2]]
    assert len(tops) == last - first + 1
    shown = p[: last - first + 1]
    for high, odds in zip(tops, shown, strict=True):
        assert high * max(shown) == pytest.approx(max(tops) * odds, abs=1e-6)
    year_mm = (steps.points[-1][0] - steps.points[0][0]) / len(tops)
    for odds, (begins, ends) in spans.items():
        (bar,) = [
            one for one in drawn.strokes
            if isinstance(one, Line) and one.ident == f"years-{round(100 * odds)}"
        ]  # fmt: skip
        assert bar.x2_mm - bar.x1_mm == pytest.approx((ends - begins + 1) * year_mm)
        assert f"With odds of {round(100 * odds)} % made from {begins} to {ends}." in drawn.says
        assert bar.y1_mm < drawn.height_mm
