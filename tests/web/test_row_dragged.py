"""What is drawn while a row is dragged, beside what is drawn when it is let go.

The truth is the whole page's own drawing of the same scheme, made with nothing remembered.
"""

from __future__ import annotations

import random
import re

import pytest

from counterhoop.bench.move_row import HeldRow, row_held, rows_of
from counterhoop.papers.drawing.holes import hole_strokes
from counterhoop.papers.drawing.scale import edge_strokes, scale_strokes
from counterhoop.papers.drawing.view import laid, laid_on_shell
from counterhoop.papers.screen import play
from counterhoop.shell.choice import RowMoved
from counterhoop.web.scheme_shown import TAKEN, whole_view
from planned_once import planned_demo

SHAPE = re.compile(r'<circle [^>]*>|<path class="[^"]*(?: f-|w-hole|w-outline)[^>]*>')
REMEMBERED = (
    *(hole_strokes, edge_strokes, scale_strokes, laid, laid_on_shell),
    *(play.outline_data, play._written, play.value),
)
PLACES = 5


@pytest.fixture(scope="module")
def held() -> list[HeldRow]:
    """Every row of every demonstration drum that may be moved, in hand."""
    plan = planned_demo()
    bases = [next((s for s in d.ranked.shown if rows_of(s)), None) for d in plan.drums]
    return [
        row_held(plan, drum=base.drum, scheme_code=base.code, row=row.name)
        for base in bases
        if base is not None
        for row in rows_of(base)
    ]


def drawn(one: HeldRow, *, right_mm: float, down_mm: float, live: bool) -> tuple[str, list[str]]:
    """Return the window of a drawing and its shapes; leaders and words are another matter."""
    at = RowMoved(row=one.row.name, right_mm=right_mm, down_mm=down_mm)
    scheme = one.at(right_mm=right_mm, down_mm=down_mm)
    svg = whole_view(scheme, ident=TAKEN, units="mm", movable=True, live=live, at=at).svg
    return re.search(r'viewBox="([^"]*)"', svg)[1], sorted(SHAPE.findall(svg))


def test_a_row_is_drawn_in_hand_as_it_will_be_when_it_is_let_go(held):
    dice = random.Random(7)
    for one in held:
        least_mm, most_mm = one.row.down_mm_range
        for _ in range(PLACES):
            right_mm = dice.uniform(-60.0, 60.0)  # far enough to cross the datum
            down_mm = dice.uniform(max(-8.0, least_mm), min(8.0, most_mm))
            place = {"right_mm": right_mm, "down_mm": down_mm}
            window, shapes = drawn(one, **place, live=True)
            for kept in REMEMBERED:
                kept.cache_clear()
            assert (window, shapes) == drawn(one, **place, live=False), one.row.says
            assert len(shapes) > 20


def test_two_places_of_a_row_are_not_drawn_alike(held):
    """Else the comparison could not fail, or what is remembered would never be forgotten."""
    for one in held:
        here = drawn(one, right_mm=1.0, down_mm=0.0, live=True)
        there = drawn(one, right_mm=2.0, down_mm=0.0, live=True)
        assert here != there, one.row.says
        assert here == drawn(one, right_mm=1.0, down_mm=0.0, live=True)
