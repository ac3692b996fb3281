"""Truing by readings goes into the finish plan; edges and finish alone make a scheme."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.trued import trued, truing_plan
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.readings import EndReadings, Readings, RimReadings
from counterhoop.shell.wish import (
    FinishPlan,
    Flatten,
    OtherLugs,
    Pattern,
    SecondHead,
    Shorten,
)

STATIONS = tuple(45.0 * n for n in range(8))


def edge(heights):
    return RimReadings(
        along_deg=STATIONS[: len(heights)],
        value_mm=tuple(heights),
        instrument="feeler gauges on a flat plate",
        resolution_mm=0.05,
    )


def read(drum, **heights):
    ends = {end: EndReadings(end=end, edge=edge(mm)) for end, mm in heights.items()}
    return replace(drum, readings=Readings(**ends))


def wanted(drum, *, wishes=(), **plan):
    return DrumWanted(drum=drum, wishes=wishes, finish=FinishPlan(**plan))


SADDLE = (0.0, -0.3, 0.0, -0.3, 0.0, -0.3, 0.0, -0.3)
"""Gaps of 0.3 at every other station: the plane lies 0.3 lower all round."""
LEANING = tuple(-0.4 * (1.0 - math.cos(math.radians(a))) for a in STATIONS)
"""A true edge that stands on the plate at 0 degrees only: 0.8 of gap opposite."""


def test_the_readings_go_into_the_plan_and_lengths_of_the_other_end_stay(bench):
    drum = read(bench.case_a(), batter=SADDLE)
    plan = {"truing": Truing(resonant=Removal(3.0)), "flatten": Flatten(ends=("batter",))}
    found = trued(wanted(drum, **plan)).finish.truing
    assert found.batter.mean_mm == pytest.approx(0.3, abs=1e-9)
    assert (found.batter.cos_mm, found.batter.sin_mm) == pytest.approx((0.0, 0.0), abs=1e-9)
    assert found.resonant == Removal(3.0)


def test_a_plane_that_leans_moves_every_height_at_its_own_place(bench):
    # The edge is flat already: the new plane is the edge itself, 0.4 - 0.4 cos under the plate.
    drum = read(bench.case_a(), resonant=LEANING)
    made = trued(wanted(drum, flatten=Flatten(ends=("resonant",), fresh_mm=0.5)))
    off = made.finish.truing.resonant
    assert (off.mean_mm, off.cos_mm) == pytest.approx((0.9, -0.4), abs=1e-6)
    made = replace(made, wishes=(SecondHead(patterns=(Pattern.IN_LINE,)),))
    assert trued(made) == made


def test_twice_is_once_and_nothing_asked_is_nothing_done(bench):
    drum = read(bench.case_a(), batter=SADDLE, resonant=LEANING)
    asked = wanted(drum, flatten=Flatten(ends=("batter", "resonant")))
    once = trued(asked)
    assert trued(once) == once != asked
    plain = wanted(drum)
    assert trued(plain) is plain
    assert truing_plan(plain) is None


def test_an_edge_said_twice_is_refused(bench):
    drum = read(bench.case_a(), batter=SADDLE)
    both = wanted(drum, truing=Truing(batter=Removal(1.0)), flatten=Flatten(ends=("batter",)))
    with pytest.raises(BadInput, match="said twice"):
        trued(both)


def test_an_end_that_is_cut_off_is_not_trued(bench, shop):
    drum = read(bench.bare(heads=2), batter=SADDLE, resonant=SADDLE)
    asked = wanted(
        drum, wishes=(Shorten(depth_mm=160.0),), flatten=Flatten(ends=("batter", "resonant"))
    )
    plan = truing_plan(asked)
    assert plan.resonant is None
    (made,) = schemes_for(asked, shop=shop).shown
    assert made.layout.finish.flatten.ends == ("batter",)
    assert made.layout.truing.resonant.mean_mm == pytest.approx(203.0 - 0.3 - 160.0)
    counts = {line.operation: line.count for line in made.work}
    assert (counts["cut an end off"], counts["true an edge"]) == (1, 1)


def test_truing_by_readings_costs_what_a_length_costs(bench, shop):
    drum = read(bench.case_a(), batter=SADDLE)
    wishes = (OtherLugs(lug="Corvane round lug", heads=("batter",)),)
    by_readings = wanted(drum, wishes=wishes, flatten=Flatten(ends=("batter",)))
    by_length = wanted(drum, wishes=wishes, truing=Truing(batter=Removal(0.3)))
    ours, theirs = (schemes_for(w, shop=shop).every for w in (by_readings, by_length))
    assert [s.work for s in ours] == [s.work for s in theirs]
    assert [s.code for s in ours] == [s.code for s in theirs]


def test_the_code_covers_the_slant(bench, shop):
    # Nothing else differs: the same mean, another way round.
    codes = set()
    for resonant in (Removal(1.0), Removal(1.0, 0.5), Removal(1.0, 0.0, 0.5)):
        plan = wanted(bench.bare(heads=2), truing=Truing(resonant=resonant))
        codes.add(schemes_for(plan, shop=shop).shown[0].code)
    assert len(codes) == 3


@pytest.mark.parametrize(
    "plan",
    [
        {"truing": Truing(batter=Removal(0.5))},
        {"kind": "new wrap", "thickness_mm": 0.5},
        {"kind": "paint"},
    ],
)
def test_edges_and_finish_alone_are_one_scheme_that_keeps_every_hole(bench, shop, plan):
    drum = bench.with_hole(bench.case_a(), 200.0, 90.0, 6.0)
    ranked = schemes_for(wanted(drum, **plan), shop=shop)
    (made,) = ranked.every
    assert made.title == "Edges and finish only"
    assert {p.verdict for p in made.layout.holes} <= {Verdict.KEEP, Verdict.LEAVE_OPEN}
    assert len(made.layout.holes) == len(drum.holes)
    assert made.permanent
    assert made.code


def test_nothing_wished_and_nothing_to_do_is_no_scheme(bench, shop):
    assert schemes_for(wanted(bench.case_a()), shop=shop).every == ()
