"""The words on a template's first sheet follow from the scheme."""

from __future__ import annotations

from dataclasses import replace

import pytest
from example_shells import scheme_of, small_tom

from counterhoop.papers.cautions import cautions_for
from counterhoop.papers.how_to_use import far_apart, in_place, joining_steps, shell_steps
from counterhoop.papers.order_of_work import needs_of
from counterhoop.papers.printer import PrinterCorrection
from counterhoop.papers.template import template_drawings
from counterhoop.papers.tiles import OVERLAP_MM
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Material, OldFinish
from counterhoop.shell.wish import FinishPlan

LAYOUT = small_tom()


def only(*verdicts: Verdict) -> Layout:
    return replace(LAYOUT, holes=tuple(p for p in LAYOUT.holes if p.verdict in verdicts))


def test_three_kept_holes_far_apart_are_named() -> None:
    numbers, says = in_place(LAYOUT)
    assert len(numbers) == 3
    plans = {p.number: p for p in LAYOUT.holes}
    assert all(plans[n].verdict in (Verdict.KEEP, Verdict.LEAVE_OPEN) for n in numbers)
    assert says.startswith("Drill only when the three named marks, ")
    assert says.endswith("fall on their holes within 0.5 mm.")


def test_holes_under_a_new_wrap_are_found_with_a_pin() -> None:
    wrapped = replace(LAYOUT, finish=FinishPlan(kind="new wrap"))
    assert in_place(wrapped)[1].endswith("push a pin out through their middles from inside.")


def test_the_three_are_the_best_of_all_threes_by_brute_force() -> None:
    from itertools import combinations

    surface = LAYOUT.flat.surface
    plans = LAYOUT.holes

    def spread(three: object) -> float:
        return min(
            abs(surface.apart_mm(a.place.along_deg, b.place.along_deg))
            for a, b in combinations(three, 2)
        )

    best = max(spread(t) for t in combinations(plans, 3))
    assert spread(far_apart(plans, surface=surface)) == pytest.approx(best)


@pytest.mark.parametrize(
    ("verdicts", "said"),
    [
        ((Verdict.DRILL,), "No hole stays. Lay the 0 line on the datum"),
        ((Verdict.DRILL, Verdict.PLUG), "the old holes or plugs at"),
        ((Verdict.ENLARGE, Verdict.DRILL), "can tell whether the template lies right"),
    ],
)
def test_without_three_holes_that_stay_the_datum_decides(
    verdicts: tuple[Verdict, ...], said: str
) -> None:
    numbers, says = in_place(only(*verdicts))
    assert said in says
    assert len(numbers) < 3
    assert says.endswith("Drill only when all agree within 0.5 mm.")


def test_a_shell_without_any_hole_says_so_without_stumbling() -> None:
    bare = replace(LAYOUT, holes=(), drum=replace(LAYOUT.drum, holes=()))
    assert in_place(bare)[1].startswith("Lay the 0 line on the datum")


def test_steps_are_in_the_order_of_the_work() -> None:
    steps = shell_steps(LAYOUT, registration="(registration)")
    text = " ".join(steps)
    order = [
        "touching the plate all round", "badge, bracket and vent", "(registration)",
        "each ear must stand over its row line", "Pilot 2 to 3 mm, square to the skin",
        "shaped to the bore", "Drill one lug first. Offer up lug, hoop and rod.",
    ]  # fmt: skip
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_cautions_follow_from_the_shell() -> None:
    def told(layout: Layout) -> str:
        needs = needs_of(scheme_of(layout))
        return " ".join(c.says for c in cautions_for("template", needs=needs))

    wrapped = OldFinish(kind="wrap", thickness_mm=0.5, maybe_nitrate=True)
    assert "nitrate" in told(replace(LAYOUT, drum=replace(LAYOUT.drum, finish=wrapped)))
    assert "nitrate" not in told(LAYOUT)
    assert "not of wood" in told(
        replace(LAYOUT, drum=replace(LAYOUT.drum, material=Material.METAL))
    )
    assert "Plugs first" not in told(only(Verdict.DRILL))
    assert "Hold the shell" in told(LAYOUT)


def test_the_closing_length_is_said_with_the_paper_in_it() -> None:
    right = PrinterCorrection(paper_mm=0.3)
    tiling = template_drawings(scheme_of(LAYOUT), correction=right).tiling
    assert any("791.9 mm" in step for step in joining_steps(tiling))  # 791 + 0.3 pi
    one = template_drawings(scheme_of(LAYOUT), paper="roll").tiling
    assert len(joining_steps(one)) == 2


@pytest.mark.parametrize("paper", ["A4", "A3", "roll"])
def test_the_closing_line_meets_the_edge_where_the_strip_begins(paper: str) -> None:
    tiling = template_drawings(scheme_of(LAYOUT), paper=paper).tiling
    first, last = tiling.tiles[0], next(t for t in tiling.tiles if t.last_column)
    assert first.left_mm == tiling.start_mm < 0.0  # a hole at the datum: it begins before it
    around = LAYOUT.flat.surface.circumference_mm
    assert last.joint_right_mm == pytest.approx(first.left_mm + around)
    assert last.right_mm == pytest.approx(last.joint_right_mm + OVERLAP_MM)
    closing = next(s for s in shell_steps(LAYOUT, registration="") if "closing line" in s)
    assert "the closing line meets the strip's left edge" in closing
    assert "closing line on the 0 line" not in closing
    assert "left edge of the first sheet to the closing line" in joining_steps(tiling)[-1]


def test_a_waving_edge_is_explained_and_a_straight_one_is_not() -> None:
    slanting = replace(LAYOUT, flat=replace(LAYOUT.flat, depth_cos_mm=0.6))
    for layout, there in ((slanting, True), (LAYOUT, False)):
        steps = shell_steps(layout, registration="")
        assert any("line waves" in step for step in steps) is there
