"""The choice of pitches. Truth: brute force over every choice of small kits; exact laws."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from counts import cases
from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.even_steps import Range, even_steps, stuck_at


@st.composite
def ranges(draw, most=14, drums=4):
    made = []
    for _ in range(draw(st.integers(1, drums))):
        low = draw(st.integers(0, most))
        high = draw(st.integers(low, min(low + 8, most + 4)))
        made.append(Range(low=low, high=high, middle=draw(st.integers(low, high))))
    return made


def worth(choice, given_ranges):
    steps = [high - low for low, high in pairwise(choice)]
    spread = max(steps) - min(steps) if steps else 0
    off = sum((at - one.middle) ** 2 for at, one in zip(choice, given_ranges, strict=True))
    return spread, off


@cases(60)
@given(given_ranges=ranges(), least=st.integers(0, 3))
def test_no_other_choice_is_better(given_ranges, least):
    every = [
        choice
        for choice in product(*(range(one.low, one.high + 1) for one in given_ranges))
        if all(high - low >= least for low, high in pairwise(choice))
    ]
    found = even_steps(given_ranges, least=least)
    if not every:
        assert found is None
        return
    assert found in every
    assert worth(found, given_ranges) == min(worth(choice, given_ranges) for choice in every)


def test_the_comparison_can_fail():
    three = [Range(low=0, high=9, middle=4)] * 3
    best = even_steps(three, least=1)
    assert best == (3, 4, 5)
    assert worth((2, 4, 5), three) > worth(best, three)


@settings(max_examples=60, deadline=None)
@given(given_ranges=ranges(most=60, drums=8), up=st.integers(-500, 500))
def test_a_kit_moved_as_a_whole(given_ranges, up):
    # Exact law: nothing but differences counts.
    moved = [
        Range(low=one.low + up, high=one.high + up, middle=one.middle + up) for one in given_ranges
    ]
    found = even_steps(given_ranges)
    assert even_steps(moved) == (None if found is None else tuple(at + up for at in found))


@settings(max_examples=80, deadline=None)
@given(given_ranges=ranges(most=40, drums=6), least=st.integers(0, 9))
def test_why_nothing_fits(given_ranges, least):
    # Exact: the two drums that are named leave no room, whatever the others do.
    if even_steps(given_ranges, least=least) is not None:
        with pytest.raises(BadInput, match="all steps fit"):
            stuck_at(given_ranges, least=least)
        return
    upper, lower = stuck_at(given_ranges, least=least)
    assert given_ranges[upper].high < given_ranges[lower].low + (upper - lower) * least
