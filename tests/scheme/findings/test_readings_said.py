"""What is said of round, flat and fit as found and under a scheme; figures worked by hand."""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType
from typing import Any

import pytest

from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings import check
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.findings.read_once import surveyed
from counterhoop.scheme.findings.survey_checks import look_over_survey
from counterhoop.scheme.layout import Layout
from counterhoop.shell.drum import Material, OldFinish
from counterhoop.shell.readings import EndReadings, HeadRead
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import FinishPlan, Flatten

WRAP = FinishPlan(kind="new wrap", thickness_mm=0.5)


def of(layout: Layout, rules: ShopRules, *codes: str) -> list[Finding]:
    return [f for f in check(layout, rules=rules) if f.code in codes]


def heads(layout: Layout, rules: ShopRules) -> list[str]:
    return [f.code for f in check(layout, rules=rules) if f.code.startswith("head-")]


def test_a_head_is_never_a_stop(layouts: ModuleType, rules: ShopRules) -> None:
    """The final word is the actual head: also over a new wrap that shuts it out."""
    for head_mm in (-3.0, 0.2, 0.8):
        for finish in (None, WRAP):
            made = layouts.read(across=layouts.oval(1.0), head_mm=head_mm, finish=finish)
            said = [f for f in check(made, rules=rules) if f.code.startswith("head-")]
            assert [f.grade for f in said] == [Grade.TAKE_CARE]


@pytest.mark.parametrize(
    ("head_mm", "found", "wrapped"),
    [
        (4.0, [], []),  # 4.0 of room, 2.5 over the wrap and its overlap
        (2.2, [], ["head-tight"]),  # 2.2 floats, 0.7 is tight
        (0.9, ["head-tight"], ["head-shut-out"]),  # 0.9 is tight, 0.6 too small
        (-0.4, ["head-does-not-go"], ["head-does-not-go"]),  # it never went
    ],
)
def test_the_fit_is_asked_again_over_a_new_wrap(
    layouts: ModuleType, rules: ShopRules, head_mm: float, found: list[str], wrapped: list[str]
) -> None:
    """0.5 of wrap on lacquer: 1.0 on every diameter and 1.5 through the overlap."""
    round_ = {"across": layouts.oval(0.0), "head_mm": head_mm}
    assert heads(layouts.read(**round_), rules) == found
    assert heads(layouts.read(**round_, finish=WRAP), rules) == wrapped


def test_a_new_wrap_asks_for_a_strip_to_be_tried_first(
    layouts: ModuleType, rules: ShopRules
) -> None:
    made = layouts.read(across=layouts.oval(0.0), head_mm=0.9, finish=WRAP)
    [found] = of(made, rules, "head-shut-out")
    assert "before anything is glued" in found.remedy
    assert "keep a band under the collar free of wrap" in found.remedy
    assert found.measured == pytest.approx(-0.6)
    cares = [f for f in check(made, rules=rules) if f.grade is Grade.TAKE_CARE]
    assert cares[0].code == "head-shut-out"


def test_the_cheapest_way_out_that_can_be_undone_comes_first(
    layouts: ModuleType, rules: ShopRules
) -> None:
    """2.0 oval: 0.5 as it stands and 1.5 eased, which is enough for nothing but two hands."""
    [found] = of(layouts.read(across=layouts.oval(2.0), head_mm=1.5), rules, "head-tight")
    assert found.remedy.startswith("Ease the shell round by hand")
    assert "eased round it sits snug, 1.5 mm of room" in found.says
    [found] = of(layouts.read(across=layouts.oval(0.0), head_mm=0.5), rules, "head-tight")
    assert found.remedy.startswith("Another head, at least 303.6 mm inside its collar")


def test_a_limit_inside_the_doubt_is_too_close_to_call(
    layouts: ModuleType, rules: ShopRules
) -> None:
    [found] = of(layouts.read(across=layouts.oval(0.0), head_mm=0.95), rules, "head-tight")
    assert found.too_close
    assert "measure collar and shell again" in found.says
    [found] = of(layouts.read(across=layouts.oval(0.0), head_mm=0.5), rules, "head-tight")
    assert not found.too_close


def test_an_end_without_a_head_is_passed_over(layouts: ModuleType, rules: ShopRules) -> None:
    """The other end of a single-headed drum: nothing goes on there, so nothing is asked."""
    made = layouts.read()
    resonant = EndReadings(end="resonant", across=layouts.oval(8.0), edge=gaps(layouts, 1.0))
    drum = replace(made.drum, readings=replace(made.drum.readings, resonant=resonant))
    quiet = replace(made, drum=drum)
    assert of(quiet, rules, "out-of-round", "edge-not-flat") == []
    meant = replace(resonant, head=HeadRead(collar_mm=310.0))
    drum = replace(made.drum, readings=replace(made.drum.readings, resonant=meant))
    assert {f.where for f in of(replace(made, drum=drum), rules, "out-of-round")} == {
        "resonant end"
    }


def gaps(layouts: ModuleType, deep_mm: float) -> Any:
    """A saddle by feeler: two stations touch, two stand off by this."""
    return layouts.rim(*(0.0, -deep_mm / 2, -deep_mm, -deep_mm / 2) * 2, resolution_mm=0.05)


@pytest.mark.parametrize(
    ("off_mm", "left"),
    [
        (0.0, 0.4),  # as found
        (0.1, 0.3),  # the low places still lie 0.3 below the cut
        (0.3, None),  # 0.1 is left, and 0.2 is the rule
        (1.0, None),  # the cut reaches everything
    ],
)
def test_a_plain_length_off_leaves_what_it_does_not_reach(
    layouts: ModuleType, rules: ShopRules, off_mm: float, left: float | None
) -> None:
    made = layouts.read(edge=gaps(layouts, 0.4), truing=Truing(batter=Removal(off_mm)))
    found = of(made, rules, "edge-not-flat")
    if left is None:
        assert found == []
        return
    assert [f.measured for f in found] == [pytest.approx(left)]
    assert [f.grade for f in found] == [Grade.TAKE_CARE]
    if off_mm:
        assert "station 3 still lies 0.3 mm below the cut" in found[0].says


def test_an_edge_trued_by_its_readings_is_flat(layouts: ModuleType, rules: ShopRules) -> None:
    edge = gaps(layouts, 1.0)
    assert of(layouts.read(edge=edge), rules, "edge-not-flat")
    for ends, many in ((("batter",), 0), (("resonant",), 1)):
        made = layouts.read(edge=edge, finish=FinishPlan(flatten=Flatten(ends=ends)))
        assert len(of(made, rules, "edge-not-flat")) == many


def test_truing_one_edge_leaves_the_other_as_it_was_read(
    layouts: ModuleType, rules: ShopRules
) -> None:
    """By gauge an edge stands out above its plane: no cut there, however high it stands."""
    edge = layouts.rim(*(0.4, 0.2, 0.0, 0.2) * 2, resolution_mm=0.05)
    made = layouts.read(edge=edge, truing=Truing(resonant=Removal(1.0)))
    [found] = of(made, rules, "edge-not-flat")
    assert found.measured == pytest.approx(0.4)
    assert "cut down" not in found.says


def test_what_is_said_of_one_edge_is_not_said_of_the_other_in_passing(
    layouts: ModuleType, rules: ShopRules
) -> None:
    """Both saddles are 0.4 deep and lie across each other: each names its own high stations."""
    made = layouts.read(edge=gaps(layouts, 0.4))
    across = layouts.rim(*(-0.4, -0.2, 0.0, -0.2) * 2, resolution_mm=0.05)
    readings = replace(made.drum.readings, resonant=EndReadings(end="resonant", edge=across,
        head=HeadRead(collar_mm=400.0)))  # fmt: skip
    both = replace(made, drum=replace(made.drum, readings=readings))
    said = [f.says for f in gathered(of(both, rules, "edge-not-flat"))]
    assert ["station 1" in says for says in said] == [True, False]
    assert ["station 3" in says for says in said] == [False, True]


def test_no_edge_of_metal_is_to_be_sanded(layouts: ModuleType, rules: ShopRules) -> None:
    made = layouts.read(edge=gaps(layouts, 0.4))
    steel = replace(made, drum=replace(made.drum, material=Material.METAL))
    [wood], [metal] = (of(one, rules, "edge-not-flat") for one in (made, steel))
    assert "True the edge" in wood.remedy
    assert metal == replace(wood, remedy="Ask someone who works in that material.")
    assert look_over_survey(steel, rules=rules)[0] == metal


def test_an_edge_that_is_well_is_passed_over(layouts: ModuleType, rules: ShopRules) -> None:
    assert of(layouts.read(edge=gaps(layouts, 0.1)), rules, "edge-not-flat", "edge-flat") == []


def test_readings_are_worked_out_once_for_all_schemes(layouts: ModuleType) -> None:
    made = layouts.read(radii=layouts.lobed(0.5), edge=gaps(layouts, 0.4))
    again = layouts.read(radii=layouts.lobed(0.5), edge=gaps(layouts, 0.4))
    assert surveyed(made.drum, "batter") is surveyed(again.drum, "batter")
    other = layouts.read(radii=layouts.lobed(0.4), edge=gaps(layouts, 0.4))
    assert surveyed(made.drum, "batter") is not surveyed(other.drum, "batter")


def test_old_finish_that_comes_off_gives_room(layouts: ModuleType, rules: ShopRules) -> None:
    """Read over 0.7 of old wrap: 0.3 too small as it lies, 1.8 when it is off."""
    made = layouts.read(across=layouts.oval(0.0), head_mm=0.4)
    wrapped = replace(made.drum, finish=OldFinish(kind="wrap", thickness_mm=0.7))
    assert heads(replace(made, drum=wrapped), rules) == ["head-does-not-go"]
    bare = replace(made, drum=wrapped, finish=FinishPlan(kind="clear lacquer"))
    assert heads(bare, rules) == []
