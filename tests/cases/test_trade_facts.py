"""What the trade knows, held against the planner. Every value here: common practice, no source."""

from __future__ import annotations

import math

import pytest

from counterhoop.development.place import Place
from counterhoop.development.polygon import gap_mm
from counterhoop.development.shape import Round
from counterhoop.development.surface import Skin
from counterhoop.errors import Grade
from counterhoop.fittings.choose import long_lugs_for
from counterhoop.fittings.entry import Kind
from counterhoop.fittings.read_book import packaged_book
from counterhoop.scheme.schemes import Shop, schemes_for
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Circumference, Drum, Edge, PlacedFitting, Row
from counterhoop.shell.hole import Hole
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.operations import default_figures
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import FinishPlan, Pattern, SecondHead

BOOK = packaged_book()
SHOP = Shop(rules=default_rules(), figures=default_figures(), book=BOOK, stock={})


def tom(diameter_in, depth_mm, *, lugs, fitting="Corvane round lug", first_mm=62.0):
    """A single-headed tom with one row, its open end surveyed."""
    entry = BOOK.find(fitting)
    holes, row = [], []
    for lug in range(lugs):
        numbers = []
        for hole in entry.holes:
            numbers.append(len(holes) + 1)
            place = Place(lug * 360.0 / lugs, first_mm + hole.down_mm)
            holes.append(Hole(number=numbers[-1], place=place, shape=Round(hole.hole_mm)))
        row.append(
            PlacedFitting(
                label=f"batter lug {lug + 1}",
                fitting=fitting,
                place=Place(lug * 360.0 / lugs, first_mm),
                holes=tuple(numbers),
            )
        )
    ears = f"flanged hoop {diameter_in} in, {lugs} ears"
    return Drum(
        key="tom",
        heads=1,
        circumference=Circumference(skin=Skin.OLD, mean_mm=math.pi * (25.4 * diameter_in - 3.2)),
        wall_mm=6.0,
        depth_mm=depth_mm,
        edges=(Edge(end="resonant", surveyed=True, ring=True),),
        holes=tuple(holes),
        rows=(Row(head="batter", fitting=fitting, lugs=tuple(row), hoop=ears),),
    )


def every(drum, *patterns):
    wish = SecondHead(patterns=patterns or tuple(Pattern))
    ranked = schemes_for(DrumWanted(drum=drum, wishes=(wish,), finish=FinishPlan()), shop=SHOP)
    return [*ranked.shown, *(aside.scheme for aside in ranked.set_aside)]


@pytest.mark.parametrize(("diameter_in", "depth_mm"), [(12, 200.0), (13, 220.0)])
def test_a_12_in_tom_is_about_200_deep_and_a_13_about_220(diameter_in, depth_mm):
    """A long lug of the book is made for each, and neither is made for the other."""
    suits = {lug.name for lug in long_lugs_for(BOOK, depth_mm=depth_mm)}
    other = {lug.name for lug in long_lugs_for(BOOK, depth_mm=420.0 - depth_mm)}
    assert suits
    assert not suits & other
    drum = tom(diameter_in, depth_mm, lugs=6)
    assert any(s.pattern == Pattern.LONG_LUGS for s in every(drum, Pattern.LONG_LUGS))


def test_a_long_lug_on_the_middle_near_an_old_hole_gets_new_holes():
    """A few millimetres off: plugged and drilled, and the base covers plug, hole and shadow."""
    made = next(s for s in every(tom(12, 200.0, lugs=6), Pattern.LONG_LUGS) if s.centred)
    lug = next(f for f in made.layout.standing if f.label == "long lug 1")
    assert lug.place.down_mm == pytest.approx(100.0, abs=1.5)
    through = [h for h in made.layout.holes if h.verdict is Verdict.PLUG_AND_DRILL]
    assert len(through) == 6
    for new in through:
        old = next(h for h in made.layout.holes if h.number == new.through[0])
        assert 2.0 < abs(new.place.down_mm - old.place.down_mm) < 6.0
        assert old.covered
    near = [h for h in made.layout.holes if h.verdict is Verdict.PLUG]
    assert all(h.covered for h in near)
    assert made.criteria.shows_mm2 == pytest.approx(0.0, abs=0.5)


@pytest.mark.parametrize(("diameter_in", "depth_in", "lugs"), [(14, 14, 8), (16, 16, 8)])
def test_toms_of_14_and_more_have_depth_for_a_second_row(diameter_in, depth_in, lugs):
    made = every(tom(diameter_in, 25.4 * depth_in, lugs=lugs), Pattern.IN_LINE)[0]
    at = {f.label: f for f in made.layout.standing}
    a, b = at["batter lug 1"], at["resonant lug 1"]
    apart = gap_mm(a.outline, a.place, b.outline, b.place, surface=made.layout.flat.surface)
    assert apart > 100.0
    assert not [f for f in made.findings if f.grade is Grade.STOP]


def test_half_a_lug_spacing_along_is_an_accepted_second_row():
    made = every(tom(13, 220.0, lugs=6), Pattern.HALF_ALONG)[0]
    assert made.pattern == Pattern.HALF_ALONG
    assert made.centred
    assert not made.stopped
    assert not [f for f in made.findings if f.code == "second-row-turned"]


def test_a_large_bracket_adds_two_and_a_half_to_three_inches():
    large = BOOK.find("Hallmere large bracket")
    assert large.kind is Kind.BRACKET
    assert 2.5 * 25.4 <= large.reach_mm <= 3.0 * 25.4
