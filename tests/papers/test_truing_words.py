"""What comes off the edges, and what a new wrap closes, in the words of the bench sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from example_jobs import FIGURES, full_scheme

from counterhoop.development.flat import Development
from counterhoop.development.truing import Removal, Truing
from counterhoop.papers.drawing.view import between_said
from counterhoop.papers.facts import Lengths
from counterhoop.papers.order_of_work import order_of_work
from counterhoop.papers.truing_words import says_truing
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.price import work_of
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.wish import FinishPlan, Flatten


def slanting(finish: FinishPlan):
    """178 deep; 1.0 + 0.8 cos comes off the batter end: 176.2 to 177.8 are left."""
    scheme = full_scheme(finish=finish)
    flat: Development = replace(scheme.layout.flat, depth_mm=177.0, depth_cos_mm=-0.8)
    truing = Truing(batter=Removal(1.0, 0.8))
    layout = replace(scheme.layout, truing=truing, flat=replace(flat, after_truing=True))
    return replace(scheme, layout=layout)


def test_a_slanting_cut_says_where_most_comes_off_and_both_depths() -> None:
    lines = says_truing(slanting(FinishPlan()), say=Lengths())
    assert lines[0] == (
        "Off the batter end: 1.8 mm at 0 degrees along, falling evenly to 0.2 mm opposite."
    )
    assert lines[1] == "Depth 178 mm before, 176 mm to 178 mm after."


def test_an_edge_trued_by_its_readings_is_sanded_by_the_truing_sheet() -> None:
    flatten = Flatten(ends=("batter",))
    lines = says_truing(slanting(FinishPlan(flatten=flatten)), say=Lengths())
    assert lines[0] == (
        "Off the batter end: what the truing sheet says at each station. Heights from that edge"
        " lose 1.8 mm at 0 degrees along, falling evenly to 0.2 mm opposite."
    )


@pytest.mark.parametrize(
    ("least", "most", "said"), [(203.68, 203.78, "203.5 mm"), (199.0, 201.0, "199 mm to 201 mm")]
)
def test_two_depths_are_said_only_where_a_rule_tells_them_apart(least, most, said) -> None:
    assert between_said(least, most, say=print_mm) == said


@pytest.mark.parametrize(("kind", "there"), [("new wrap", True), ("stays", False)])
def test_a_new_wrap_closes_every_hole_and_the_sheet_says_which_to_open(kind, there) -> None:
    scheme = full_scheme(finish=FinishPlan(kind=kind))
    holes = tuple(p for p in scheme.layout.holes if p.verdict is Verdict.KEEP)
    layout = replace(scheme.layout, holes=holes, fittings=())
    made = replace(scheme, layout=layout, work=work_of(layout, extra=(), figures=FIGURES))
    lines = [
        line
        for step in order_of_work(made, figures=FIGURES, say=Lengths())
        if step.key == "drill"
        for line in step.lines
    ]
    assert lines == (
        ["Open through the wrap, as in the wood, 6.0 dia: holes 21 to 24."] if there else []
    )
