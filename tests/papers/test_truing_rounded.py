"""Figures of the truing sheet as they are rounded: heights add up, a budget is never too large."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from example_truing import BUDGETS, tom

from counterhoop.development.place import Place
from counterhoop.development.truing import Removal, Truing
from counterhoop.papers.facts import Lengths
from counterhoop.papers.truing_heights import moved_lines
from counterhoop.papers.truing_sheet import truing_data
from counterhoop.scheme.budget import Budget


@pytest.mark.parametrize("mean_mm", [0.25, 0.33, 0.45, 0.52, 0.65, 0.71])
def test_worked_heights_add_up_as_they_are_printed(mean_mm):
    """By hand: 56.94 less 0.65 is 56.29; 56.9 less 0.7 would not make the 56.3 printed."""
    job, scheme, _ = tom()
    layout = scheme.layout
    holes = tuple(
        replace(hole, place=Place(hole.place.along_deg, hole.place.down_mm + 0.04))
        for hole in layout.drum.holes
    )
    drum = replace(layout.drum, holes=holes)
    off = Truing(batter=Removal(mean_mm))
    worked = moved_lines(
        replace(layout, drum=drum, truing=off), ends=("batter",), say=Lengths(job.units)
    )[1:]
    assert worked
    for line in worked:
        was, down, now = (round(10 * float(mm)) for mm in re.findall(r"(\d+\.\d) mm", line))
        assert was - down == now


def test_the_budget_is_never_rounded_up():
    """3.3 mm lies nearer to 3.5 on a rule, and at 3.5 the edge is past what stops it."""
    job, scheme, plan = tom()
    limits = (("the ring", 3.3), ("hole 9", 4.9))
    close = Budget(end="batter", most_mm=3.3, stopped_by="the ring", limits=limits)
    [row] = truing_data(job, scheme, plan, budgets=(close,))[0]["budgets"]
    assert (row["could"], row["then"]) == ("3 mm", "hole 9 at 4.5 mm")


def test_what_is_past_its_limit_already_stands_on_the_sheet_too():
    job, scheme, plan = tom()
    late = replace(BUDGETS[0], already=("hole 4: 12.0 mm of wood to the edge is your rule",))
    [row] = truing_data(job, scheme, plan, budgets=(late,))[0]["budgets"]
    assert "past its limit already: hole 4" in row["then"]
