"""Every match held against every assignment on grids of poses, and against exact laws."""

from __future__ import annotations

import math
from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from counterhoop.fittings.entry import PatternHole
from counterhoop.parts.places.matches import matches
from counterhoop.parts.places.place import HoleAt
from counterhoop.parts.places.pose import Pose

Floats = NDArray[np.float64]

TOLERANCE_MM = 2e-3  # the search says 0.001 mm
GRID_TURN = math.radians(2.0) / 20  # half a step of the grid of turns, and as much again


def hole(right: float, down: float, *, screw: float = 5.0, **slots: float) -> PatternHole:
    return PatternHole(right_mm=right, down_mm=down, hole_mm=screw + 1, screw_mm=screw, **slots)


def old(along: float, down: float, diameter: float = 6.0, *, doubt: float = 0.5) -> HoleAt:
    return HoleAt(along_mm=along, down_mm=down, diameter_mm=diameter, doubt_mm=doubt)


def turned(point: tuple[float, float], deg: float) -> tuple[float, float]:
    a = math.radians(deg)
    x, y = point
    return (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))


def room(
    pattern: tuple[PatternHole, ...],
    holes: tuple[HoleAt, ...],
    *,
    poses: Floats,
) -> Floats:
    """Room of the tightest screw, one hole for each of the pattern, at poses (n x 3).

    Poses are (right, down, turn in radians) of the part's reference point.
    """
    least = np.full(len(poses), np.inf)
    right, down, turn = poses.T
    for part, old in zip(pattern, holes, strict=True):
        # Where the old hole's centre lies as the part sees it.
        ex, ey = old.along_mm - right, old.down_mm - down
        x = ex * np.cos(turn) + ey * np.sin(turn) - part.right_mm
        y = -ex * np.sin(turn) + ey * np.cos(turn) - part.down_mm
        x = np.maximum(np.abs(x) - part.slot_along_mm / 2, 0)
        y = np.maximum(np.abs(y) - part.slot_down_mm / 2, 0)
        least = np.minimum(least, (old.diameter_mm - part.screw_mm) / 2 - np.hypot(x, y))
    return least


def most_room(
    pattern: tuple[PatternHole, ...], holes: tuple[HoleAt, ...], *, tilt_deg: float
) -> float:
    """Most room that grids of shifts find at 41 turns, finer and finer about the best of each."""
    tilt = math.radians(tilt_deg)
    turns = np.linspace(-tilt, tilt, 41)
    c, s = np.cos(turns), np.sin(turns)
    at = np.array(
        [
            (
                h.along_mm - c * p.right_mm + s * p.down_mm,
                h.down_mm - s * p.right_mm - c * p.down_mm,
            )
            for p, h in zip(pattern, holes, strict=True)
        ]
    )
    middle = at.mean(axis=0).T
    half = float(np.ptp(at, axis=0).max()) / 2 + 0.5
    grid = np.array([(x, y) for x in np.linspace(-1, 1, 9) for y in np.linspace(-1, 1, 9)])
    best = -math.inf
    for _ in range(10):
        there = middle[:, None] + half * grid
        poses = np.column_stack([there.reshape(-1, 2), np.repeat(turns, len(grid))])
        rooms = room(pattern, holes, poses=poses).reshape(len(turns), -1)
        middle = there[np.arange(len(turns)), rooms.argmax(axis=1)]
        best = max(best, float(rooms.max()))
        half *= 0.45
    return best


def too_far(pattern: tuple[PatternHole, ...], holes: tuple[HoleAt, ...]) -> bool:
    """Two holes a good way nearer or further apart than two screws can be."""
    pairs = list(zip(pattern, holes, strict=True))
    return any(
        abs(
            math.hypot(p.right_mm - q.right_mm, p.down_mm - q.down_mm)
            - math.hypot(g.along_mm - h.along_mm, g.down_mm - h.down_mm)
        )
        > 6.0
        for n, (p, g) in enumerate(pairs)
        for q, h in pairs[:n]
    )


def random_place(seed: int, *, slots: bool) -> tuple[tuple[PatternHole, ...], tuple[HoleAt, ...]]:
    """A pattern, its holes drilled by an unsure hand more than once, and some by chance."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(1, 4))
    pattern = tuple(
        hole(
            *rng.uniform(-25, 25, 2),
            screw=float(rng.uniform(4, 5)),
            slot_along_mm=float(rng.choice([0, 2])) if slots else 0.0,
            slot_down_mm=float(rng.choice([0, 3])) if slots else 0.0,
        )
        for _ in range(count)
    )
    tilt = rng.uniform(-2.5, 2.5)
    holes = []
    for part in pattern:
        x, y = turned((part.right_mm, part.down_mm), tilt)
        for _ in range(int(rng.integers(1, 3))):
            off = rng.normal(0, 0.5, 2)
            holes.append(old(x + off[0] + 3, y + off[1] - 7, float(rng.uniform(5, 6.5))))
    holes.extend(old(*rng.uniform(-30, 30, 2)) for _ in range(5 - len(holes)))
    return pattern, tuple(holes)


def agrees_with_brute_force(seeds: range, *, slots: bool) -> tuple[int, int]:
    """Hold the search against every assignment on grids of poses; count what fits and what not."""
    fits = fails = 0
    for seed in seeds:
        pattern, holes = random_place(seed, slots=slots)
        found = {
            tuple(p.hole for p in m.pairs): m.slack_mm for m in matches(pattern, holes, tilt_deg=2)
        }
        for given_holes in permutations(range(len(holes)), len(pattern)):
            chosen = tuple(holes[i] for i in given_holes)
            if too_far(pattern, chosen):
                fails += 1
                assert given_holes not in found, (seed, given_holes)
                continue
            slow = most_room(pattern, chosen, tilt_deg=2)
            middle = np.mean([(h.along_mm, h.down_mm) for h in chosen], axis=0)
            reach = max(math.dist(middle, (h.along_mm, h.down_mm)) for h in chosen)
            # No pose between two turns of the grid can be better by more than this.
            between = reach * GRID_TURN + 0.01
            if slow >= 0.0:
                fits += 1
                assert given_holes in found, (seed, given_holes, slow)
                assert slow - TOLERANCE_MM <= found[given_holes] <= slow + between
            elif slow < -between:
                fails += 1
                assert given_holes not in found, (seed, given_holes, slow)
    return fits, fails


@pytest.mark.parametrize("slots", [False, True])
def test_the_search_is_as_good_as_every_assignment_on_grids(*, slots: bool) -> None:
    fits, fails = agrees_with_brute_force(range(10), slots=slots)
    assert fits >= 10
    assert fails >= 100


@pytest.mark.full
@pytest.mark.parametrize("slots", [False, True])
def test_the_search_is_as_good_on_many_patterns(*, slots: bool) -> None:
    fits, fails = agrees_with_brute_force(range(100, 180), slots=slots)
    assert fits >= 80
    assert fails >= 800


@given(
    right=st.floats(-200, 200),
    down=st.floats(-200, 200),
    turn=st.floats(-180, 180),
    seed=st.integers(0, 40),
)
def test_moving_and_turning_all_holes_changes_no_match(
    right: float, down: float, turn: float, seed: int
) -> None:
    pattern, holes = random_place(seed, slots=False)
    there = Pose(right_mm=right, down_mm=down, turn_deg=turn)
    moved = tuple(old(*there.at(h.along_mm, h.down_mm), h.diameter_mm) for h in holes)
    before, after = (
        {
            tuple(p.hole for p in m.pairs): m.slack_mm
            for m in matches(pattern, where, turn="any")
            if m.slack_mm > TOLERANCE_MM
        }
        for where in (holes, moved)
    )
    for key in before.keys() | after.keys():
        assert before.get(key, 0.0) == pytest.approx(after.get(key, 0.0), abs=2 * TOLERANCE_MM)


@given(seed=st.integers(0, 10_000))
def test_every_screw_goes_through_at_the_pose_that_is_said(seed: int) -> None:
    pattern, holes = random_place(seed, slots=False)
    for found in matches(pattern, holes):
        for pair in found.pairs:
            part, there = pattern[pair.pattern], holes[pair.hole]
            at = found.pose.at(part.right_mm, part.down_mm)
            off = math.dist(at, (there.along_mm, there.down_mm))
            assert off == pytest.approx(pair.off_mm, abs=1e-6)
            assert off <= (there.diameter_mm - part.screw_mm) / 2 + TOLERANCE_MM


def test_the_comparison_with_brute_force_can_fail() -> None:
    # A search that could not turn would miss this match, and brute force would say so.
    pattern = (hole(0, -21, screw=5.7), hole(0, 21, screw=5.7))
    aslant = tuple(old(*turned((0.0, d), 1.5)) for d in (-21.0, 21.0))
    assert most_room(pattern, aslant, tilt_deg=2) > 0.0
    assert matches(pattern, aslant, tilt_deg=0.0) == ()
