"""Strokes matched to rods.

Truth: rounds of taps as a hand makes them, with what goes wrong put in by hand: the rod that each
stroke was near is known.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.tune.rods_tapped import matched, miscounted, struck_again
from counterhoop.listen.strokes import (
    CLIPPED,
    FLAM,
    NO_DECAY,
    NO_RING,
    TOO_CLOSE,
    TOO_SHORT,
    TOO_SOFT,
    Stroke,
)


def strokes(*said: str | tuple[float, str]) -> list[Stroke]:
    """Each 2 s after the one before, or as long after it as is said; why it was left out."""
    found: list[Stroke] = []
    at = 0.0
    for number, one in enumerate(said, 1):
        after, why = one if isinstance(one, tuple) else (2.0, one)
        at += after
        found.append(Stroke(number=number, starts_s=at, ends_s=at + 2.0, dropped=why))
    return found


@pytest.mark.parametrize("why", [CLIPPED, TOO_SOFT])
@pytest.mark.parametrize("at", range(8))
def test_a_tap_that_cannot_be_used_was_near_its_rod_all_the_same(why, at):
    taps = strokes(*[why if number == at else "" for number in range(8)])
    wanted = [None if number == at else number + 1 for number in range(8)]
    assert matched(taps, count=8, rods=None, first_rod=1) == wanted
    assert miscounted(taps, count=8) == ""


@pytest.mark.parametrize(
    ("bounce", "near"),
    [
        ([FLAM, (0.06, FLAM)], [None, None]),
        ([TOO_CLOSE, (0.2, "")], [None, 3]),
        ([FLAM, (0.06, FLAM), (0.15, "")], [None, None, 3]),
        ([FLAM, (0.06, FLAM), (0.08, FLAM)], [None, None, None]),
    ],
    ids=["flam", "slow", "three", "buzz"],
)
def test_a_stick_that_bounces_is_one_tap(bounce, near):
    taps = strokes("", "", *bounce, "", "")
    assert matched(taps, count=5, rods=None, first_rod=1) == [1, 2, *near, 4, 5]
    assert miscounted(taps, count=5) == ""


@pytest.mark.parametrize("why", [NO_DECAY, NO_RING])
def test_a_word_and_a_knock_between_taps_were_near_no_rod(why):
    taps = strokes("", why, "", why, why, "", why)
    assert matched(taps, count=3, rods=None, first_rod=1) == [1, None, 2, None, None, 3, None]
    assert miscounted(taps, count=3) == ""


@given(st.integers(3, 12), st.integers(1, 30))
def test_only_whole_rounds_are_taken_in_order(count, taps):
    says = miscounted(strokes(*[""] * taps), count=count)
    assert (says == "") == (taps % count == 0)
    assert says == "" or f" {taps} tap" in says


def test_one_that_is_tapped_twice_slowly_and_one_that_is_cut_off_do_not_come_out_even():
    assert "9 taps and 8 rods" in miscounted(strokes(*[""] * 9), count=8)
    assert "7 taps and 8 rods" in miscounted(strokes(*[""] * 7, TOO_SHORT), count=8)
    assert "0 taps and 8 rods" in miscounted([], count=8)


@given(st.integers(3, 12), st.integers(1, 12))
def test_they_go_on_from_the_rod_that_was_first_and_round(count, first):
    first = (first - 1) % count + 1
    near = matched(strokes(*[""] * count), count=count, rods=None, first_rod=first)
    assert near[0] == first
    assert sorted(near) == list(range(1, count + 1))
    assert all((b - a) % count == 1 for a, b in pairwise(near))


def test_what_is_said_counts_and_the_rest_is_left_out():
    taps = strokes("", CLIPPED, "", "")
    assert matched(taps, count=8, rods=[5, 6, 0], first_rod=1) == [5, None, None, None]
    assert matched(taps, count=0, rods=None, first_rod=1) == [0, None, 0, 0]


@pytest.mark.parametrize("spoiled", [(5,), (1,), (2, 7)])
def test_a_tap_that_was_too_loud_and_was_struck_again_shifts_no_rod(spoiled):
    said = [why for rod in range(1, 9) for why in ([CLIPPED, ""] if rod in spoiled else [""])]
    near = matched(strokes(*said), count=8, rods=None, first_rod=1)
    assert [rod for rod in near if rod] == list(range(1, 9))
    assert miscounted(strokes(*said), count=8) == ""
    says = struck_again(strokes(*said), count=8)
    numbers = [at for at, why in enumerate(said, 1) if why]
    assert all(str(number) in says for number in numbers)
    assert struck_again(strokes(*[""] * 7, CLIPPED), count=8) == ""
    assert struck_again(strokes(*[""] * 7), count=8) == ""


def test_a_bounce_is_not_taken_to_have_been_struck_again():
    taps = strokes("", "", FLAM, (0.06, FLAM), *[""] * 6)
    assert struck_again(taps, count=8) == ""
    assert "9 taps and 8 rods" in miscounted(taps, count=8)
