"""The fast solver against one that cuts polygons, against an exact sweep, and weakened solvers.

The slow solver tries every assignment of old holes and carries the polygon of poses that allow
it, once with discs a hair too small and once a hair too large: the truth lies between. It is sure
when both agree. Windows without height or width are swept exactly, interval by interval.
"""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType
from typing import Any

import numpy as np
import pytest

from counterhoop.scheme.reuse import NoRoom, Reuse, search
from counterhoop.scheme.reuse.curve import Curves
from counterhoop.scheme.reuse.ground import Ground
from counterhoop.scheme.reuse.matching import Settled

REDUCED, FULL = 60, 4000
REDUCED_LINES, FULL_LINES = 240, 20000


def hold_areas(
    make: Callable[[int], Any], judge: ModuleType, seeds: range, *, least_sure: float = 0.98
) -> None:
    sure = served = barred = 0
    for seed in seeds:
        shell = make(seed)
        found = shell.solve()
        try:
            sure += judge.compare(shell, found)
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from error
        barred += isinstance(found, NoRoom)
        served += isinstance(found, Reuse) and found.used > 1
    assert sure > least_sure * len(seeds), "the slow solver is too seldom sure to prove anything"
    assert served > 0.2 * len(seeds), "the problems are too easy"
    assert barred > 0


def hold_lines(
    random_shells: ModuleType, judge: ModuleType, sweep: ModuleType, seeds: range
) -> None:
    for seed in seeds:
        shell = random_shells.random_line(seed)
        found = shell.solve()
        expected = sweep.solve_on_a_line(shell)
        assert expected == (None if isinstance(found, NoRoom) else found.value), f"seed {seed}"
        if isinstance(found, Reuse):
            judge.check_claims(shell, found)


def test_equals_the_slow_solver(random_shells: ModuleType, judge: ModuleType) -> None:
    hold_areas(random_shells.random_shell, judge, range(REDUCED))


@pytest.mark.full
@pytest.mark.parametrize("block", range(8))
def test_equals_the_slow_solver_thousands(
    random_shells: ModuleType, judge: ModuleType, block: int
) -> None:
    hold_areas(
        random_shells.random_shell,
        judge,
        range(10_000 + block * FULL // 8, 10_000 + (block + 1) * FULL // 8),
    )


def test_equals_the_slow_solver_in_round_figures(
    random_shells: ModuleType, judge: ModuleType
) -> None:
    hold_areas(random_shells.nominal_shell, judge, range(REDUCED // 2), least_sure=0.9)


@pytest.mark.full
def test_equals_the_slow_solver_in_round_figures_thousands(
    random_shells: ModuleType, judge: ModuleType
) -> None:
    seeds = range(10_000, 10_000 + FULL // 2)
    hold_areas(random_shells.nominal_shell, judge, seeds, least_sure=0.9)


def test_equals_an_exact_sweep(
    random_shells: ModuleType, judge: ModuleType, sweep: ModuleType
) -> None:
    hold_lines(random_shells, judge, sweep, range(REDUCED_LINES))


@pytest.mark.full
def test_equals_an_exact_sweep_thousands(
    random_shells: ModuleType, judge: ModuleType, sweep: ModuleType
) -> None:
    hold_lines(random_shells, judge, sweep, range(10_000, 10_000 + FULL_LINES))


def _no_crossings(*_: Any, **__: Any) -> tuple[Any, Any, Any]:
    none = np.zeros(0, dtype=np.intp)
    return np.zeros((0, 2)), none, none


def _nothing_nearest(self: Curves, to: Any) -> Any:
    return np.zeros((0, 2))


def _nothing_barred(self: Ground, poses: Any) -> Any:
    return np.zeros(len(poses), dtype=bool)


def _nothing_forced(self: Ground, pose: Any) -> frozenset[int]:
    return frozenset()


def _first_come(options: Any, *, must: frozenset[int], rules: Any) -> Settled | None:
    """Greedy: the best pair first, then the best of what is left."""
    left = sorted(options, key=lambda pair: (options[pair][0], options[pair][1]))
    serves: dict[int, int] = {}
    for w, h in left:
        if w not in serves and h not in serves.values():
            serves[w] = h
    if not must <= serves.keys():
        return None
    pairs = tuple(sorted(serves.items()))
    return Settled(
        value=sum(rules.weights[options[pair][0]] for pair in pairs), misfit_mm2=0.0, serves=pairs
    )


WEAKER: dict[str, Callable[[pytest.MonkeyPatch], None]] = {
    "without crossings": lambda patch: patch.setattr(
        search, "crossings_worth_trying", _no_crossings
    ),
    "without nearest points": lambda patch: patch.setattr(
        Curves, "nearest_points", _nothing_nearest
    ),
    "blind to bars": lambda patch: patch.setattr(Ground, "barred", _nothing_barred),
    "drills anywhere": lambda patch: patch.setattr(Ground, "must_serve", _nothing_forced),
    "greedy": lambda patch: patch.setattr(search, "settle", _first_come),
}


@pytest.mark.parametrize("weakness", WEAKER)
def test_a_weaker_solver_is_found_out(
    random_shells: ModuleType, judge: ModuleType, monkeypatch: pytest.MonkeyPatch, weakness: str
) -> None:
    WEAKER[weakness](monkeypatch)
    with pytest.raises(AssertionError, match="seed"):
        hold_areas(random_shells.random_shell, judge, range(REDUCED))


def test_a_solver_without_crossings_fails_on_a_line_too(
    random_shells: ModuleType, judge: ModuleType, sweep: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    WEAKER["without crossings"](monkeypatch)
    with pytest.raises(AssertionError, match="seed"):
        hold_lines(random_shells, judge, sweep, range(REDUCED_LINES))
