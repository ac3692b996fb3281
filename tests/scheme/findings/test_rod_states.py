"""Rods before and after truing, finger-tight and at pitch; lengths worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.truing import Removal, Truing
from counterhoop.fittings.book import Book
from counterhoop.scheme.rod_states import BOTTOMING, STRIPPING, rod_stand, rod_states
from counterhoop.scheme.rods import rod_stacks


def rod(shells, length_mm, **more):
    changed = {"name": f"rod {length_mm:g}", "rod_length_mm": length_mm, **more}
    return replace(shells.ROD_42, **changed)


def drum(shells, *, down_mm=62.0, removal=None, count=6, hoop=None, **lug):
    """A row whose heights as found are ``down_mm``; what comes off the batter edge moves it up."""
    off = removal or Removal()
    s = shells.Shell(truing=Truing(batter=off))
    for k in range(count):
        along = k * 360.0 / count
        entry = replace(shells.LUG, **lug)
        s.fit(
            entry,
            along,
            down_mm - off.at_mm(along),
            label=f"batter lug {k + 1}",
            status="stays",
            row="batter",
        )
    return s.layout(hoops=(shells.hoop(entry=hoop or shells.HOOP),))


def states(shells, rules, found, after, *rods, **more):
    return rod_states(found, after, book=Book(rods), rules=rules, **more)


def test_a_42_and_where_it_stands(shells, rules):
    """Case A: mouth at 33.5, seat at 7.0: washer 1.5 + 26.5 + 10 of thread = 38.0 at least, and
    1.5 + 26.5 + 30 - 5 = 53.0 at most. A 42 engages 42 - 1.5 - 26.5 = 14.0 at pitch and 11.0 with
    the hoop 3.0 higher; 30 - 14 = 16.0 are left to the bottom."""
    layout = drum(shells)
    [state] = states(shells, rules, layout, layout, shells.ROD_42)
    assert state.before_mm == state.after_mm == pytest.approx((38.0, 53.0))
    assert state.serves
    assert state.rod is state.rod_before is shells.ROD_42
    assert (state.stand.finger_mm, state.stand.pitch_mm) == pytest.approx((11.0, 14.0))
    assert state.stand.room_mm == pytest.approx(16.0)
    assert state.shorter_mm == pytest.approx(0.0)


def test_three_off_the_edge_shorten_the_stack_by_three(shells, rules):
    found = drum(shells, down_mm=65.0)
    after = drum(shells, down_mm=65.0, removal=Removal(3.0))
    [state] = states(shells, rules, found, after, shells.ROD_42)
    assert state.before_mm == pytest.approx((41.0, 56.0))
    assert state.after_mm == pytest.approx((38.0, 53.0))
    assert state.shorter_mm == pytest.approx(3.0)


def test_a_rod_that_was_right_is_too_long_after_truing(shells, rules):
    """56 served up to 56.0 before; after 3.0 off the most is 53.0 and no other is made."""
    found = drum(shells, down_mm=65.0)
    after = drum(shells, down_mm=65.0, removal=Removal(3.0))
    [state] = states(shells, rules, found, after, rod(shells, 56.0, thread_length_mm=40.0))
    assert state.rod_before is not None
    assert not state.serves
    assert state.rod is state.rod_before
    assert state.stand.room_mm == pytest.approx(2.0)


@given(
    mean=st.floats(0.0, 6.0),
    cos=st.floats(-1.5, 1.5),
    sin=st.floats(-1.5, 1.5),
    count=st.integers(3, 12),
)
def test_a_slanting_cut_counts_lug_by_lug(shells, rules, mean, cos, sin, count):
    """Independent sum: shortest by the lug cut least, longest by the lug cut most."""
    removal = Removal(mean, cos, sin)
    found = drum(shells, down_mm=70.0, count=count)
    after = drum(shells, down_mm=70.0, removal=removal, count=count)
    [state] = states(shells, rules, found, after, shells.ROD_42)
    cuts = [
        mean + cos * math.cos(2.0 * math.pi * k / count) + sin * math.sin(2.0 * math.pi * k / count)
        for k in range(count)
    ]
    assert state.before_mm == pytest.approx((46.0, 61.0))
    assert state.after_mm == pytest.approx((46.0 - min(cuts), 61.0 - max(cuts)))
    assert state.shorter_mm == pytest.approx(min(cuts))


@given(length=st.floats(20.0, 90.0), thread=st.floats(5.0, 20.0))
def test_what_is_engaged_and_what_is_left_make_the_depth(shells, rules, length, thread):
    """Exact law: in a lug 30 deep, reach plus room is mouth to bottom; thread is never more than
    the rod has, and the head's stretch parts the two engagements."""
    layout = drum(shells)
    [stack] = rod_stacks(layout, rules=rules)
    stand = rod_stand(stack, rod(shells, length, thread_length_mm=thread), rules=rules)
    in_lug = length - 1.5 - 26.5
    assert stand.room_mm == pytest.approx(30.0 - in_lug)
    assert stand.pitch_mm == pytest.approx(min(max(in_lug, 0.0), thread))
    assert 0.0 <= stand.pitch_mm - stand.finger_mm <= rules.head_stretch_mm + 1e-9


def test_the_nearest_that_is_made_is_named_where_none_serves(shells, rules):
    """38.0 to 53.0 serve: 36 lies 2.0 short, 56 lies 3.0 over, one with another thread does not
    count."""
    layout = drum(shells)
    rods = [rod(shells, n) for n in (30.0, 36.0, 56.0)]
    [state] = states(shells, rules, layout, layout, *rods, rod(shells, 42.0, thread="M6"))
    assert not state.serves
    assert state.rod.rod_length_mm == 36.0
    assert state.stand.pitch_mm == pytest.approx(8.0)
    [state] = states(shells, rules, layout, layout, rod(shells, 42.0, thread="M6"))
    assert (state.rod, state.stand, state.after_mm) == (None, None, pytest.approx((38.0, 53.0)))


def test_what_lies_on_the_shelf_is_counted(shells, rules):
    layout = drum(shells)
    rods = [rod(shells, n) for n in (42.0, 50.0, 60.0)]
    stock = {"rod 42": 4, "rod 50": 16, "rod 60": 8}
    [state] = states(shells, rules, layout, layout, *rods, stock=stock)
    assert (state.rod.name, state.in_stock, state.also) == ("rod 42", 4, (("rod 50", 16),))


def test_what_is_not_known_is_said(shells, rules):
    no_seat = replace(shells.HOOP, seat_below_edge_mm=None)
    layout = drum(shells, hoop=no_seat)
    [state] = states(shells, rules, layout, layout, shells.ROD_42)
    assert state.unknown == "where the washers sit on hoop of 6"
    assert state.after_mm is None
    assert state.splay_mm is None


def test_other_lugs_with_another_thread_have_no_before(shells, rules):
    found = drum(shells)
    after = drum(shells, thread="M6")
    [state] = states(shells, rules, found, after, rod(shells, 42.0, thread="M6"))
    assert state.before_mm is None
    assert state.shorter_mm is None
    assert state.serves


def test_splay_beside_the_length(shells, rules):
    """Mouths on 321.6, ears on 331.6: 5.0 outside; the shank's (7 - 5.4) / 2 = 0.8 of play over
    26.5 of free rod."""
    wide = replace(shells.HOOP, ear_circle_mm=331.6)
    layout = drum(shells, hoop=wide)
    [state] = states(shells, rules, layout, layout, shells.ROD_42)
    assert state.splay_mm == pytest.approx(5.0)
    assert state.splay_deg == pytest.approx(math.degrees(math.atan(4.2 / 26.5)))


def test_a_lug_of_unknown_depth_has_no_longest_rod(shells, rules):
    layout = drum(shells, free_depth_mm=None)
    [state] = states(shells, rules, layout, layout, shells.ROD_42)
    assert math.isinf(state.after_mm[1])
    assert math.isinf(state.stand.room_mm)


def test_what_goes_wrong_is_told_without_force():
    for said in (BOTTOMING, STRIPPING):
        assert "Stop" in said
        assert "force" not in said.casefold()
