"""The best turn of a hoop against a fine search, and against what it must obey."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.scheme.hoop_turn import best_turn, offsets_from_even_mm, pinned_turn, turned

ROWS = st.lists(st.tuples(st.floats(-6.0, 6.0), st.floats(15.0, 60.0)), min_size=2, max_size=12)
PLAY = st.floats(0.0, 1.5)


def apart(row):
    return [o for o, _ in row], [f for _, f in row]


@given(row=ROWS, play=PLAY)
def test_no_turn_of_a_fine_search_is_better(row, play):
    """Brute force: 4001 turns across the offsets."""
    offsets, free = apart(row)
    best = best_turn(offsets, free_mm=free, play_mm=play)
    low, high = min(offsets), max(offsets)
    for step in range(4001):
        at = low + (high - low) * step / 4000
        tried = turned(offsets, at, free_mm=free, play_mm=play)
        assert tried.worst_deg >= best.worst_deg - 1e-9


@given(row=ROWS, play=PLAY, by=st.floats(-50.0, 50.0))
def test_turning_every_lug_turns_the_hoop_with_them(row, play, by):
    """Exact law: the lean does not change when the whole row is turned."""
    offsets, free = apart(row)
    one = best_turn(offsets, free_mm=free, play_mm=play)
    other = best_turn([o + by for o in offsets], free_mm=free, play_mm=play)
    assert other.worst_deg == pytest.approx(one.worst_deg, abs=1e-9)


@given(row=ROWS, play=PLAY)
def test_a_pinned_hoop_is_never_better(row, play):
    offsets, free = apart(row)
    free_turn = best_turn(offsets, free_mm=free, play_mm=play)
    assert pinned_turn(offsets, free_mm=free, play_mm=play).worst_deg >= free_turn.worst_deg - 1e-9


def test_unlike_free_lengths_share_the_lean_not_the_distance():
    """Worked by hand: 4.0 between two rods free by 10 and 30 leans both atan(4 / 40)."""
    best = best_turn([0.0, 4.0], free_mm=[10.0, 30.0])
    assert best.turn_mm == pytest.approx(1.0)
    assert best.lean_deg == pytest.approx([math.degrees(math.atan(0.1))] * 2)


def test_offsets_across_the_datum():
    """A row that begins just before the datum has the same offsets as anywhere else."""
    start = 359.0
    row = [(start + k * 60.0 + (2.0 if k == 2 else 0.0)) % 360.0 for k in range(6)]
    assert offsets_from_even_mm(row, girth_mm=360.0) == pytest.approx([0, 0, 2, 0, 0, 0])
