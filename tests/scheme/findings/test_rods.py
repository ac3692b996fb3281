"""Which rod is chosen, and when none serves; lengths worked by hand beside each."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.errors import Grade
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings import check
from counterhoop.scheme.rods import engaged_mm, plan_rods, rod_stacks
from counterhoop.scheme.threading import goes_into


def rod(shells, length_mm, **more):
    return replace(
        shells.ROD_42, **{"name": f"rod {length_mm}", "rod_length_mm": length_mm, **more}
    )


def planned(shells, rules, *rods, hoop=None, **lug):
    s = shells.Shell()
    s.row(replace(shells.LUG, **lug))
    layout = s.layout(hoops=(shells.hoop(entry=hoop or shells.HOOP),))
    return layout, plan_rods(layout, Book(rods), rules=rules)


def test_the_shortest_that_serves_with_a_rules_doubt_to_spare_is_taken(shells, rules):
    """38.0 to 53.0 serve; 38 just does, with nothing for a reading that is half a mm out."""
    lengths = (60.0, 53.0, 44.0, 38.0, 37.9)
    _, [plan] = planned(shells, rules, *(rod(shells, n) for n in lengths))
    assert plan.rod.rod_length_mm == 44.0


def test_one_that_just_serves_is_taken_where_there_is_no_other(shells, rules):
    _, [plan] = planned(shells, rules, rod(shells, 60.0), rod(shells, 38.0))
    assert plan.rod.rod_length_mm == 38.0


def test_a_rods_own_washer_counts_before_the_hoops(shells, rules):
    """A washer of 3.0 instead of 1.5 asks for 39.5."""
    thick = rod(shells, 39.0, washer_mm=3.0)
    _, [plan] = planned(shells, rules, thick, rod(shells, 40.0, washer_mm=3.0))
    assert plan.rod.rod_length_mm == 40.0
    assert plan.least_mm == pytest.approx(39.5)


def test_another_thread_is_not_taken(shells, rules):
    other = rod(shells, 42.0, thread="7/32-24")
    _, [plan] = planned(shells, rules, other)
    assert plan.rod is None
    assert plan.thread == "12-24"


def test_two_names_of_one_thread_go_together(shells, rules):
    _, [plan] = planned(shells, rules, rod(shells, 42.0, thread="#12-24 UNC"))
    assert plan.rod is not None


def test_a_shank_that_meets_the_lug_is_passed_over(shells, rules):
    """28.0 from under the head to the mouth, less 3.0 of stretch: 25.0 may be plain, no more."""
    plain = rod(shells, 40.0, thread_length_mm=14.9)
    _, [plan] = planned(shells, rules, plain, rod(shells, 45.0, thread_length_mm=20.0))
    assert plan.rod.rod_length_mm == 45.0


def test_claws_take_t_rods_and_ears_take_rods(shells, rules):
    wood = replace(shells.HOOP, hoop_kind="wood", ears=None, ear_hole_mm=None)
    both = (rod(shells, 42.0), rod(shells, 44.0, kind=Kind.T_ROD))
    assert planned(shells, rules, *both)[1][0].rod.kind is Kind.ROD
    assert planned(shells, rules, *both, hoop=wood)[1][0].rod.kind is Kind.T_ROD


def test_a_lug_of_unknown_depth_asks_for_no_longest_rod(shells, rules):
    _, [plan] = planned(shells, rules, rod(shells, 90.0, thread_length_mm=80.0), free_depth_mm=None)
    assert math.isinf(plan.most_mm)
    assert plan.rod.rod_length_mm == 90.0


def test_a_lug_too_shallow_for_any_rod_is_a_stop(shells, rules):
    """Free depth 12, 5 short of the bottom: 7 can engage where 10 are wanted."""
    layout, plans = planned(shells, rules, rod(shells, 42.0), free_depth_mm=12.0)
    found = [f for f in check(replace(layout, rods=plans), rules=rules) if f.code[:6] == "no-rod"]
    assert [f.grade for f in found] == [Grade.STOP]


def test_thick_rods_ask_for_one_and_a_half_diameters(rules):
    """3/8 in is 9.525 across: 14.3 of thread; below 6.7 mm the rule's 10 decides."""
    assert engaged_mm("M6", rules=rules) == 10.0
    assert engaged_mm("M8", rules=rules) == pytest.approx(12.0)


def test_rows_of_two_threads_get_two_plans(shells, rules):
    s = shells.Shell()
    s.row(count=6)
    s.fittings[2] = replace(s.fittings[2], fitting=replace(shells.LUG, thread="7/32-24"))
    layout = s.layout(hoops=(shells.hoop(),))
    assert [(k.thread, k.count) for k in rod_stacks(layout, rules=rules)] == [
        ("12-24", 5),
        ("7/32-24", 1),
    ]
    mixed = [f for f in check(layout, rules=rules) if f.code == "thread-unlike"]
    assert [f.grade for f in mixed] == [Grade.TAKE_CARE]
    assert mixed[0].where == "batter lug 3"


def test_look_alike_threads_are_named():
    """12-24 and 7/32-24 share the pitch and differ by 0.070 mm (ASME B1.1 sizes)."""
    going = goes_into("7/32-24", "12-24")
    assert not going.goes
    assert going.alike
    assert "look alike" in going.says


def test_threads_that_no_table_has_go_by_their_name():
    assert goes_into("shop thread 3", "Shop thread 3").goes
    assert not goes_into("shop thread 3", "M6").goes
