"""A planned job: one stock, fittings laid over their holes, hoops by name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterhoop.bench.demo import open_demo
from counterhoop.development.place import Place
from counterhoop.scheme.ground import ground_of
from counterhoop.shell.wish import FinishPlan
from planned_once import planned_demo


@pytest.fixture(scope="module")
def plan():
    return planned_demo()


def test_the_drums_sheets_add_up_to_the_kit(plan):
    sheets = sum(drum.chosen.criteria.money_minor for drum in plan.drums)
    assert sheets == plan.kit.total_minor


def test_no_piece_of_stock_is_promised_twice(plan):
    stock = dict(plan.opened.job.stock)
    taken = {}
    for drum in plan.drums:
        for line in drum.chosen.parts:
            taken[line.name] = taken.get(line.name, 0) + line.count - line.bought
    assert all(count <= stock.get(name, 0) for name, count in taken.items())


def test_a_fitting_known_by_its_holes_lies_over_them():
    # The damper's pattern is 12 up and 14 down of its reference: the middle is 1 below it.
    opened = open_demo()
    drum = next(w.drum for w in opened.job.drums if w.drum.key == "old snare")
    damper = next(f for f in drum.fittings if f.label == "damper")
    assert damper.place_from == "holes"
    ground = ground_of(drum, finish=FinishPlan(), book=opened.shop.book)
    laid = next(f for f in ground.fittings if f.label == "damper")
    assert laid.place.down_mm == pytest.approx(damper.place.down_mm - 1.0)
    turned = replace(damper, turned_deg=180.0, place=Place(135.0, 70.0))
    other = replace(drum, fittings=(turned,))
    laid = ground_of(other, finish=FinishPlan(), book=opened.shop.book).fittings[-1]
    assert laid.place.down_mm == pytest.approx(71.0)
