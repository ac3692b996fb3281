"""The demonstration holds the lessons it was made for.

Expected figures are worked by hand from the survey's own numbers; limits are the packaged shop
rules (common practice, no source).
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from counterhoop.bench.open_job import open_job
from counterhoop.bench.plan_job import DrumPlan, JobPlan, plan_job
from counterhoop.development.polygon import covers
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.rank import SetAside
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Condition, Origin
from counterhoop.shell.wish import Pattern
from planned_once import planned_demo

ROOT = Path(__file__).parents[2]
PACKAGED = ROOT / "src" / "counterhoop" / "bench" / "demonstration" / "survey.toml"
EXAMPLE = ROOT / "examples" / "survey.toml"


@pytest.fixture(scope="module")
def plan() -> JobPlan:
    return planned_demo()


def chosen(plan: JobPlan, key: str) -> Scheme:
    scheme = plan.drum(key).chosen
    assert scheme is not None
    return scheme


def aside(drum: DrumPlan, pattern: str) -> SetAside:
    return next(a for a in drum.ranked.set_aside if a.scheme.pattern == pattern)


def test_the_example_a_user_changes_is_the_packaged_one() -> None:
    assert EXAMPLE.read_bytes() == PACKAGED.read_bytes()


def test_it_opens_as_a_file_of_ones_own_does(plan: JobPlan) -> None:
    own = open_job(EXAMPLE)
    assert own.job == plan.opened.job
    assert own.shop == plan.opened.shop


def test_every_drum_has_a_scheme_that_can_be_drilled_and_shows_it(plan: JobPlan) -> None:
    assert len(plan.drums) == 7
    for drum in plan.drums:
        assert drum.chosen is not None, drum.key
        assert not drum.chosen.stopped, drum.key
        assert drum.chosen in drum.ranked.shown, drum.key
    assert plan.kit is not None
    assert plan.kit.proven


def test_the_drums_have_five_kinds_of_wish_and_two_have_none(plan: JobPlan) -> None:
    wishes = [tuple(type(w).__name__ for w in d.wanted.wishes) for d in plan.drums]
    kinds = {("SecondHead",), ("TakeOut", "KitSnare"), ("TakeOut",), ("BackToFactory",)}
    assert {kind for kind in wishes if kind} == kinds
    assert wishes.count(()) == 2
    assert plan.opened.job.match == (("small tom", "large tom"),)


def test_depths_are_those_of_toms_of_that_kind(plan: JobPlan) -> None:
    # Common practice, no source: 12 in about 200 mm from edge to edge, 13 in about 220.
    # Edge to edge the small tom reads 200.5 and stands 0.5 hollow on the plate; 0.9 and 1.5 go.
    assert chosen(plan, "small tom").layout.flat.depth_mm == pytest.approx(198.6, abs=0.05)
    assert chosen(plan, "large tom").layout.flat.depth_mm == pytest.approx(219.0)


def test_in_line_and_long_lugs_are_stopped_by_the_bracket_on_a_row_line(plan: JobPlan) -> None:
    # Block 60 wide and lug 24 wide on one line: half of both is 42 mm of overlap.
    for pattern in (Pattern.IN_LINE, Pattern.LONG_LUGS):
        found = aside(plan.drum("large tom"), pattern)
        assert found.cause == "stopped"
        assert "bracket" in found.says
        assert "42.0 mm" in found.says


def test_the_two_toms_match_though_one_alone_would_take_another_pattern(plan: JobPlan) -> None:
    small = plan.drum("small tom")
    assert small.ranked.shown[0].pattern == Pattern.IN_LINE
    assert {chosen(plan, key).pattern for key in ("small tom", "large tom")} == {Pattern.HALF_ALONG}
    assert plan.kit is not None
    assert plan.kit.chosen.differences == 0
    why = chosen(plan, "small tom").why
    assert "must match the large tom" in why
    assert "second row in line, is stopped" in why
    assert (
        "On its own the small tom would take second row in line; that is stopped on the large"
        " tom, which it must match." in plan.kit.says
    )


def test_a_long_lug_on_the_middle_lands_on_old_holes_and_its_base_covers_the_plugs(
    plan: JobPlan,
) -> None:
    # Middle of what truing leaves at each place; holes 12.7 either side; the old lower hole at
    # 40.5 + 42 = 82.5 less what comes off the batter edge there: 3.9 to 5.2 apart.
    scheme = next(
        s
        for s in plan.drum("small tom").ranked.every
        if s.pattern == Pattern.LONG_LUGS and s.centred
    )
    layout = scheme.layout
    through = [h for h in layout.holes if h.verdict is Verdict.PLUG_AND_DRILL]
    assert len(through) == 6
    for hole in through:
        along = hole.place.along_deg
        off = layout.truing.batter.at_mm(along)
        wanted = layout.flat.depth_at_mm(along) / 2.0 - 12.7
        assert hole.place.down_mm == pytest.approx(wanted, abs=1e-6)
        apart = wanted - (82.5 - off)
        # Half the distance, half the hole and 3 mm all round, on both sides, to the next half.
        assert hole.plug_mm == pytest.approx(math.ceil(2.0 * (apart + 6.0 + 6.0)) / 2.0)
    plugs = [h for h in layout.holes if h.verdict is Verdict.PLUG and h.number <= 12]
    assert len(plugs) == 12
    assert all(h.covered for h in plugs)


def test_a_long_lug_moved_onto_the_old_holes_is_shown_and_said(plan: JobPlan) -> None:
    scheme = next(s for s in plan.drum("small tom").ranked.shown if s.pattern == "long lugs")
    assert not scheme.centred
    assert any("6 more old holes" in says for says in scheme.near_misses)
    assert "5.0 mm off the middle" in " ".join(scheme.near_misses)


def test_stock_is_short_and_it_is_said(plan: JobPlan) -> None:
    job = plan.opened.job
    stock = dict(job.stock)
    long = [
        (line.count, line.bought)
        for key in ("small tom", "large tom")
        for a in plan.drum(key).ranked.set_aside
        if a.scheme.pattern == Pattern.LONG_LUGS
        for line in a.scheme.parts
        if "long lug" in line.name
    ]
    assert long == [(6, 2), (6, 2)]
    assert stock["Corvane round lug"] == 9
    assert plan.kit is not None
    assert "Corvane round lug: 12 wanted, 9 in stock, 3 to buy at 7.50 GBP each." in plan.kit.says


def test_the_obvious_depth_is_refused_with_the_holes_and_the_nearest_is_taken(
    plan: JobPlan,
) -> None:
    # 6 1/2 in = 165.1; the snare side's inner holes are at 253.36 - 88 = 165.36 from the plate,
    # 164.42 from the trued edge where it takes most, 6 wide. Whole with the offcut, half a
    # millimetre of doubt in hole and depth: 164.42 - 3 - 1 = 160.42, and down to half a millimetre.
    scheme = chosen(plan, "marching snare")
    assert scheme.layout.flat.depth_mm == pytest.approx(160.0)
    (says,) = [s for s in scheme.near_misses if s.startswith("At 165.1 mm")]
    inner = [
        hole.number
        for hole in scheme.layout.drum.holes
        if hole.purpose.startswith("resonant lug") and abs(hole.place.down_mm - 165.36) < 0.01
    ]
    assert len(inner) == 8
    assert all(str(number) in says for number in inner)
    others = [s.layout.flat.depth_mm for s in plan.drum("marching snare").ranked.shown]
    assert all(abs(165.1 - 160.0) <= abs(165.1 - depth) for depth in others)


def test_the_kit_snare_keeps_eight_holes_and_buys_no_part_that_comes_off_it(
    plan: JobPlan,
) -> None:
    scheme = chosen(plan, "marching snare")
    verdicts = [h.verdict for h in scheme.layout.holes]
    assert verdicts.count(Verdict.KEEP) == 8
    assert verdicts.count(Verdict.DRILL) == 8 + 16 + 2 + 2
    assert verdicts.count(Verdict.PLUG) == 8 + 4
    assert "Corvane butt" not in {line.name for line in scheme.parts}
    assert scheme.layout.put_on_again == {"strainer", "butt"}
    ends = {f.label: f.place for f in scheme.layout.standing}
    across = ends["strainer"].along_deg - ends["butt"].along_deg
    assert abs(across) == pytest.approx(180.0)


def test_one_approval_is_recorded_and_covers_what_is_chosen(plan: JobPlan) -> None:
    scheme = chosen(plan, "marching snare")
    (yes,) = plan.opened.job.approvals
    assert yes.covers == scheme.code, f"write {scheme.code} into both survey files"
    assert scheme.approved
    approved = {d.key for d in plan.drums if d.chosen is not None and d.chosen.approved}
    assert approved == {"marching snare"}


def test_the_plate_covers_every_hole_of_the_mount_the_broken_one_too(plan: JobPlan) -> None:
    scheme = chosen(plan, "bass drum")
    layout = scheme.layout
    plate = next(f for f in layout.standing if f.label == "cover plate")
    assert plate.outline is not None
    mount = next(f for f in layout.drum.fittings if f.label == "mount")
    assert len(mount.holes) == 4
    broken = [n for n in mount.holes if layout.drum.hole(n).condition is Condition.BROKEN_OUT]
    assert len(broken) == 1
    for number in mount.holes:
        hole = layout.drum.hole(number)
        assert covers(
            plate.outline,
            plate.place,
            hole.place,
            hole.shape,
            surface=layout.flat.surface,
            by_mm=1.0,
        )
    by_number = {h.number: h.verdict for h in layout.holes}
    assert by_number[broken[0]] is Verdict.LEAVE_OPEN
    assert [by_number[n] for n in mount.holes if n not in broken] == [Verdict.KEEP] * 3
    assert scheme.criteria.cut == 0
    assert scheme.criteria.shows_mm2 == 0.0


def test_back_to_factory_plugs_extras_and_leaves_the_unsure_one_open(plan: JobPlan) -> None:
    layout = chosen(plan, "old snare").layout
    verdicts = {h.number: h.verdict for h in layout.holes}
    for hole in layout.drum.holes:
        if hole.origin is Origin.EXTRA:
            assert verdicts[hole.number] is Verdict.PLUG, hole.number
        elif hole.origin is Origin.NOT_SURE:
            assert verdicts[hole.number] is Verdict.LEAVE_OPEN, hole.number
        else:
            assert verdicts[hole.number] in (Verdict.KEEP, Verdict.LEAVE_OPEN), hole.number
    assert sum(h.origin is Origin.EXTRA for h in layout.drum.holes) == 4
    assert sum(h.origin is Origin.NOT_SURE for h in layout.drum.holes) == 1
    standing = {f.label: f.status for f in layout.standing}
    assert standing["strainer"] == "new"
    assert "later strainer" not in standing
    assert "damper" not in standing


def test_bench_time_and_parts_are_those_of_the_jobs_own_figures(plan: JobPlan) -> None:
    # Small tom: edge 75, ring 60, truing two edges at 35, one plug 15, twelve holes at 8, six
    # lugs at 5, a row 25, hoop and head 12.
    assert chosen(plan, "small tom").minutes == pytest.approx(
        75 + 60 + 2 * 35 + 15 + 12 * 8 + 6 * 5 + 25 + 12
    )
    # Bass drum: a plate, 15 minutes at 34.00 an hour, and the plate itself at 12.00.
    assert chosen(plan, "bass drum").criteria.money_minor == 850 + 1200
    assert plan.kit is not None
    bench = sum(chosen(plan, d.key).minutes for d in plan.drums)
    assert plan.kit.chosen.bench_minor == pytest.approx(bench * 3400 / 60, abs=len(plan.drums))


def test_the_starter_tom_takes_a_second_row_of_the_lugs_it_has() -> None:
    # Common practice, no source: toms of 14 in and more have depth for it.
    single = plan_job(open_job(ROOT / "examples" / "single-tom.toml"))
    (drum,) = single.drums
    assert drum.chosen is not None
    assert drum.chosen.pattern == Pattern.IN_LINE
    assert not drum.chosen.stopped
