"""The best cover held against fine grids of poses, and cases worked by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import PatternHole
from counterhoop.parts.places.cover import best_cover
from counterhoop.parts.places.freedom import Freedom, freedom_of
from counterhoop.parts.places.matches import matches
from counterhoop.parts.places.place import HoleAt
from counterhoop.parts.places.pose import Pose

LUG = rounded(24.0, 57.0, corner_mm=12.0)
PATTERN = tuple(PatternHole(right_mm=0, down_mm=d, hole_mm=6, screw_mm=4.8) for d in (-21.0, 21.0))


def hidden_mm2(pose: Pose, base: Outline, marks: list[Outline]) -> float:
    shown = shapely.union_all([shapely.Polygon(mark.points) for mark in marks])
    return float(shapely.Polygon(pose.laid(base).points).intersection(shown).area)


def random_case(seed: int) -> tuple[tuple[HoleAt, ...], list[Outline]]:
    """Two holes about where a lug's are, and plugs and a shadow that it nearly hides."""
    rng = np.random.default_rng(seed)
    holes = tuple(
        HoleAt(
            along_mm=float(rng.normal(0, 0.15)),
            down_mm=float(d + rng.normal(0, 0.15)),
            diameter_mm=float(rng.uniform(5.8, 6.8)),
        )
        for d in (-21.0, 21.0)
    )
    marks = [
        disc(float(rng.uniform(6, 16))).moved(*rng.uniform((-16, -32), (16, 32)))
        for _ in range(int(rng.integers(1, 4)))
    ]
    if rng.random() < 0.5:
        shadow = rounded(22.0, 52.0, corner_mm=3.0).turned(float(rng.normal(0, 2)))
        marks.append(shadow.moved(*rng.normal(0, 2, 2)))
    return holes, marks


def best_on_a_grid(
    holes: tuple[HoleAt, ...], marks: list[Outline], *, steps: int, tilt_deg: float
) -> float:
    """Most that any pose of a grid hides at which both screws go through."""
    best = 0.0
    for turn in np.linspace(-tilt_deg, tilt_deg, steps):
        for x in np.linspace(-1.2, 1.2, steps):
            for y in np.linspace(-1.2, 1.2, steps):
                pose = Pose(right_mm=float(x), down_mm=float(y), turn_deg=float(turn))
                offs = (
                    math.dist(pose.at(p.right_mm, p.down_mm), (h.along_mm, h.down_mm))
                    - (h.diameter_mm - p.screw_mm) / 2
                    for p, h in zip(PATTERN, holes, strict=True)
                )
                if max(offs) <= 0.0:
                    best = max(best, hidden_mm2(pose, LUG, marks))
    return best


def never_worse_than_a_grid(seeds: range, *, steps: int) -> int:
    tried = 0
    for seed in seeds:
        holes, marks = random_case(seed)
        found = matches(PATTERN, holes)
        if not found:
            continue
        tried += 1
        best = best_cover(LUG, freedom_of(found[0], PATTERN, holes), marks)
        assert best is not None
        grid = best_on_a_grid(holes, marks, steps=steps, tilt_deg=2.0)
        assert grid <= best.at_most_mm2 + 1e-6, seed
        assert best.hidden_mm2 >= grid - 1e-3, seed
        assert best.hidden_mm2 == pytest.approx(hidden_mm2(best.pose, LUG, marks), abs=1e-6)
    return tried


def test_no_pose_of_a_grid_hides_more() -> None:
    assert never_worse_than_a_grid(range(5), steps=9) >= 3


@pytest.mark.full
def test_no_pose_of_a_fine_grid_hides_more() -> None:
    assert never_worse_than_a_grid(range(100, 112), steps=17) >= 6


def test_the_comparison_with_a_grid_can_fail() -> None:
    # The pose with most room for the screws hides less here than another that is allowed.
    holes = tuple(HoleAt(along_mm=0.0, down_mm=d, diameter_mm=6.8) for d in (-21.0, 21.0))
    marks = [disc(10.0).moved(11.0, 0.0)]
    (match,) = matches(PATTERN, holes)
    grid = best_on_a_grid(holes, marks, steps=9, tilt_deg=2.0)
    assert hidden_mm2(match.pose, LUG, marks) < grid - 1.0


def test_a_base_slides_as_far_as_its_screws_let_it() -> None:
    # By hand: both screws have 1.0 of play, so the base goes 1.0 to the right and no further.
    holes = tuple(HoleAt(along_mm=0.0, down_mm=d, diameter_mm=6.8) for d in (-21.0, 21.0))
    (match,) = matches(PATTERN, holes, tilt_deg=0.0)
    base = rounded(24.0, 57.0)
    mark = rounded(24.0, 57.0).moved(6.0, 0.0)
    free = freedom_of(match, PATTERN, holes, tilt_deg=0.0)
    best = best_cover(base, free, [mark])
    assert best is not None
    assert best.pose.right_mm == pytest.approx(1.0, abs=0.01)
    assert best.hidden_mm2 == pytest.approx(19.0 * 57.0, abs=0.6)
    assert best.bare_mm2 == pytest.approx((5.0 * 57.0,), abs=0.6)


def test_the_room_holds_the_base_back() -> None:
    # By hand: the room ends 12.4 to the right, so a base 24 wide goes 0.4 and not the 1.0.
    free = Freedom(
        pose=Pose(right_mm=0.0, down_mm=0.0),
        right_mm=1.0,
        room=rounded(24.8, 80.0),
    )
    best = best_cover(rounded(24.0, 57.0), free, [rounded(24.0, 57.0).moved(6.0, 0.0)])
    assert best is not None
    assert best.pose.right_mm == pytest.approx(0.4, abs=0.01)


def test_a_room_too_small_leaves_no_pose() -> None:
    free = Freedom(pose=Pose(right_mm=0.0, down_mm=0.0), right_mm=5.0, room=rounded(20.0, 80.0))
    assert best_cover(rounded(24.0, 57.0), free, [disc(5.0)]) is None


def test_nothing_to_hide_is_hidden_whole() -> None:
    best = best_cover(LUG, Freedom(pose=Pose(right_mm=3.0, down_mm=1.0)), [])
    assert best is not None
    assert (best.hidden_mm2, best.bare_mm2, best.at_most_mm2) == (0.0, (), 0.0)


def test_a_mirrored_base_hides_what_its_other_hand_would_not() -> None:
    flag = Outline(((0.0, 0.0), (30.0, 0.0), (30.0, 10.0), (10.0, 10.0), (10.0, 40.0), (0.0, 40.0)))
    mark = Outline(tuple((-x, y) for x, y in flag.points))
    free = Freedom(pose=Pose(right_mm=0.0, down_mm=0.0, mirrored=True))
    best = best_cover(flag, free, [mark])
    assert best is not None
    assert best.bare_mm2 == pytest.approx((0.0,), abs=1e-9)


def test_a_search_of_no_tries_is_none() -> None:
    with pytest.raises(BadInput, match="not a search"):
        best_cover(LUG, Freedom(pose=Pose(right_mm=0.0, down_mm=0.0)), [], tries=0)
