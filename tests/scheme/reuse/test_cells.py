"""Dropping and quartering cells changes nothing but the time it takes."""

from __future__ import annotations

import math
from types import ModuleType
from typing import Any

import numpy as np
import pytest

from counterhoop.scheme.reuse import (
    Barred,
    Limits,
    OldHole,
    Reuse,
    WantedHole,
    WantedRow,
    Window,
    best_reuse,
    cells,
)
from counterhoop.scheme.reuse.search import Search

GIRTH = math.pi * 355.0
REDUCED, FULL = 8, 150


def crowded(seed: int, *, count: int = 48) -> dict[str, Any]:
    """Eight lugs of two holes, three old rows in line at heights close by, a bar on the best."""
    rng = np.random.default_rng(seed)
    old = [
        OldHole(
            number=i + 1,
            along_mm=float((i // 2 % 8) * GIRTH / 8 + rng.normal(0, 1)),
            down_mm=float(160 + (42 * (i % 2) - 21) + 1.5 * (i // 16) + rng.normal(0, 1)),
            diameter_mm=float(rng.choice([5.0, 6.0, 6.5])),
        )
        for i in range(count)
    ]
    x, y = rng.normal(0, 1, 2)
    spot = ((x - 1, 161 + y), (x, 160 + y), (x + 1, 161 + y), (x, 162 + y))
    holes = tuple(WantedHole(right_mm=0, down_mm=d, hole_mm=6, screw_mm=5) for d in (-21.0, 21.0))
    return {
        "wanted": WantedRow(holes=holes, count=8, girth_mm=GIRTH),
        "old": old,
        "window": Window(turn_min_mm=-6, turn_max_mm=6, down_min_mm=154, down_max_mm=168),
        "ideal": (0.0, 160.0),
        "limits": Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=4.0),
        "barred": (Barred(points=spot),),
    }


def solve(problem: dict[str, Any]) -> Reuse:
    found = best_reuse(problem.pop("wanted"), problem.pop("old"), **problem)
    assert isinstance(found, Reuse)
    return found


def hold(seeds: range, monkeypatch: pytest.MonkeyPatch) -> None:
    for seed in seeds:
        found = solve(crowded(seed))
        with monkeypatch.context() as patch:
            patch.setattr(Search, "_promising", lambda self, boxes, *_: np.full(len(boxes), True))
            patch.setattr(cells, "ENOUGH_PAIRS", math.inf)
            everything = solve(crowded(seed))
        assert everything.candidates > 1.5 * found.candidates
        with monkeypatch.context() as patch:
            patch.setattr(cells, "ENOUGH_PAIRS", 1)
            finest = solve(crowded(seed))
        for other in (everything, finest):
            assert other.value == found.value, f"seed {seed}"
            assert other.from_ideal_mm == pytest.approx(found.from_ideal_mm, abs=1e-6)


def test_all_crossings_give_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    hold(range(REDUCED), monkeypatch)


@pytest.mark.full
def test_all_crossings_give_the_same_often(monkeypatch: pytest.MonkeyPatch) -> None:
    hold(range(1000, 1000 + FULL), monkeypatch)


@pytest.mark.parametrize("enough", [0, 5])
@pytest.mark.parametrize(
    "seeds",
    [range(500, 530), pytest.param(range(530, 560), marks=pytest.mark.full)],
    ids=["few", "many"],
)
def test_finest_cells_against_the_slow_solver(
    random_shells: ModuleType,
    judge: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    enough: int,
    seeds: range,
) -> None:
    monkeypatch.setattr(cells, "ENOUGH_PAIRS", enough)
    monkeypatch.setattr(cells, "FIRST_MM", 1.0)
    for seed in seeds:
        shell = random_shells.random_shell(seed)
        judge.compare(shell, shell.solve())


def test_a_crowd_under_a_bar_does_not_hold_the_search_up() -> None:
    # the best place is barred: its cells are dropped, not quartered without end
    problem = crowded(3, count=128)
    problem["barred"] = (Barred(points=((-7, 150), (7, 150), (7, 163), (-7, 163))),)
    found = solve(problem)
    assert found.down_mm >= 163
    assert found.candidates < 60_000
