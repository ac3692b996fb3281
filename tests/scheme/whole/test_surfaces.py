"""A new finish moves no angle; heights count from the edge that is there then; exact laws."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.development.truing import Removal, Truing
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import FinishPlan, Pattern, SecondHead


def planned(drum, shop, finish: FinishPlan):
    wish = SecondHead(patterns=(Pattern.HALF_ALONG,))
    ranked = schemes_for(DrumWanted(drum=drum, wishes=(wish,), finish=finish), shop=shop)
    scheme = ranked.shown[0]
    new = [plan for plan in scheme.layout.holes if plan.verdict is Verdict.DRILL]
    assert len(new) == 12
    return scheme.layout, new


@pytest.mark.parametrize("thickness_mm", [0.5, 1.2])
def test_a_new_wrap_moves_no_angle_and_lengthens_the_skin_by_pi(bench, shop, thickness_mm):
    # A skin t further out is 2 pi t longer (Euclid); the old lacquer counts as nothing.
    bare, on_bare = planned(bench.case_a(), shop, FinishPlan(kind="clear lacquer"))
    over, on_wrap = planned(
        bench.case_a(), shop, FinishPlan(kind="new wrap", thickness_mm=thickness_mm)
    )
    girths = bare.flat.surface.circumference_mm, over.flat.surface.circumference_mm
    longer = 2.0 * math.pi * thickness_mm
    assert girths[1] - girths[0] == pytest.approx(longer)
    for before, after in zip(on_bare, on_wrap, strict=True):
        assert after.place.along_deg == pytest.approx(before.place.along_deg, abs=1e-9)
        assert after.place.down_mm == pytest.approx(before.place.down_mm)
        further = over.flat.surface.along_mm(after.place.along_deg)
        further -= bare.flat.surface.along_mm(before.place.along_deg)
        assert further == pytest.approx(longer * before.place.along_deg / 360.0)


def test_heights_before_and_after_truing(bench, shop):
    # 2 off the batter edge lift every old hole by 2; the second row keeps its way to its own edge.
    found, before = planned(bench.case_a(), shop, FinishPlan())
    truing = Truing(batter=Removal(2.0), resonant=Removal(1.0))
    trued, after = planned(bench.case_a(), shop, FinishPlan(truing=truing))
    assert trued.flat.depth_mm == pytest.approx(found.flat.depth_mm - 3.0)
    assert trued.flat.after_truing
    assert not found.flat.after_truing
    old = {plan.number: plan.place.down_mm for plan in found.holes if plan.old is not None}
    for plan in trued.holes:
        if plan.old is not None:
            assert plan.place.down_mm == pytest.approx(old[plan.number] - 2.0)
    up = [found.flat.depth_mm - plan.place.down_mm for plan in before]
    up_trued = [trued.flat.depth_mm - plan.place.down_mm for plan in after]
    assert up_trued == pytest.approx([height - 2.0 for height in up])


def test_a_slanting_cut_lifts_each_hole_by_its_own(bench, shop):
    cut = Removal(2.0, cos_mm=1.0, sin_mm=0.5)
    found, _ = planned(bench.case_a(), shop, FinishPlan())
    wanted = DrumWanted(
        drum=bench.case_a(), wishes=(SecondHead(),), finish=FinishPlan(truing=Truing(batter=cut))
    )
    layout = schemes_for(wanted, shop=shop).shown[0].layout
    old = {plan.number: plan for plan in found.holes if plan.old is not None}
    for plan in layout.holes:
        if plan.old is not None:
            angle = math.radians(plan.place.along_deg)
            off = 2.0 + math.cos(angle) + 0.5 * math.sin(angle)
            there = replace(old[plan.number].place, down_mm=old[plan.number].place.down_mm - off)
            assert plan.place.down_mm == pytest.approx(there.down_mm)
            assert plan.place.along_deg == there.along_deg
