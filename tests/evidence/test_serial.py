"""Serial numbers: the curve against scipy, the strays against every subset, the spans counted."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator
from scipy.optimize import isotonic_regression
from simulated_series import PACES, example, series_level

from counterhoop.errors import BadInput
from counterhoop.evidence.reference import SerialExample
from counterhoop.evidence.rows import read_number
from counterhoop.evidence.serial import out_of_order, serial_year
from counterhoop.evidence.serial_curve import serial_curve

ROWS = st.lists(
    st.tuples(st.integers(1, 50_000), st.integers(1940, 1970)),
    min_size=5, max_size=20, unique_by=lambda row: row[0],
)  # fmt: skip


@given(ROWS, st.integers(1, 50_000))
def test_the_curve_is_scipys(rows: list[tuple[int, int]], number: int) -> None:
    """Independent implementations: isotonic_regression, then PchipInterpolator, of scipy."""
    rows.sort()
    numbers, years = np.array(rows, dtype=float).T
    curve = serial_curve([example(*row) for row in rows])
    level = isotonic_regression(years).x
    assert curve.years == pytest.approx(level)
    if numbers[0] <= number <= numbers[-1]:
        assert curve.centre(number) == pytest.approx(
            float(PchipInterpolator(numbers, level)(number))
        )


def test_a_curve_by_hand() -> None:
    """By hand: 1955 and 1953 out of order become 1954 twice; known to half a year counts 8/5 more.

    Weights are 1 / (give^2 + 1): 1/2 against 4/5, so the mean is (955/2 + 4 * 953/5) / (13/10).
    """
    rows = [example(10, 1950), example(20, 1955), example(30, 1953), example(40, 1960)]
    assert serial_curve(rows).years == pytest.approx([1950, 1954, 1954, 1960])
    rows[2] = example(30, 1953, give=0.5)
    pooled = (1955 * 0.5 + 1953 * 0.8) / 1.3
    assert serial_curve(rows).years == pytest.approx([1950, pooled, pooled, 1960])


@given(ROWS)
def test_a_higher_number_is_not_earlier(rows: list[tuple[int, int]]) -> None:
    """Exact law."""
    curve = serial_curve([example(*row) for row in rows])
    centres = [curve.centre(number) for number in range(1, 50_000, 997)]
    assert all(later >= sooner - 1e-9 for sooner, later in pairwise(centres))


@given(
    st.lists(
        st.tuples(st.integers(1, 999), st.integers(1950, 1960), st.sampled_from([0.0, 1.0])),
        min_size=4, max_size=8, unique_by=lambda row: row[0],
    )
)  # fmt: skip
def test_strays_are_the_fewest_that_break_the_order(rows: list[tuple[int, int, float]]) -> None:
    """Brute force over subsets in which each neighbour is in order."""
    rows.sort()
    examples = [example(number, year, give=give) for number, year, give in rows]
    found = out_of_order(examples, serial_curve(examples))

    def in_order(kept: tuple[SerialExample, ...]) -> bool:
        return all(
            one.year - next_.year <= 2.0 * math.hypot(one.give, next_.give)
            for one, next_ in pairwise(kept)
        )

    fewest = next(
        drop
        for drop in range(len(examples))
        if any(in_order(kept) for kept in combinations(examples, len(examples) - drop))
    )
    assert len(found) == fewest
    assert in_order(tuple(one for one in examples if one not in found))


def test_a_stray_is_shown_and_counts_all_the_same() -> None:
    rows = [example(1000 * at, 1950 + at, give=0.5) for at in range(1, 11)]
    rows[5] = example(6000, 1969, give=0.5)
    found = serial_year("6 500", rows)
    assert found.out_of_order == (rows[5],)
    assert any("6000 is dated 1969" in line for line in found.says)
    without = serial_year("6 500", rows[:5] + rows[6:])
    assert found.spans[0.8].wide > without.spans[0.8].wide
    assert found.curve.centre(6500) != pytest.approx(without.curve.centre(6500))


def test_beyond_the_examples_the_doubt_grows_and_is_said() -> None:
    rows = [example(1000 * at, 1950 + at) for at in range(1, 11)]
    inside, beyond = serial_year("5500", rows), serial_year("18000", rows)
    assert (inside.beyond, beyond.beyond) == ("", "after the last")
    assert beyond.spans[0.95].wide > 2 * inside.spans[0.95].wide
    assert any("after the last dated one" in line for line in beyond.says)


def test_only_its_own_series_counts() -> None:
    rows = [example(1000 * at, 1950 + at) for at in range(1, 6)]
    others = [example(1000 * at, 1970 + at, prefix="B") for at in range(1, 6)]
    found = serial_year("b 3000", rows + others)
    assert found.spans[0.95].first > 1965


@pytest.mark.parametrize(
    ("number", "says"),
    [
        ("", "not a serial number"),
        ("12-B", "not a serial number"),
        ("X 100", "too few dated"),
        ("99999999", "far from"),
    ],
)
def test_a_number_that_cannot_be_used_is_refused(number: str, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        serial_year(number, [example(1000 * at, 1950 + at) for at in range(1, 6)])


def test_numbers_are_read_as_they_stand() -> None:
    assert read_number(" b-10.432 ") == ("B", 10432)


@pytest.mark.parametrize(
    ("count", "within"),
    [(60, 0.21), pytest.param(4_000, 0.02, marks=pytest.mark.full)],
    ids=["few", "many"],
)
@pytest.mark.parametrize("pace", PACES)
def test_spans_of_numbers_hold_the_year(pace: str, count: int, within: float) -> None:
    """Simulated series: their own years. Few: four standard errors of a share."""
    level = series_level(pace=pace, count=count, seed=11)
    assert abs(level.off) <= within
