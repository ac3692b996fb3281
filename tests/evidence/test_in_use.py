"""Chances of being in use, against the normal law, an enumeration and cases worked by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from counterhoop.errors import BadInput
from counterhoop.evidence.in_use import span_weight, value_chances
from counterhoop.evidence.reference import End, Value

YEARS = np.arange(1930.0, 1991.0)


def value(
    name: str = "round",
    *,
    begins: tuple[float, float] | None = None,
    ends: tuple[float, float] | None = None,
    follows: str = "",
    share: float = 1.0,
) -> Value:
    return Value(
        family="Corvane", feature="badge", name=name, follows=follows, share=share,
        begins=End(year=begins[0], give=begins[1]) if begins else None,
        ends=End(year=ends[0], give=ends[1]) if ends else None,
        lines=(), diameters_mm=(), source="made up",
    )  # fmt: skip


END = st.none() | st.tuples(st.floats(1935, 1985), st.floats(0.5, 6.0))


@given(begins=END, ends=END)
def test_a_span_is_soft_by_the_normal_law(
    begins: tuple[float, float] | None, ends: tuple[float, float] | None
) -> None:
    """Independent implementation: scipy's normal distribution, years counted with their halves."""
    wanted = np.ones_like(YEARS)
    if begins:
        wanted *= norm.cdf(YEARS + 0.5, loc=begins[0], scale=begins[1])
    if ends:
        wanted *= norm.sf(YEARS - 0.5, loc=ends[0], scale=ends[1])
    found = span_weight(value(begins=begins, ends=ends), YEARS)
    assert found == pytest.approx(wanted, abs=1e-12)


@given(
    ends=st.lists(st.tuples(END, END, st.floats(0.01, 100.0)), min_size=1, max_size=4),
    unlisted=st.floats(0.01, 0.5),
)
def test_chances_are_mean_shares_over_every_set_in_use(
    ends: list[tuple[tuple[float, float] | None, tuple[float, float] | None, float]],
    unlisted: float,
) -> None:
    """Brute force: every set of values that may be in use, with its chance."""
    values = [
        value(str(at), begins=one[0], ends=one[1], share=one[2]) for at, one in enumerate(ends)
    ]
    weights = [span_weight(one, YEARS) for one in values]
    wanted = np.zeros((len(values) + 1, len(YEARS)))
    for states in product((0, 1), repeat=len(values)):
        chance = np.prod(
            [w if on else 1.0 - w for w, on in zip(weights, states, strict=True)], axis=0
        )
        shares = np.array([*(v.share * on for v, on in zip(values, states, strict=True)), unlisted])
        wanted += chance * (shares / shares.sum())[:, None]
    found = value_chances(values, YEARS, unlisted=unlisted)
    assert found == pytest.approx(wanted, abs=1e-7)
    assert found.sum(axis=0) == pytest.approx(1.0)


def test_three_that_overlap_by_hand() -> None:
    """By hand: one surely in use, two by even odds: 1/4 * 1 + 1/2 * 1/2 + 1/4 * 1/3 = 7/12.

    The ratio of the chances, 1 / (1 + 1/2 + 1/2), would be 1/2.
    """
    even = (1950.5, 1.0)
    values = [value("sure"), value("one", begins=even), value("other", begins=even)]
    found = value_chances(values, np.array([1950.0]), unlisted=1e-9)
    assert found[:, 0] == pytest.approx([7 / 12, 5 / 24, 5 / 24, 0.0], abs=1e-5)


def test_one_that_takes_over_leaves_no_gap_and_no_overlap() -> None:
    """By hand: at the change itself each is there by even odds, whatever the doubt."""
    first = value("first", ends=(1959.5, 3.0))
    second = value("second", begins=(1960.5, 3.0), follows="first")
    found = value_chances([first, second], np.array([1950.0, 1960.0]), unlisted=0.1)
    assert found[:, 1] == pytest.approx([0.5 / 1.1, 0.5 / 1.1, 0.1 / 1.1], abs=1e-3)
    loose = value("second", begins=(1960.5, 3.0))
    gap = value_chances([first, loose], np.array([1960.0]), unlisted=0.1)
    assert gap[2, 0] > found[2, 1] + 0.1


def test_before_anything_was_in_use_nothing_listed_is_likely() -> None:
    """Exact law: a value cannot be on what was made decades before it began."""
    found = value_chances([value(begins=(1960, 1))], np.array([1930.0]), unlisted=0.05)
    assert found[0, 0] < 1e-9


def test_a_long_row_of_values_that_take_over_is_no_trouble() -> None:
    """By hand: fifteen badges, four years each; in the middle of its years one leads."""
    chain = [value("0", ends=(1934, 1.0))]
    for at in range(1, 15):
        last = 1930.0 + 4 * (at + 1)
        chain.append(value(str(at), begins=(last - 3, 1.0), ends=(last, 1.0), follows=str(at - 1)))
    found = value_chances(chain, YEARS, unlisted=0.05)
    assert found[7, 1960 - 1930] == found[:, 1960 - 1930].max() > 0.85
    vague = [replace(one, ends=End(year=1960, give=50.0)) for one in chain]
    with pytest.raises(BadInput, match="hardly known"):
        value_chances(vague, YEARS, unlisted=0.05)
