"""Uncertainty helpers against the worked example of the guide."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.survey.uncertainty import (
    combine,
    coverage_factor,
    effective_freedom,
    from_half_width,
    from_resolution,
)


def test_end_gauge_of_the_guide():
    # JCGM 100:2008, H.1 (from memory): an end gauge of 50 mm, in nanometres. Standard 25 (18
    # freedoms), difference from 5.8 (24), 3.9 (5) and 6.7 (8), expansion 2.9 (50), temperature
    # 16.6 (2); u = 32 nm, 16 freedoms, t99 = 2.92, U99 = 93 nm.
    difference = combine((5.8, 3.9, 6.7))
    assert difference == pytest.approx(9.7, abs=0.05)
    assert effective_freedom((5.8, 3.9, 6.7), (24, 5, 8)) == pytest.approx(25.6, abs=0.2)
    parts = (25.0, 9.7, 2.9, 16.6)
    whole = combine(parts)
    assert whole**2 == pytest.approx(1002, abs=2)
    freedom = effective_freedom(parts, (18, 25.6, 50, 2))
    assert freedom == pytest.approx(16.7, abs=0.1)
    factor = coverage_factor(freedom, share=0.99)
    assert factor == pytest.approx(2.92, abs=0.005)
    assert factor * whole == pytest.approx(93, abs=1)


@pytest.mark.parametrize(
    ("freedom", "share", "k"),
    [(1, 0.95, 12.71), (5, 0.95, 2.57), (8, 0.99, 3.36), (20, 0.95, 2.09), (50, 0.99, 2.68)],
)
def test_students_t(freedom, share, k):
    # JCGM 100:2008, table G.2 (from memory).
    assert coverage_factor(freedom, share=share) == pytest.approx(k, abs=0.005)


@given(st.lists(st.floats(0.01, 10), min_size=1, max_size=6), st.floats(0.1, 10))
def test_laws(parts, factor):
    # Exact laws: scale carries through; the freedoms lie between the least and the sum.
    assert combine(parts, sensitivities=[factor] * len(parts)) == pytest.approx(
        factor * combine(parts)
    )
    freedoms = [i + 1.0 for i in range(len(parts))]
    assert 1 - 1e-9 <= effective_freedom(parts, freedoms) <= sum(freedoms) + 1e-9


def test_a_step_is_two_half_widths():
    assert from_resolution(0.5) == from_half_width(0.25) == pytest.approx(0.5 / math.sqrt(12))


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: from_half_width(-1),
        lambda: combine((1, 2), sensitivities=(1,)),
        lambda: effective_freedom((1, 2), (1, 0)),
        lambda: coverage_factor(0.5),
        lambda: coverage_factor(5, share=1.0),
    ],
)
def test_what_is_refused(wrong):
    with pytest.raises(BadInput):
        wrong()
