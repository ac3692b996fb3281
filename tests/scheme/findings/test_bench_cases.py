"""Bench cases A to E, as far as they are findings; figures worked by hand from the inputs.

The drums and makers are invented; the limits are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.development.outline import rounded
from counterhoop.development.place import Place
from counterhoop.development.shape import Slot
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Grade
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.findings import check, look_over
from counterhoop.scheme.rods import plan_rods, rod_stacks
from counterhoop.scheme.verdict import Verdict


def of(findings, code):
    return [f for f in findings if f.code == code]


# --- A: 302.6 over finish, six lugs, a second row in line after 3.0 come off the resonant edge


def case_a(shells, *, truing=None, second_down_mm=138.0):
    s = shells.Shell(truing=truing or Truing(resonant=Removal(3.0)))
    s.row()
    s.row(head="resonant", status="new", down_mm=second_down_mm)
    s.fit(shells.BLOCK, 90.0, 130.0, label="bracket", status="stays")
    s.old(30.0, 101.5, 12.7, verdict=Verdict.LEAVE_OPEN, purpose="vent")
    return s.layout(hoops=(shells.hoop(), shells.hoop("resonant")))


def test_a_second_row_in_line_is_clear(shells, rules):
    """Bodies end to end 200 - 2 (33.5 + 57) = 19.0 apart, over the rule of 10 by 9.0."""
    found = look_over(case_a(shells), rules=rules)
    assert [f for f in found.findings if f.grade is Grade.STOP] == []
    assert found.margin_mm == pytest.approx(9.0)


def test_a_heights_from_before_truing_are_found(shells, rules):
    """From 203.0 instead of 200.0 the row comes 3.0 too low."""
    [found] = of(check(case_a(shells, second_down_mm=141.0), rules=rules), "height-before-truing")
    assert found.grade is Grade.STOP
    assert found.measured == pytest.approx(3.0)


def test_a_rods_from_38_to_53(shells, rules):
    """33.5 - 7.0 + 1.5 + 10 = 38.0; 33.5 - 7.0 + 1.5 + 30 - 5 = 53.0."""
    lengths = (36.0, 42.0, 50.0, 58.0)
    book = Book(tuple(replace(shells.ROD_42, name=f"{n}", rod_length_mm=n) for n in lengths))
    layout = case_a(shells)
    for plan in plan_rods(layout, book, rules=rules):
        assert plan.least_mm == pytest.approx(38.0)
        assert plan.most_mm == pytest.approx(53.0)
        assert plan.rod is not None
        assert plan.rod.rod_length_mm == 42.0
        assert plan.count == 6


def test_a_rods_before_and_after_truing_differ_by_what_comes_off(shells, rules):
    """A row that stays comes nearer to its edge as that edge is trued."""
    stacks = []
    for removed in (0.0, 2.0):
        s = shells.Shell(
            depth_mm=200.0 - removed,
            truing=Truing(batter=Removal(removed)) if removed else Truing(),
        )
        s.row(down_mm=62.0 - removed)
        stacks += rod_stacks(s.layout(hoops=(shells.hoop(),)), rules=rules)
    assert stacks[0].far_mm - stacks[1].far_mm == pytest.approx(2.0)


# --- B: a bracket block in line, and a vent on the row line half a spacing along


def case_b(shells, *, first_deg):
    s = shells.Shell(girth_mm=math.pi * 327.4, depth_mm=228.6, edges=(shells.surveyed_end(),))
    s.row()
    block = replace(shells.BLOCK, base=rounded(60.0, 70.0))
    s.fit(block, 60.0, 160.0, label="bracket", status="stays")
    s.old(90.0, 114.3, 12.7, verdict=Verdict.LEAVE_OPEN, purpose="vent")
    s.row(head="resonant", status="new", down_mm=228.6 - 62.0, first_deg=first_deg)
    return s.layout(hoops=(shells.hoop(), shells.hoop("resonant")))


def test_b_in_line_meets_the_bracket(shells, rules):
    """Block 125 to 195 down; lug body 138.1 to 195.1 down, 24 wide in 60."""
    found = of(check(case_b(shells, first_deg=0.0), rules=rules), "bases-overlap")
    assert [f.where for f in found] == ["resonant lug 2 and bracket"]
    assert found[0].grade is Grade.STOP


def test_b_half_a_spacing_along_is_clear(shells, rules):
    """Block to lug 85.71 - 30 - 12 = 43.7; vent's edge to the body's end 138.1 - 120.65 = 17.45.

    The vent has 8.0 for its rule and leaves 9.45; bodies end to end leave more.
    """
    found = look_over(case_b(shells, first_deg=30.0), rules=rules)
    assert [f for f in found.findings if f.grade is Grade.STOP] == []
    assert found.margin_mm == pytest.approx(17.45 - rules.lug_badge_mm, abs=0.01)


# --- C: lug 4 of eight stands 3.0 toward lug 3; free rod 34, fixed thread


def case_c(shells, *, pinned, ear_hole_mm):
    """The case gives no rod line, so lean is reckoned on the skin, as its figures are."""
    s = shells.Shell(girth_mm=math.pi * 355.0, depth_mm=355.6)
    lug = replace(shells.LUG, free_rod_mm=34.0, rod_line_mm=None)
    for k in range(8):
        off = -s.deg(3.0) if k == 3 else 0.0
        s.fit(
            lug,
            k * 45.0 + off,
            355.6 - 62.0,
            label=f"resonant lug {k + 1}",
            status="stays",
            row="resonant",
            turned_deg=180.0,
        )
    hoop = replace(shells.HOOP, ears=8, ear_hole_mm=ear_hole_mm)
    rod = replace(shells.ROD_42, shank_mm=5.5)
    return s.layout(
        hoops=(shells.hoop("resonant", hoop, pinned=pinned),),
        rods=(shells.rods(rod, head="resonant"),),
    )


def test_c_pinned_without_play_leans_five_degrees(shells, rules):
    """atan(3 / 34) = 5.04."""
    layout = case_c(shells, pinned=True, ear_hole_mm=None)
    [found] = of(check(layout, rules=rules), "rod-leans")
    assert found.grade is Grade.STOP
    assert found.measured == pytest.approx(5.04, abs=0.005)
    assert found.where == "resonant lug 4"
    assert "pinned" in found.says


def test_c_turned_and_with_play_may_stay_with_a_note(shells, rules):
    """Turned 1.5: atan(1.5 / 34) = 2.53; less 0.75 of play: atan(0.75 / 34) = 1.26."""
    layout = case_c(shells, pinned=False, ear_hole_mm=7.0)
    [found] = of(check(layout, rules=rules), "rod-leans")
    assert found.grade is Grade.NOTE
    assert found.measured == pytest.approx(1.26, abs=0.005)
    assert "1.5 mm to the left" in found.says
    assert "1.3 degrees" in found.says
    assert "2.5;" in found.says


def test_c_turned_without_play_is_over_the_limit(shells, rules):
    """2.53 against 2.0; the lug's readings leave 0.42 in doubt, so that it can be called."""
    layout = case_c(shells, pinned=False, ear_hole_mm=None)
    [found] = of(check(layout, rules=rules), "rod-leans")
    assert found.measured == pytest.approx(2.53, abs=0.005)
    assert found.grade is Grade.STOP


def case_c_slot(shells, *, washer_mm):
    s = shells.Shell(girth_mm=math.pi * 355.0, depth_mm=355.6)
    numbers = []
    for down in (41.0, 83.0):
        numbers.append(
            s.old(
                0.0,
                down,
                verdict=Verdict.SLOT,
                new=Slot(6.0, 9.0, "along"),
                new_place=Place(s.deg(1.5), down),
                backing_washer_mm=washer_mm,
            )
        )
    lug = replace(shells.LUG, base=rounded(24.0, 57.0))
    s.fit(lug, s.deg(3.0), 62.0, label="lug 4", row="batter", holes=tuple(numbers))
    return s.layout()


def test_c_slot_of_6_by_9_under_the_base_wants_a_washer_of_14(shells, rules):
    """The slot's far end lies 6.0 from the new centre; with 1.0 to spare that is 14 across."""
    found = check(case_c_slot(shells, washer_mm=14.0), rules=rules)
    assert of(found, "opening-not-under-base") == []
    assert of(found, "backing-washer") == []
    short = of(check(case_c_slot(shells, washer_mm=13.0), rules=rules), "backing-washer")
    assert [f.limit for f in short] == [pytest.approx(14.0)] * 2


@pytest.mark.parametrize(("plug_mm", "grade"), [(15.0, Grade.TAKE_CARE), (14.0, Grade.STOP)])
def test_c_plug_of_15_between_the_centres_leaves_3_all_round(rules, layouts, plug_mm, grade):
    """7.5 - 1.5 - 3.0 = 3.0; a plug of 14 leaves 2.5."""
    found = check(layouts.in_plug(plug_mm, 20.0), rules=rules)
    plugs = [f for f in found if f.code in ("hole-in-plug", "hole-half-in-plug")]
    assert [f.grade for f in plugs] == [grade]


def test_c_never_beside_a_dowel(shells, rules):
    """Centres 3.0 apart, or 10.0: in a dowel or 4.0 from it, both are stops."""
    from counterhoop.shell.hole import Condition

    for apart in (3.0, 10.0):
        s = shells.Shell()
        s.old(0.0, 41.0, verdict=Verdict.PLUGGED_ALREADY, condition=Condition.DOWEL)
        s.new(0.0, 41.0 + apart)
        [found] = of(check(s.layout(), rules=rules), "plug-cannot-hold")
        assert found.grade is Grade.STOP


def test_c_boring_out_to_9_wants_a_washer(shells, rules):
    s = shells.Shell(girth_mm=math.pi * 355.0)
    from counterhoop.development.shape import Round

    s.old(0.0, 41.0, verdict=Verdict.ENLARGE, new=Round(9.0), new_place=Place(s.deg(1.5), 41.0))
    s.new(s.deg(3.0), 83.0)
    s.fit(shells.LUG, s.deg(3.0), 62.0, label="lug 4", row="batter", holes=(1, 2))
    assert of(check(s.layout(), rules=rules), "backing-washer")


# --- D: another strainer, 44.5 between its holes where the old one had 50.8


def case_d(shells, centre_mm, *, along_mm=0.0, kept=()):
    """Old holes at 60.0 and 110.8, left open under the base; new ones 44.5 apart."""
    s = shells.Shell(girth_mm=math.pi * 354.0, depth_mm=139.7)
    for down in (60.0, 110.8):
        verdict = Verdict.KEEP if down in kept else Verdict.LEAVE_OPEN
        s.old(0.0, down, 5.5, verdict=verdict, doubt_mm=0.0)
    wanted = tuple(
        PatternHole(right_mm=0.0, down_mm=y, hole_mm=5.5, screw_mm=4.8) for y in (-22.25, 22.25)
    )
    numbers = []
    for y in (-22.25, 22.25):
        at = centre_mm + y
        old = [n for n, down in ((1, 60.0), (2, 110.8)) if down in kept and abs(at - down) < 0.01]
        numbers.append(old[0] if old else s.new(s.deg(along_mm), at, 5.5))
    strainer = replace(shells.STRAINER, holes=wanted)
    s.fit(strainer, s.deg(along_mm), centre_mm, label="strainer", holes=tuple(numbers))
    return s.layout()


@pytest.mark.parametrize(("centre_mm", "kept"), [(82.25, (60.0,)), (88.55, (110.8,))])
def test_d_keeping_either_hole_leaves_0_8_to_the_other(shells, rules, centre_mm, kept):
    """50.8 - 44.5 = 6.3 between centres, less 5.5: too thin, not an overlap."""
    [found] = of(check(case_d(shells, centre_mm, kept=kept), rules=rules), "web-thin")
    assert found.grade is Grade.STOP
    assert found.measured == pytest.approx(0.8)
    assert found.says.endswith("leave 0.8 mm of wood on the skin; your rule is 6.0.")


@pytest.mark.parametrize("move_mm", [14.65, -14.65])
def test_d_moves_that_just_clear(shells, rules, move_mm):
    """A hole 5.5 wide is clear at 11.5 from centre to centre: 11.5 + 3.15 = 14.65 either way."""
    assert of(check(case_d(shells, 85.4 + move_mm), rules=rules), "web-thin") == []
    nearer = move_mm * (14.55 / 14.65)
    assert of(check(case_d(shells, 85.4 + nearer), rules=rules), "web-thin")


def test_d_down_leaves_14_65_to_the_edge(shells, rules):
    found = look_over(case_d(shells, 85.4 + 14.65), rules=rules)
    assert of(found.findings, "hole-near-edge") == []


def test_d_sideways_clears_at_the_bore_a_little_later(shells, rules):
    """On the skin 11.06 along clears; at the bore 5 mm further in that much along is 10.75.

    sqrt(11.06^2 + 3.15^2) = 11.5, and sqrt(10.75^2 + 3.15^2) - 5.5 = 5.7: 11.39 along is needed.
    """
    [found, _] = of(check(case_d(shells, 85.4, along_mm=11.06), rules=rules), "web-thin")
    assert found.measured == pytest.approx(5.70, abs=0.01)
    assert of(check(case_d(shells, 85.4, along_mm=11.39), rules=rules), "web-thin") == []


# --- E: ten lugs and hoops of eight ears


def test_e_two_lugs_agree_and_the_rest_is_counted(shells, rules):
    """At 0 and 180 degrees: 2 kept, 8 off, 6 on; two holes a lug: 16 plugs and 12 holes a row."""
    s = shells.Shell(girth_mm=math.pi * 353.4, depth_mm=165.1, heads=2)
    s.row(count=10)
    s.row(count=10, head="resonant", down_mm=165.1 - 62.0)
    hoop = replace(shells.HOOP, ears=8)
    layout = s.layout(hoops=(shells.hoop(entry=hoop), shells.hoop("resonant", hoop)))
    found = of(check(layout, rules=rules), "ears-against-lugs")
    assert len(found) == 2
    for finding in found:
        assert finding.grade is Grade.STOP
        assert "lug 1 and" in finding.says
        assert "lug 6 agree" in finding.says
        assert "2 lugs kept, 8 taken off and 6 put on: 16 plugs and 12 new holes" in finding.says
        assert finding.remedy.startswith("Find a hoop with 10 ears")


def test_e_plugs_lie_bare_and_webs_are_fine(shells, rules):
    """Nearest new to old 9 degrees = 27.76 along: wood enough, and a base 24 wide hides nothing."""
    s = shells.Shell(girth_mm=math.pi * 353.4)
    s.old(0.0, 41.0, verdict=Verdict.PLUG)
    s.fit(shells.LUG, 9.0, 62.0, label="lug 1", row="batter")
    assert s.flat.surface.along_mm(9.0) == pytest.approx(27.76, abs=0.01)
    found = check(s.layout(), rules=rules)
    assert of(found, "plug-beside") == []
    [bare] = of(found, "bare-plug")
    assert bare.measured == pytest.approx(math.pi * 9.0, rel=1e-3)
