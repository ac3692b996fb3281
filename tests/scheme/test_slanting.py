"""Slanting edges: closed forms worked by hand beside each case, and planes in space.

Case A of the bench cases (invented): 203.0 deep, batter lugs' holes 41.0 and 83.0 from the batter
edge, six lugs. A slant of "2 mm at 0 degrees falling to 0 at 180" is 1 + cos(along).
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from counterhoop.development.cylinder import on_cylinder
from counterhoop.development.place import Place
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Grade
from counterhoop.scheme.draft import draft_of
from counterhoop.scheme.findings.all_checks import look_over
from counterhoop.scheme.ground import ground_of
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.settle import settle
from counterhoop.scheme.verdict import Verdict
from counterhoop.scheme.wishes.other_lugs import other_lugs
from counterhoop.scheme.wishes.second_head import second_head
from counterhoop.scheme.wishes.shorten import depths_for, shortened
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import FinishPlan, OtherLugs, Pattern, SecondHead, Shorten

SLANT = Removal(1.0, 1.0)
IN_LINE = SecondHead(patterns=(Pattern.IN_LINE,))
ROUND = (0.0, 60.0, 120.0, 180.0, 240.0, 300.0)


def in_line(bench, rules, truing, **drum):
    found = replace(bench.case_a(), **drum)
    ground = ground_of(found, finish=FinishPlan(truing=truing), book=bench.book)
    (made,) = second_head(draft_of(ground), IN_LINE, book=bench.book, rules=rules)
    return settle(made, rules=rules)


def drilled(layout):
    """Heights of the new holes by angle, upper and lower."""
    found = {}
    for plan in layout.holes:
        if plan.verdict is Verdict.DRILL:
            found.setdefault(round(plan.place.along_deg, 6), []).append(plan.place.down_mm)
    return {along: tuple(sorted(found[along])) for along in sorted(found)}


def from_plane_mm(layout, place):
    """Distance of a place from the plane that the resonant edge is trued to, in space.

    The shell stands as found: batter plane on top, resonant plane at z = 0, which the truing
    moves up by ``mean + cos x / R + sin y / R``. Written without any of the program's heights.
    """
    drum, truing, surface = layout.drum, layout.truing, layout.flat.surface
    down = place.down_mm + truing.batter.at_mm(place.along_deg)
    point = np.array(
        on_cylinder(
            Place(place.along_deg, down),
            surface=surface,
            depth_mm=drum.depth_mm,
        )
    )
    off = truing.resonant
    cos, sin = off.cos_mm - drum.depth_cos_mm, off.sin_mm - drum.depth_sin_mm
    normal = np.array([-cos / surface.radius_mm, -sin / surface.radius_mm, 1.0])
    return float((point @ normal - off.mean_mm) / np.linalg.norm(normal))


def test_the_resonant_edge_slants(bench, rules):
    # 203 - 1 - cos - 41 and - 83: 160 and 118 at 0, 162 and 120 at 180.
    layout = in_line(bench, rules, Truing(resonant=SLANT))
    heights = drilled(layout)
    assert heights[0.0] == pytest.approx((118.0, 160.0))
    assert heights[60.0] == heights[300.0] == pytest.approx((118.5, 160.5))
    assert heights[120.0] == heights[240.0] == pytest.approx((119.5, 161.5))
    assert heights[180.0] == pytest.approx((120.0, 162.0))


def test_the_batter_edge_slants(bench, rules):
    # The old batter holes lie 41 - 1 - cos from the new edge: 40 on the mean of six lugs. The
    # second row copies that: 163 and 121 from the edge as found, less 2 at 0 and less 0 at 180.
    layout = in_line(bench, rules, Truing(batter=SLANT))
    assert layout.holes[0].place.down_mm == pytest.approx(39.0)
    heights = drilled(layout)
    assert heights[0.0] == pytest.approx((119.0, 161.0))
    assert heights[60.0] == pytest.approx((119.5, 161.5))
    assert heights[180.0] == pytest.approx((121.0, 163.0))


def test_both_edges_slant_and_end_parallel(bench, rules):
    # 203 - (1 + cos) - (2 - cos) = 200 all round; 40 and 82 from the edge: 160 and 118.
    truing = Truing(batter=SLANT, resonant=Removal(2.0, -1.0))
    heights = drilled(in_line(bench, rules, truing))
    assert set(heights) == set(ROUND)
    for both in heights.values():
        assert both == pytest.approx((118.0, 160.0))


def test_both_edges_slant_each_its_own_way(bench, rules):
    # Depth 200 - cos - sin; 40 and 82 from the resonant edge at each lug's own place.
    truing = Truing(batter=SLANT, resonant=Removal(2.0, 0.0, 1.0))
    for along, both in drilled(in_line(bench, rules, truing)).items():
        a = math.radians(along)
        depth = 200.0 - math.cos(a) - math.sin(a)
        assert both == pytest.approx((depth - 82.0, depth - 40.0))


@pytest.mark.parametrize(
    ("truing", "drum", "from_edge"),
    [
        (Truing(resonant=SLANT), {}, (41.0, 83.0)),
        (Truing(batter=SLANT), {}, (40.0, 82.0)),
        (Truing(batter=SLANT, resonant=Removal(2.0, 0.4, 1.1)), {}, (40.0, 82.0)),
        (Truing(), {"depth_cos_mm": 1.5, "depth_sin_mm": -0.7}, (41.0, 83.0)),
        (Truing(resonant=SLANT), {"depth_cos_mm": 1.5, "depth_sin_mm": -0.7}, (41.0, 83.0)),
    ],
)
def test_a_row_measured_from_its_plane_in_space(bench, rules, truing, drum, from_edge):
    """Independent: planes and points in space. 83 mm along the skin is 0.003 mm more than square
    to a plane that slants by 1.7 mm across 151."""
    layout = in_line(bench, rules, truing, **drum)
    lower_mm, upper_mm = from_edge
    new = [p for p in layout.holes if p.verdict is Verdict.DRILL]
    assert len(new) == 12
    found = sorted(from_plane_mm(layout, plan.place) for plan in new)
    assert found[:6] == pytest.approx([lower_mm] * 6, abs=0.01)
    assert found[6:] == pytest.approx([upper_mm] * 6, abs=0.01)


def test_heights_before_truing_are_seen_in_space_and_by_the_findings(bench, rules):
    """The comparator can fail: the row laid out on the depth as found is up to 2 mm out."""
    layout = in_line(bench, rules, Truing(resonant=SLANT))
    assert stops(layout, rules) == set()

    def untrued(place):
        a = math.radians(place.along_deg)
        return Place(place.along_deg, place.down_mm + 1.0 + math.cos(a))

    slipped = replace(
        layout,
        holes=tuple(
            replace(p, place=untrued(p.place)) if p.verdict is Verdict.DRILL else p
            for p in layout.holes
        ),
        fittings=tuple(
            replace(f, place=untrued(f.place)) if f.status == "new" else f for f in layout.fittings
        ),
    )
    new = [p for p in slipped.holes if p.verdict is Verdict.DRILL]
    off = [
        abs(from_plane_mm(slipped, p.place) - (41.0, 83.0)[i % 2 == 0]) for i, p in enumerate(new)
    ]
    assert max(off) == pytest.approx(2.0, abs=0.01)
    assert "height-before-truing" in stops(slipped, rules)
    # The mean alone right, the slant forgotten: level with the batter edge, not with its own.
    level = replace(
        layout,
        fittings=tuple(
            replace(f, place=Place(f.place.along_deg, 140.0)) if f.status == "new" else f
            for f in layout.fittings
        ),
    )
    assert "height-before-truing" in stops(level, rules)


def test_a_depth_without_the_slant_is_seen(bench, rules):
    layout = in_line(bench, rules, Truing(resonant=SLANT))
    flat = replace(layout.flat, depth_cos_mm=0.0)
    assert "height-before-truing" in stops(replace(layout, flat=flat), rules)


def stops(layout, rules):
    found = look_over(layout, rules=rules).findings
    return {f.code for f in found if f.grade is Grade.STOP}


def test_long_lugs_stand_on_the_local_middle(bench, rules):
    # Depth 202 - cos: middles 100.5 at 0 and 101.5 at 180; the lug's own middle is at 0.
    wish = SecondHead(patterns=(Pattern.LONG_LUGS,))
    finish = FinishPlan(truing=Truing(resonant=SLANT))
    ground = ground_of(bench.case_a(), finish=finish, book=bench.book)
    made = second_head(draft_of(ground), wish, book=bench.book, rules=rules)
    assert made
    for layout in (settle(draft, rules=rules) for draft in made[:1]):
        for lug in layout.lugs("both"):
            middle = lug.height_mm(lug.fitting.middle_down_mm)
            local = (202.0 - math.cos(math.radians(lug.place.along_deg))) / 2.0
            assert middle - local == pytest.approx(made[0].rows[-1].proof.off_middle_mm, abs=1e-6)
        assert not {f.code for f in look_over(layout, rules=rules).findings} & {
            "long-lug-off-middle",
            "hole-off-pattern",
        }


def two_headed(bench, *, depth_cos_mm=1.0):
    """Lugs level with each edge of a shell 203 + cos deep, as one finds them on a tilted shell."""
    drum = bench.bare(heads=2)
    drum = bench.with_row(drum, "Corvane round lug", count=6, down_mm=55.0)
    drum = bench.with_row(drum, "Corvane round lug", count=6, down_mm=148.0, head="resonant")
    drum = replace(drum, depth_cos_mm=depth_cos_mm)
    numbers = {n for lug in drum.rows[1].lugs for n in lug.holes}

    def down(place):
        swing = depth_cos_mm * math.cos(math.radians(place.along_deg))
        return Place(place.along_deg, place.down_mm + swing)

    resonant = drum.rows[1]
    lugs = tuple(replace(lug, place=down(lug.place)) for lug in resonant.lugs)
    return replace(
        drum,
        holes=tuple(
            replace(h, place=down(h.place)) if h.number in numbers else h for h in drum.holes
        ),
        rows=(drum.rows[0], replace(resonant, lugs=lugs)),
    )


def test_a_row_that_follows_its_slanting_edge_serves_again(bench, rules):
    """Old holes level with the resonant edge: new lugs of the same pattern use every one."""
    drum = two_headed(bench)
    ground = ground_of(drum, finish=FinishPlan(), book=bench.book)
    wish = OtherLugs(lug="Corvane round lug", heads=("resonant",))
    layout = settle(
        other_lugs(draft_of(ground), wish, book=bench.book, rules=rules)[0], rules=rules
    )
    kept = [p for p in layout.holes if p.of.startswith("resonant")]
    assert {p.verdict for p in kept} == {Verdict.KEEP}
    assert max(p.off_mm for p in kept) == pytest.approx(0.0, abs=1e-9)
    assert not any(p.verdict is Verdict.DRILL for p in layout.holes)
    mouths = heads_of(layout)[1].mouths
    assert max(m.below_edge_mm for m in mouths) == pytest.approx(
        min(m.below_edge_mm for m in mouths)
    )


def test_a_cut_is_parallel_to_the_edge_that_stays(bench, rules):
    # 203 + 1.5 cos deep, 1 + cos off the batter edge: 202 + 0.5 cos are left. Cut to 165.0 from
    # there all round: 37 + 0.5 cos come off.
    drum = replace(bench.bare(), depth_cos_mm=1.5)
    truing = Truing(batter=SLANT)
    (depth,) = depths_for(
        drum, wished_mm=165.0, free_mm=0.0, end="resonant", rules=rules, truing=truing
    )
    assert depth.cut == Removal(37.0, 0.5, 0.0)
    finish = shortened(FinishPlan(truing=truing), depth)
    flat = ground_of(drum, finish=finish, book=bench.book).flat
    assert flat.depth_mm == pytest.approx(165.0)
    assert flat.swings_mm() == pytest.approx((0.0, 0.0))


def test_a_hole_is_spared_by_the_cut_at_its_own_place(bench, rules):
    # A 6 mm hole at 150 from the batter edge; 153 + the rule is the least depth with parallel
    # edges. Where 2 mm come off the batter edge, 2 less will do; opposite, as much as before.
    drum = bench.with_hole(bench.bare(), 0.0, 150.0, 6.0)
    least = 153.0 + rules.edge_mm
    for truing, needs in ((Truing(), least), (Truing(batter=SLANT), least - 2.0)):
        found = depths_for(
            drum, wished_mm=needs, free_mm=0.0, end="resonant", rules=rules, truing=truing
        )
        assert [d.depth_mm for d in found] == [pytest.approx(needs)]


def test_a_shortened_drum_has_its_row_level_with_the_cut(bench, shop):
    drum = two_headed(bench)
    wanted = DrumWanted(
        drum=drum, wishes=(Shorten(depth_mm=170.0),), finish=FinishPlan(truing=Truing(batter=SLANT))
    )
    for scheme in schemes_for(wanted, shop=shop).every:
        flat = scheme.layout.flat
        assert flat.swings_mm() == pytest.approx((0.0, 0.0))
        downs = [lug.place.down_mm for lug in scheme.layout.lugs("resonant")]
        assert max(downs) == pytest.approx(min(downs))


def test_holes_cut_away_are_told_at_their_own_place(bench):
    # 203 deep; 40 come off at 0 degrees and none at 180: the same height is cut and spared.
    drum = bench.with_hole(bench.bare(), 0.0, 180.0, 6.0)
    drum = bench.with_hole(drum, 180.0, 180.0, 6.0)
    finish = FinishPlan(truing=Truing(resonant=Removal(20.0, 20.0)))
    ground = ground_of(drum, finish=finish, book=bench.book)
    assert [h.number for h in ground.cut_away] == [1]
    assert [h.number for h in ground.holes] == [2]
