"""New wraps of a job: sizes worked by hand, laws of geometry, and a layout checked by shapely."""

from __future__ import annotations

import math
import time
from dataclasses import replace
from itertools import combinations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from wrapped_jobs import BADGE, LUG, RULES, STOCK, bass, job_of, lugs, there, wrapped

from counterhoop.development.outline import rounded
from counterhoop.errors import BadInput
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import WrapPlan, wrap_plans
from counterhoop.scheme.wrapping.words import grows_say, sheets_say, would_do_say
from counterhoop.shell.drum import Circumference, Edge
from counterhoop.shell.readings import Air, EndReadings, HeadRead, Readings
from counterhoop.shell.wrap_stock import Offcut, WrapStock


def plan_of(*schemes: Scheme, stock: WrapStock = STOCK) -> WrapPlan:
    (plan,) = wrap_plans(job_of(*schemes, stock=stock), schemes, rules=RULES)
    return plan


def test_one_drum_by_hand() -> None:
    # Bare 300.0 under 0.5 mm of old wrap: pi x 300.5 + 25 = 969.05, marked at 969.5.
    # 178 deep, 12 clear of both edges: 154.
    plan = plan_of(wrapped())
    (drum,) = plan.drums
    assert drum.cut.lengths_mm == pytest.approx((969.0486,), abs=1e-3)
    assert (drum.pieces[0].length_mm, drum.pieces[0].width_mm) == (969.5, 154.0)
    assert drum.bare_girth_mm == pytest.approx(300.0 * math.pi)
    assert drum.cut.diameter_mm == pytest.approx(301.0)
    assert grows_say(drum, thickness_mm=0.5) == (
        "The wrap adds 1.0 mm to every diameter, 1.5 mm through the overlap: "
        "about 301 mm across by the tape."
    )


def test_the_longest_of_all_girths_decides() -> None:
    scheme = wrapped()
    girth = scheme.layout.drum.circumference
    readings = tuple(zip(("batter", "middle", "resonant"), (945.0, 946.5, 945.5), strict=True))
    drum = replace(scheme.layout.drum, circumference=replace(girth, readings_mm=readings))
    scheme = replace(scheme, layout=replace(scheme.layout, drum=drum))
    # Bare 946.5 - pi = 943.358; one turn + pi x 0.5; and 25: 969.929.
    assert plan_of(scheme).drums[0].cut.lengths_mm[0] == pytest.approx(969.929, abs=1e-3)


def test_a_girth_read_on_bare_wood_is_taken_as_it_is() -> None:
    scheme = wrapped()
    bare = Circumference(skin=scheme.layout.drum.circumference.skin.BARE, mean_mm=942.0)
    drum = replace(scheme.layout.drum, circumference=bare)
    got = plan_of(replace(scheme, layout=replace(scheme.layout, drum=drum)))
    assert got.drums[0].cut.lengths_mm[0] == pytest.approx(942.0 + math.pi / 2 + 25.0)


def test_edges_that_slant_leave_the_shortest_depth() -> None:
    # Swing 3 and 4: 5 less at one place of the rim (Pythagoras), 178 - 5 - 24 = 149.
    assert plan_of(wrapped(swing=(3.0, 4.0))).pieces[0].width_mm == 149.0


def test_an_open_end_that_wears_no_head_keeps_its_wrap_to_the_edge() -> None:
    open_end = Edge(end="resonant", there=False, wrap_to_edge=True)
    assert plan_of(wrapped(edges=(open_end,))).drums[0].clear_mm == (12.0, 0.0)
    headed = replace(open_end, wrap_to_edge=False)
    assert plan_of(wrapped(edges=(headed,))).drums[0].clear_mm == (12.0, 12.0)


def test_a_bass_drum_in_two_pieces_has_both_seams_under_lugs() -> None:
    # Turn pi x 558.5 = 1754.58; the patch spans at least 1754.58 + 25 - 1400 = 379.6 of it:
    # two of eight spacings of 219.322, 438.645; with the overlap 463.645 and 1340.935.
    plan = plan_of(bass(130.0, 230.0))
    (drum,) = plan.drums
    assert drum.cut.lengths_mm == pytest.approx((1340.935, 463.645), abs=1e-3)
    assert [piece.name for piece in plan.pieces] == ["bass drum, long piece", "bass drum, patch"]
    best = drum.seams[0]
    lines = {22.5 + 45.0 * n for n in range(8)}
    assert {round(deg, 6) for deg in best.along_deg} <= lines
    # Bottom at 180: of all lines two apart, 112.5 with 202.5 (or mirrored) lie nearest to it.
    assert sum(abs(deg - 180.0) for deg in best.along_deg) == pytest.approx(90.0)
    assert "midway between the spurs" in " ".join(drum.says)


def test_lugs_that_stand_unevenly_do_not_lengthen_the_patch() -> None:
    scheme = bass(130.0, 230.0)
    moved = tuple(
        replace(f, place=replace(f.place, along_deg=30.0)) if f.label == "lug 1" else f
        for f in scheme.layout.fittings
    )
    scheme = replace(scheme, layout=replace(scheme.layout, fittings=moved))
    assert plan_of(scheme).drums[0].cut.lengths_mm[0] == pytest.approx(1400.0)


@pytest.mark.parametrize("spurs", [(), (90.0,), (95.0, 270.0)])
def test_a_bottom_that_is_not_known_is_said(spurs: tuple[float, ...]) -> None:
    assert "cannot be told" in " ".join(plan_of(bass(*spurs)).drums[0].says)


def test_the_seam_is_given_on_the_bare_skin() -> None:
    # Badge at 0: the far side is lug 4 at 180 degrees, half of pi x 300 along on bare wood; the
    # under end lies half an overlap before it.
    badge = there("badge", BADGE, 30.0)
    best = plan_of(wrapped(fittings=[*lugs(6, first_deg=30.0)[1:], badge])).drums[0].seams[0]
    assert best.along_deg == pytest.approx((210.0,))
    assert best.along_mm == pytest.approx((300.0 * math.pi * 210 / 360,))
    assert best.from_mm == pytest.approx((300.0 * math.pi * 210 / 360 - 12.5,))
    assert best.says.startswith("Under lug 4; 104 mm of 154 mm in sight")


def test_lugs_too_narrow_for_the_overlap_are_said() -> None:
    narrow = replace(LUG, base=rounded(20.0, 50.0, corner_mm=2.0))
    (drum,) = plan_of(wrapped(fittings=lugs(6, fitting=narrow))).drums
    assert "one of 20 mm or less would hide under a line of them" in " ".join(drum.says)


def test_no_place_for_the_seam_is_said() -> None:
    wide = replace(BADGE, base=rounded(60.0, 150.0, corner_mm=1.0))
    around = [there(f"plate {n}", wide, 30.0 * n) for n in range(12)]
    (drum,) = plan_of(wrapped(fittings=around)).drums
    assert drum.seams == ()
    assert "No place for the seam" in drum.says[-1]
    assert "clear are wanted" in drum.says[-1]


def kit_that_wastes() -> tuple[Scheme, ...]:
    """Two shallow drums before two deep ones: pieces of 260, 260, 340 and 340 mm."""
    depths = (284.0, 284.0, 364.0, 364.0)
    return tuple(wrapped(f"drum {n}", depth_mm=depth) for n, depth in enumerate(depths, 1))


def test_the_obvious_order_wastes_a_sheet() -> None:
    plan = plan_of(*kit_that_wastes())
    assert (plan.nesting.new_sheets, plan.obvious.new_sheets, plan.saved_minor) == (2, 3, 6200)
    says = sheets_say(plan, currency="GBP")
    assert says[0] == "4 pieces from 2 new sheets, 124.00 GBP of new wrap."
    assert says[1] == "No layout takes fewer sheets or leaves a larger offcut."
    assert says[2].endswith("would take 3 new sheets: 1 sheet, 62.00 GBP more.")


def test_shapely_finds_no_overlap_and_the_sheet_holds_everything() -> None:
    plan = plan_of(*kit_that_wastes(), bass(130.0, 230.0))
    boxes = [
        (put.sheet, shapely.box(put.from_end_mm, put.from_side_mm,
                                put.from_end_mm + put.along_mm, put.from_side_mm + put.across_mm))
        for put in (*plan.nesting.placed, *plan.nesting.left)
    ]  # fmt: skip
    for (sheet, one), (other_sheet, other) in combinations(boxes, 2):
        assert sheet != other_sheet or one.intersection(other).area < 1e-6
    for number, box in boxes:
        sheet = plan.nesting.sheets[number]
        assert shapely.box(0, 0, sheet.length_mm, sheet.width_mm).buffer(1e-6).contains(box)


def test_every_cut_lies_on_a_mark_of_the_rule() -> None:
    for put in plan_of(*kit_that_wastes(), bass(130.0, 230.0)).nesting.placed:
        for value in (put.from_end_mm, put.from_side_mm, put.along_mm, put.across_mm):
            assert (2 * value) % 1 == pytest.approx(0.0, abs=1e-9)


def test_an_offcut_that_would_do_is_named() -> None:
    stock = replace(STOCK, offcuts=(Offcut(name="red end", length_mm=1000.0, width_mm=160.0),))
    plan = plan_of(wrapped(), wrapped("deep tom", depth_mm=364.0), stock=stock)
    assert plan.would_do == (("red end", ("tom",)),)
    assert would_do_say(plan) == ("red end: would take tom; it stays on the shelf.",)
    alone = plan_of(wrapped(), stock=stock)
    assert alone.sheet_names == ("red end",)
    assert would_do_say(alone)[0].endswith("it is cut into.")


def test_the_day_of_the_survey_sets_the_times_of_the_glue() -> None:
    # Halved open time and doubled waiting for each 10 degrees (common practice, no source).
    at = {c: plan_of(wrapped(readings=Readings(air=Air(temperature_c=c, humidity_percent=50.0))))
          for c in (5.0, 15.0, 20.0)}  # fmt: skip
    hours = {c: plan.pieces[0].glue.drill_hours for c, plan in at.items()}
    assert hours[20.0] == 24.0
    assert hours[15.0] == pytest.approx(24.0 * math.sqrt(2.0))
    # Too cold for the glue on that day: said, and the times are for 20 C.
    assert hours[5.0] == 24.0
    assert "contact glue wants 15 to 30 C" in " ".join(at[5.0].drums[0].says)


def test_a_measured_head_is_asked_again() -> None:
    # 301.0 over the new wrap, 301.5 through the overlap; collar 304.0: 2.5 mm of room, floats.
    read = EndReadings(end="batter", head=HeadRead(collar_mm=304.0))
    (drum,) = plan_of(wrapped(readings=Readings(batter=read))).drums
    assert "the batter head floats" in drum.fits[0]
    assert "2.5 mm of room on the diameter" in drum.fits[0]
    (thick,) = plan_of(
        wrapped(readings=Readings(batter=read), thickness_mm=2.0),
        stock=replace(STOCK, thickness_mm=2.0),
    ).drums
    # 304.0 + 2.0 against 304.0.
    assert "does not go on eased round, 2.0 mm too small" in thick.fits[0]


def test_a_kit_is_planned_at_once() -> None:
    kit = (*kit_that_wastes(), bass(130.0, 230.0))
    plan_of(wrapped())  # loads the solver
    began = time.process_time()
    plan = plan_of(*kit)
    assert plan.nesting.proven
    assert time.process_time() - began < 2.0


@settings(max_examples=12, deadline=None)
@given(
    bare=st.floats(200.0, 420.0),
    more=st.floats(0.0, 10.0),
    overlap=st.floats(0.0, 40.0),
    thick=st.floats(0.2, 0.8),
)
def test_more_drum_overlap_or_wrap_never_takes_a_shorter_piece(
    bare: float, more: float, overlap: float, thick: float
) -> None:
    def length(**changes: float) -> float:
        sizes = {"bare": bare, "overlap": overlap, "thick": thick} | changes
        stock = replace(STOCK, overlap_mm=sizes["overlap"], thickness_mm=sizes["thick"])
        scheme = wrapped(bare_mm=sizes["bare"], thickness_mm=sizes["thick"])
        return plan_of(scheme, stock=stock).pieces[0].length_mm

    assert length() <= length(bare=bare + more)
    assert length() <= length(overlap=overlap + more)
    assert length() <= length(thick=thick + more / 50)


def test_drums_stand_in_the_order_of_the_job_and_others_are_left_out() -> None:
    kit = kit_that_wastes()
    other = wrapped("painted", wrap="")
    job = job_of(*kit, other)
    (plan,) = wrap_plans(job, (other, *reversed(kit)), rules=RULES)
    assert [drum.drum for drum in plan.drums] == [scheme.drum for scheme in kit]
    assert wrap_plans(job, (other,), rules=RULES) == ()


@pytest.mark.parametrize(
    ("schemes", "changes", "says"),
    [
        ((wrapped(wrap="blue"),), {}, "tom.finish_plan.wrap: no wrap of that name"),
        ((wrapped(depth_mm=20.0),), {}, "drums.tom.*nothing is left between the edges"),
        ((wrapped(depth_mm=700.0),), {}, "drums.tom.*no sheet is wide enough"),
        ((bass(130.0, 230.0),), {"length_mm": 800.0}, "bass drum.*do not go round"),
        (kit_that_wastes(), {"sheets": 1}, "wraps.amber drift.*no layout found"),
    ],
)
def test_what_cannot_be_is_said_with_its_place(
    schemes: tuple[Scheme, ...], changes: dict[str, float], says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        plan_of(*schemes, stock=replace(STOCK, **changes))
