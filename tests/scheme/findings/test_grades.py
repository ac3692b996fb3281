"""How grave: new is a stop, old is a note, what comes of something else wants care."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.development.outline import rounded
from counterhoop.development.place import Place
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.findings import check, gathered
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import PlacedFitting, Row, Seam
from counterhoop.shell.hole import Condition
from counterhoop.shell.wish import FinishPlan


def of(findings: tuple[Finding, ...], code: str) -> list[Finding]:
    return [f for f in findings if f.code == code]


def test_a_hole_that_truing_brings_near_the_edge_wants_care(shells, rules):
    """15.0 - 3.0 = 12.0 to the edge as found, 9.0 once 3.0 are taken off; 4.0 was near before."""
    s = shells.Shell(truing=Truing(batter=Removal(3.0)))
    s.old(0.0, 12.0)
    s.old(90.0, 4.0)
    found = of(check(s.layout(), rules=rules), "hole-near-edge")
    assert [(f.holes, f.grade) for f in found] == [((1,), Grade.TAKE_CARE), ((2,), Grade.NOTE)]
    assert found[0].measured == pytest.approx(9.0)


def test_a_plug_under_the_new_edge_is_a_stop_too(shells, rules):
    s = shells.Shell()
    s.old(0.0, 199.0, verdict=Verdict.PLUG)
    [found] = of(check(s.layout(), rules=rules), "edge-through-hole")
    assert found.grade is Grade.STOP
    assert "plug" in found.says


def test_the_wrap_seam_goes_with_the_wrap(layouts, rules):
    """Half on the overlap, but the old wrap comes off."""
    assert of(check(layouts.seam_hole(21.0), rules=rules), "hole-half-on-seam")
    new = check(layouts.seam_hole(21.0, kind="new wrap", thickness_mm=0.5), rules=rules)
    assert of(new, "hole-half-on-seam") == []


@pytest.mark.parametrize(
    ("along_mm", "codes"),
    [
        (0.0, []),  # wholly on an overlap from -6 to 6
        (4.0, ["hole-half-on-seam"]),
        (-4.0, ["hole-half-on-seam"]),
        (14.0, ["hole-near-seam"]),
        (-14.0, ["hole-near-seam"]),
        (18.0, []),
        (-18.0, []),
    ],
)
def test_a_seam_across_the_datum(shells, rules, along_mm, codes):
    """A hole 6 wide; 8 clear of an end at 6 is 17 to its middle."""
    s = shells.Shell()
    s.drum = replace(s.drum, seam=Seam(from_deg=360.0 - s.deg(6.0), to_deg=s.deg(6.0)))
    s.new(s.deg(along_mm), 100.0)
    found = [f.code for f in check(s.layout(), rules=rules) if "seam" in f.code]
    assert found == codes


def test_a_base_wider_than_the_overlap_rocks_wherever_it_covers_it(shells, rules):
    s = shells.Shell()
    s.drum = replace(s.drum, seam=Seam(from_deg=0.0, to_deg=s.deg(10.0)))
    s.fit(shells.LUG, s.deg(5.0), 62.0, label="lug 1", row="batter")
    assert of(check(s.layout(), rules=rules), "base-half-on-seam")


@pytest.mark.parametrize("status", ["new", "stays"])
def test_bases_that_overlap_as_found_are_noted(shells, rules, status):
    s = shells.Shell()
    s.fit(shells.BLOCK, 0.0, 62.0, label="bracket", status="stays")
    s.fit(shells.LUG, 2.0, 62.0, label="lug 1", status=status, row="batter")
    [found] = of(check(s.layout(), rules=rules), "bases-overlap")
    assert found.grade is (Grade.STOP if status == "new" else Grade.NOTE)


def test_a_badge_on_the_grommet_is_as_it_should_be(shells, rules):
    s = shells.Shell()
    s.old(0.0, 100.0, 12.7, verdict=Verdict.LEAVE_OPEN, purpose="vent")
    s.fit(shells.GROMMET, 0.0, 100.0, label="grommet", holes=(1,))
    s.fit(shells.BADGE, 0.0, 100.0, label="badge", holes=())
    assert [f for f in check(s.layout(), rules=rules) if f.code.startswith("base")] == []


def test_a_fittings_own_pattern_may_stand_close(shells, rules):
    """Two holes 8.0 apart in one fitting leave 2.0, as its maker wanted."""
    near = tuple(
        PatternHole(right_mm=x, down_mm=0.0, hole_mm=6.0, screw_mm=5.0) for x in (-4.0, 4.0)
    )
    s = shells.Shell()
    s.fit(replace(shells.BLOCK, holes=near), 0.0, 100.0, label="bracket")
    assert of(check(s.layout(), rules=rules), "web-thin") == []


def test_an_old_face_grain_plug_can_be_drilled_again(shells, rules):
    """Plugged with face grain before, 15 wide: 7.5 - 3 = 4.5 of plug left round the hole."""
    s = shells.Shell()
    condition = Condition.FACE_GRAIN
    s.old(0.0, 41.0, 15.0, verdict=Verdict.PLUGGED_ALREADY, condition=condition)
    s.new(0.0, 41.0, backing_washer_mm=18.0)
    s.new(0.0, 83.0)
    lug = replace(shells.LUG, base=rounded(24.0, 57.0))
    s.fit(lug, 0.0, 62.0, label="lug 1", row="batter", holes=(2, 3))
    [found] = of(check(s.layout(), rules=rules), "hole-in-plug")
    assert found.grade is Grade.TAKE_CARE


def test_a_dowel_bored_out_for_a_plug_is_face_grain(shells, rules):
    s = shells.Shell()
    s.old(0.0, 41.0, verdict=Verdict.PLUG, condition=Condition.DOWEL, plug_mm=8.0)
    s.new(0.0, 41.0 + 4.0 + 3.0 + 4.0)
    found = check(s.layout(), rules=rules)
    assert of(found, "plug-cannot-hold") == []
    assert of(found, "plug-beside") == []


def test_slots_in_the_part_take_up_what_a_hole_lies_off(shells, rules):
    """2.0 off downward, in a slot of 4.0 of travel: 2.0 to each side."""
    slot = PatternHole(right_mm=0.0, down_mm=0.0, hole_mm=6.0, screw_mm=5.5, slot_down_mm=4.0)
    for travel, stops in ((slot, 0), (replace(slot, slot_down_mm=0.0), 1)):
        s = shells.Shell()
        s.old(0.0, 102.0, doubt_mm=0.0)
        s.fit(replace(shells.BLOCK, holes=(travel,)), 0.0, 100.0, label="b", holes=(1,))
        found = of(check(s.layout(), rules=rules), "kept-too-far-off")
        assert len([f for f in found if f.grade is Grade.STOP]) == stops


def test_a_mirrored_pattern_is_told_from_a_mislaid_one(shells, rules):
    """A strainer with one hole to the right, drilled to the left."""
    pattern = tuple(
        PatternHole(right_mm=x, down_mm=y, hole_mm=5.5, screw_mm=4.8)
        for x, y in ((0.0, -20.0), (9.0, 20.0))
    )
    entry = replace(shells.STRAINER, holes=pattern)
    for right, code in ((9.0, None), (-9.0, "mirrored-layout"), (4.0, "hole-off-pattern")):
        s = shells.Shell()
        s.new(0.0, 80.0, 5.5)
        s.new(s.deg(right), 120.0, 5.5)
        s.fit(entry, 0.0, 100.0, label="strainer", holes=(1, 2))
        found = [
            f.code
            for f in check(s.layout(), rules=rules)
            if f.code in ("mirrored-layout", "hole-off-pattern")
        ]
        assert found == ([] if code is None else [code])


@pytest.mark.parametrize("runs", [1, -1])
def test_a_row_numbered_to_the_left_is_mirrored(shells, rules, runs):
    lugs = tuple(
        PlacedFitting(label=f"batter lug {k + 1}", fitting="x", place=Place(runs * k * 60.0, 62.0))
        for k in range(6)
    )
    s = shells.Shell()
    s.drum = replace(s.drum, rows=(Row(head="batter", fitting="x", lugs=lugs),))
    found = of(check(s.layout(), rules=rules), "mirrored-layout")
    assert len(found) == (0 if runs == 1 else 1)


def test_a_surface_that_does_not_follow_from_the_survey(shells, rules):
    s = shells.Shell()
    flat = replace(
        s.flat, surface=replace(s.flat.surface, circumference_mm=shells.GIRTH_MM + math.pi)
    )
    found = of(check(s.layout(flat=flat), rules=rules), "place-other-surface")
    assert [f.where for f in found] == ["surface"]


def test_a_depth_from_before_truing(shells, rules):
    s = shells.Shell(truing=Truing(resonant=Removal(3.0)))
    wrong = replace(s.flat, depth_mm=203.0)
    assert of(check(s.layout(flat=wrong), rules=rules), "height-before-truing")
    assert of(check(s.layout(), rules=rules), "height-before-truing") == []


def test_with_an_odd_number_of_lugs_both_cannot_be_between_and_opposite(snares, rules):
    """Seven lugs: opposite the middle of a gap stands a lug."""
    found = check(snares.snare(count=7, butt_deg=180.0 + 180.0 / 7), rules=rules)
    assert of(found, "strainer-not-opposite") == []
    [between] = of(found, "not-between-lugs")
    assert between.grade is Grade.NOTE
    assert "cannot both be" in between.says


def test_paint_hides_plugs_outside_and_not_inside(layouts, rules):
    painted = FinishPlan(kind="paint")
    found = check(layouts.plug(Verdict.PLUG, covered=False, finish=painted), rules=rules)
    assert of(found, "bare-plug") == []
    assert of(found, "plug-inside")


def test_what_is_alike_is_said_once_for_a_list(layouts, rules):
    """Six lugs under one hoop say one thing; every one of them is still found."""
    found = check(layouts.under_hoop(41.0), rules=rules)
    assert len(of(found, "hoop-on-lug")) == 6
    [one] = of(gathered(found), "hoop-on-lug")
    assert one.says.count("The same at") == 1
    assert {h for f in found for h in f.holes} == {h for f in gathered(found) for h in f.holes}


def test_lugs_that_stand_nearer_are_told_from_those_that_only_look_so(shells, rules):
    """Across the datum: bases at 359 and 1 degrees overlap as at 10 and 12."""
    for start in (359.0, 10.0):
        s = shells.Shell()
        s.fit(shells.LUG, start, 62.0, label="lug 1", row="batter")
        s.fit(shells.LUG, start + 2.0, 62.0, label="lug 2", row="batter")
        [found] = of(check(s.layout(), rules=rules), "bases-overlap")
        assert found.measured == pytest.approx(s.flat.surface.along_mm(2.0) - 24.0, abs=0.01)
