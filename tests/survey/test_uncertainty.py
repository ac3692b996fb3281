"""Uncertainty helpers against the worked example of the guide."""

from __future__ import annotations

import math

import GTC
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


def test_the_end_gauge_against_another_program():
    # Independent: GTC carries value, uncertainty and freedoms through the guide's own model,
    # l = ls + d - ls (da t + as dt), with the figures of H.1 (from memory), in nanometres.
    standard = GTC.ureal(50_000_623, 25, 18)
    difference = GTC.ureal(215, 5.8, 24) + GTC.ureal(0, 3.9, 5) + GTC.ureal(0, 6.7, 8)
    expands = GTC.ureal(11.5e-6, from_half_width(2e-6))
    apart = GTC.ureal(0, from_half_width(1e-6), 50)
    warmer = GTC.ureal(0, from_half_width(0.05), 2)
    warm = GTC.ureal(-0.1, 0.2) + GTC.ureal(0, 0.5 / math.sqrt(2))
    gauge = standard + difference - standard * (apart * warm + expands * warmer)
    # The same from parts and sensitivities: at the mean only these four move the length.
    parts = (25.0, combine((5.8, 3.9, 6.7)), from_half_width(1e-6), from_half_width(0.05))
    moves = (1.0, 1.0, 50_000_623 * 0.1, 50_000_623 * 11.5e-6)
    whole = combine(parts, sensitivities=moves)
    freedom = effective_freedom(
        [m * p for m, p in zip(moves, parts, strict=True)],
        (18, effective_freedom((5.8, 3.9, 6.7), (24, 5, 8)), 50, 2),
    )
    assert whole == pytest.approx(GTC.uncertainty(gauge), rel=1e-9)
    assert whole == pytest.approx(31.66, abs=0.01)  # the guide prints 32
    assert freedom == pytest.approx(GTC.dof(gauge), rel=1e-9)
    assert math.floor(freedom) == 16
    for share in (0.95, 0.99):
        assert coverage_factor(freedom, share=share) == pytest.approx(
            GTC.reporting.k_factor(math.floor(freedom), 100 * share), abs=1e-3
        )


@given(
    st.lists(
        st.tuples(st.floats(0.01, 10), st.integers(2, 60), st.floats(-3, 3)),
        min_size=1,
        max_size=6,
    ).filter(lambda parts: any(abs(s) > 0.01 for _, _, s in parts))
)
def test_any_sum_against_another_program(parts):
    # Independent: GTC.
    total = sum(s * GTC.ureal(1.0, u, v) for u, v, s in parts)
    sizes, freedoms = [abs(s) * u for u, _, s in parts], [v for _, v, _ in parts]
    whole = combine([u for u, _, _ in parts], sensitivities=[s for _, _, s in parts])
    assert whole == pytest.approx(GTC.uncertainty(total), rel=1e-9)
    assert effective_freedom(sizes, freedoms) == pytest.approx(GTC.dof(total), rel=1e-6)


def test_at_the_bench():
    # By hand: a caliper within 0.03 mm, a tape within 0.5.
    assert from_half_width(0.03) == pytest.approx(0.017, abs=5e-4)
    assert from_half_width(0.5) == pytest.approx(0.29, abs=5e-3)


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
