"""The order of drums. Truth: brute force over every order of small kits."""

from __future__ import annotations

from itertools import combinations, permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from counterhoop.heads.even_steps import Range, even_steps
from counterhoop.heads.rising_order import rising_order


@st.composite
def ranges(draw):
    made = []
    for _ in range(draw(st.integers(1, 5))):
        low = draw(st.integers(0, 14))
        made.append(Range(low=low, high=low + draw(st.integers(0, 6)), middle=low))
    return made


def turned(order):
    return sum(one > other for one, other in combinations(order, 2))


@settings(max_examples=60, deadline=None)
@given(given_ranges=ranges(), least=st.integers(0, 5), first=st.booleans(), last=st.booleans())
def test_no_order_that_fits_is_less_changed(given_ranges, least, first, last):
    count = len(given_ranges)
    fitting = [
        order
        for order in permutations(range(count))
        if not (first and order[0] != 0)
        and not (last and order[-1] != count - 1)
        and even_steps([given_ranges[place] for place in order], least=least) is not None
    ]
    found = rising_order(given_ranges, least=least, first=first, last=last)
    assert (found is None) == (not fitting)
    if found is not None:
        assert found in fitting
        assert turned(found) == min(map(turned, fitting))


def test_the_comparison_can_fail():
    # By hand: the first can only stand above the second, so one pair is turned round.
    low, high = Range(low=0, high=3, middle=1), Range(low=5, high=9, middle=7)
    assert rising_order([high, low], least=1) == (1, 0)
    assert turned((1, 0)) == 1 > turned((0, 1))
    assert rising_order([high, low], least=1, first=True) is None
