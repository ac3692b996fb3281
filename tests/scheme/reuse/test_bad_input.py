"""What cannot be searched is refused with one line that says what, where and what is wanted."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from counterhoop.errors import BadInput
from counterhoop.scheme.reuse import (
    Barred,
    BarredDrill,
    Limits,
    OldHole,
    WantedFitting,
    WantedGroup,
    WantedHole,
    WantedRow,
    Weights,
    Window,
    best_reuse,
)

LIMITS = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0)
HOLE = WantedHole(right_mm=0, down_mm=0, hole_mm=6, screw_mm=5)
ROW = WantedRow(holes=(HOLE,), count=8, girth_mm=1000)
SPOT = Window(turn_min_mm=0, turn_max_mm=0, down_min_mm=0, down_max_mm=0)
OLD = OldHole(number=1, along_mm=0, down_mm=0, diameter_mm=6)


def search(**changes: object) -> Callable[[], object]:
    given = {"old": [OLD], "window": SPOT, "ideal": (0.0, 0.0), "limits": LIMITS, **changes}
    old = given.pop("old")
    return lambda: best_reuse(ROW, old, **given)


REFUSED: dict[str, tuple[Callable[[], object], str]] = {
    "screw thicker than hole": (
        lambda: WantedHole(right_mm=0, down_mm=0, hole_mm=5, screw_mm=6),
        "screw_mm: the screw is thicker than the hole it is to go through: found 6, "
        "wanted at most the hole's 5 mm",
    ),
    "no hole": (
        lambda: WantedHole(right_mm=0, down_mm=0, hole_mm=0, screw_mm=0),
        "hole_mm: not a size: found 0, wanted more than 0 mm",
    ),
    "hole nowhere": (
        lambda: WantedHole(right_mm=math.nan, down_mm=0, hole_mm=6, screw_mm=5),
        "right_mm: not a place: found nan, wanted millimetres",
    ),
    "slot of less than nothing": (
        lambda: WantedHole(right_mm=0, down_mm=0, hole_mm=6, screw_mm=5, slot_along_mm=-1),
        "slot_along_mm: not a length: found -1, wanted 0 mm or more",
    ),
    "fitting nowhere": (
        lambda: WantedFitting(along_mm=math.inf, holes=()),
        "along_mm: not a place",
    ),
    "row of none": (
        lambda: WantedRow(holes=(HOLE,), count=0, girth_mm=1000),
        "count: a row without fittings: found 0, wanted 1 up",
    ),
    "no girth": (lambda: WantedGroup(fittings=(), girth_mm=-1), "girth_mm: not a size: found -1"),
    "old hole without size": (
        lambda: OldHole(number=1, along_mm=0, down_mm=0, diameter_mm=math.nan),
        "diameter_mm: not a size: found nan",
    ),
    "limit below nothing": (
        lambda: Limits(keep_mm=-0.1, enlarge_mm=2, slot_mm=4),
        "keep_mm: not a limit: found -0.1, wanted 0 mm or more",
    ),
    "slot worth more than keep": (
        lambda: Weights(keep=1, enlarge=1, slot=2),
        "weights: the worth of an old hole is out of order: found (1, 1, 2)",
    ),
    "slot worth nothing": (lambda: Weights(keep=1, enlarge=1, slot=0), "slot more than 0"),
    "window backwards": (
        lambda: Window(turn_min_mm=1, turn_max_mm=0, down_min_mm=0, down_max_mm=0),
        "turn_min_mm, turn_max_mm: the window ends before it begins: found (1, 0), "
        "wanted the lesser first",
    ),
    "window without end": (
        lambda: Window(turn_min_mm=0, turn_max_mm=0, down_min_mm=0, down_max_mm=math.inf),
        "down_min_mm, down_max_mm",
    ),
    "bar of two corners": (
        lambda: Barred(points=((0, 0), (1, 1))),
        "points: a barred region is no polygon",
    ),
    "bar with a hole of one corner": (
        lambda: Barred(points=((0, 0), (1, 1), (0, 1)), holes=(((0, 0),),)),
        "wanted three corners or more, in millimetres",
    ),
    "disc nowhere": (
        lambda: BarredDrill(along_mm=0, down_mm=math.nan, radius_mm=1),
        "a barred disc is not a place",
    ),
    "two holes of one number": (
        search(old=[OLD, OLD]),
        "old: two old holes have one number: found 1, wanted a number of its own for every hole",
    ),
    "a bar for a fitting that is not there": (
        search(barred=(Barred(points=((0, 0), (1, 1), (0, 1)), lug=8),)),
        "barred: the group has no such fitting: found 8, wanted 0 to 7",
    ),
    "ideal nowhere": (search(ideal=(math.nan, 0)), "ideal: not a pose"),
    "limits a quarter round": (
        search(limits=Limits(keep_mm=0.8, enlarge_mm=2, slot_mm=250)),
        "limits: an old hole could serve from a quarter round the shell: found 250",
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refused(name: str) -> None:
    make, says = REFUSED[name]
    with pytest.raises(BadInput) as caught:
        make()
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)
