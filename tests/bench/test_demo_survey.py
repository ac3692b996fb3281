"""What the demonstration's readings lead to: truing, a head, threads.

Expected figures are worked by hand from the survey's own numbers or by scipy's linear programming,
which the program does not use for this; limits are the packaged shop rules (common practice, no
source).
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import linprog

from counterhoop.bench.open_job import opened
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import wrap_plans
from counterhoop.survey.truing_plan import EdgeCut

DEMO = Path(__file__).parents[2] / "examples" / "survey.toml"


def planned(text: str) -> JobPlan:
    def no_book(name: str) -> bytes:
        raise AssertionError(name)

    return plan_job(opened(text.encode(), name="demonstration", book_of=no_book))


@pytest.fixture(scope="module")
def plan() -> JobPlan:
    return planned(DEMO.read_text("utf-8"))


@pytest.fixture(scope="module")
def untrued() -> JobPlan:
    text, count = re.subn(r'^true_batter = "flat"\n', "", DEMO.read_text("utf-8"), flags=re.M)
    assert count == 2
    return planned(text)


def chosen(plan: JobPlan, key: str) -> Scheme:
    scheme = plan.drum(key).chosen
    assert scheme is not None
    return scheme


def batter_cut(plan: JobPlan, key: str) -> EdgeCut:
    found = plan.drum(key).surveyed.plan
    assert found is not None
    assert found.batter is not None
    return found.batter


def rods(scheme: Scheme) -> dict[str, str]:
    return {rod.head: rod.rod.name for rod in scheme.layout.rods if rod.rod is not None}


@pytest.mark.parametrize("key", ["small tom", "marching snare"])
def test_the_plane_is_the_one_that_takes_least_at_the_worst_station(
    plan: JobPlan, key: str
) -> None:
    cut = batter_cut(plan, key)
    edge = plan.drum(key).surveyed.survey.batter.edge
    assert edge is not None
    angles = np.radians(edge.along_deg)
    rim = np.column_stack((np.ones(len(angles)), np.cos(angles), np.sin(angles)))
    heights = np.asarray(edge.height_mm)
    # Least t with 0 <= height - plane <= t at every station.
    best = linprog(
        [0.0, 0.0, 0.0, 1.0],
        A_ub=np.block([[rim, np.zeros((len(rim), 1))], [-rim, -np.ones((len(rim), 1))]]),
        b_ub=np.concatenate((heights, -heights)),
        bounds=[(None, None)] * 4,
    )
    assert cut.most_mm == pytest.approx(best.fun, abs=1e-9)
    assert min(cut.removal_mm) == pytest.approx(0.0, abs=1e-9)


def test_truing_changes_two_schemes(plan: JobPlan, untrued: JobPlan) -> None:
    # The snare's inner holes lie 0.9 nearer to the new edge: it can keep half a millimetre less
    # of its depth, and another half by the rounding.
    depths = [chosen(p, "marching snare").layout.flat.depth_mm for p in (untrued, plan)]
    assert depths == pytest.approx([161.0, 160.0])
    # The small tom's lug mouths lie nearer to the hoop: the next shorter rod engages enough.
    before, after = (rods(chosen(p, "small tom")) for p in (untrued, plan))
    assert set(before.values()) == {"rod 12-24 x 42 mm"}
    assert set(after.values()) == {"rod 12-24 x 38 mm"}
    # The batter row's holes read 40.5 and 82.5 from the plate, and lie 0.9 nearer to the trued
    # edge taken all round: the new row is set off from its own edge by what is so left.
    for found, off in ((untrued, 0.0), (plan, 0.9)):
        layout = chosen(found, "small tom").layout
        up = {
            round(
                layout.flat.from_end_mm(
                    hole.place.down_mm, end="resonant", along_deg=hole.place.along_deg
                ),
                6,
            )
            for hole in layout.holes
            if hole.verdict.drills
        }
        assert sorted(up) == pytest.approx([40.5 - off, 82.5 - off])


def test_drums_that_are_not_trued_keep_their_schemes(plan: JobPlan, untrued: JobPlan) -> None:
    for key in ("large tom", "bass drum", "old snare", "low tom", "floor tom"):
        assert chosen(plan, key).code == chosen(untrued, key).code


def test_no_head_of_today_goes_on_the_floor_tom(plan: JobPlan) -> None:
    drum = plan.drum("floor tom")
    codes = [f.code for f in chosen(plan, "floor tom").findings]
    assert codes.count("head-does-not-go") == 2
    # Eased round, over the old wrap: girth of 1286 less half the tape, over pi, and its overlap.
    around = dict(drum.wanted.drum.circumference.readings_mm)["batter"]
    assert around / math.pi > 408.4
    # A new 14 in head on the low tom floats, over its new wrap too: 356.6 less 353.9 and less.
    low = [f.code for f in chosen(plan, "low tom").findings if f.code.startswith("head-")]
    assert "head-does-not-go" not in low


def test_two_threads_look_alike_and_the_reading_that_tells_is_named(plan: JobPlan) -> None:
    (low,) = plan.drum("low tom").surveyed.survey.threads
    alike = {c.thread.designation for c in low.odds.alike}
    assert {"12-24 UNC", "7/32-24", "7/32 BSW"} <= alike
    (floor,) = plan.drum("floor tom").surveyed.survey.threads
    assert {c.thread.designation for c in floor.odds.alike} == {"M6", "0BA"}
    for key, word in (("low tom", "largest"), ("floor tom", "thread gauges")):
        said = [f.says + f.remedy for f in chosen(plan, key).findings if "thread" in f.code]
        assert any(word in says for says in said), key


def test_the_readings_themselves_do_not_quarrel(plan: JobPlan) -> None:
    quarrels = {"readings-disagree", "station-missed", "dial-turn-missed", "reading-astray"}
    for drum in plan.drums:
        assert not quarrels & {f.code for f in drum.surveyed.suspects}, drum.key


def test_the_obvious_order_of_cutting_wastes_a_sheet(plan: JobPlan) -> None:
    schemes = [chosen(plan, drum.key) for drum in plan.drums]
    (wrap,) = wrap_plans(plan.opened.job, schemes, rules=plan.opened.shop.rules)
    # The offcut is 340 wide. Cut in the order of the job it goes on the snare's strip of 136, and
    # then 331 and 382 do not go on one sheet of 610; kept for the low tom, 136 and 382 do.
    widths = {piece.drum: piece.width_mm for piece in wrap.pieces}
    assert widths == pytest.approx({"marching snare": 136, "low tom": 331, "floor tom": 382})
    assert (wrap.nesting.new_sheets, wrap.nesting.offcuts_used) == (1, 1)
    assert wrap.nesting.proven
    assert (wrap.obvious.new_sheets, wrap.saved_sheets, wrap.saved_minor) == (2, 1, 9600)
    # Girth of the bare wood and pi times the wrap, and the overlap.
    taped = max(mm for _, mm in plan.drum("floor tom").wanted.drum.circumference.readings_mm)
    long = next(p.length_mm for p in wrap.pieces if p.drum == "floor tom")
    assert long == pytest.approx(taped - 2 * math.pi * 0.4 + math.pi * 0.5 + 20.0, abs=0.5)


def test_the_seam_hides_under_a_line_of_lugs_and_never_half(plan: JobPlan) -> None:
    schemes = [chosen(plan, drum.key) for drum in plan.drums]
    (wrap,) = wrap_plans(plan.opened.job, schemes, rules=plan.opened.shop.rules)
    for drum in wrap.drums:
        (along,) = drum.seams[0].along_deg
        lugs = [f.place.along_deg for f in chosen(plan, drum.drum).layout.standing if f.row]
        assert min(abs((along - lug + 180.0) % 360.0 - 180.0) for lug in lugs) < 0.2, drum.drum
