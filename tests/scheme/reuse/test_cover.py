"""What base and washer cover, against shapely, opening by opening."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.prepared import prep

from counterhoop.scheme.reuse.cover import Cover, cover_of
from counterhoop.scheme.reuse.limits import Tier
from counterhoop.scheme.reuse.wanted import WantedHole

REDUCED, FULL = 36, 600
LIMIT = {Tier.KEEP: 0.8, Tier.ENLARGE: 2.0, Tier.SLOT: 4.0}
LEFT_OUT_MM = 0.004


def opening(hole: WantedHole, old_mm: float, tier: Tier, e: tuple[float, float]) -> Polygon:
    """The hole that is there afterwards, under the base, in fine polygons."""
    place = np.array([hole.right_mm, hole.down_mm])
    old = Point(place + e).buffer(old_mm / 2, quad_segs=180)
    if tier is Tier.KEEP:
        return old
    if tier is Tier.SLOT:
        return LineString([place, place + e]).buffer(hole.hole_mm / 2, quad_segs=180)
    new = Point(place).buffer(hole.hole_mm / 2, quad_segs=180)
    # smallest round hole that holds both: across the far sides of the two
    far = math.hypot(*e)
    if far + min(old_mm, hole.hole_mm) / 2 <= max(old_mm, hole.hole_mm) / 2:
        return old if old_mm > hole.hole_mm else new
    u = np.array(e) / far
    ends = place + e + u * old_mm / 2, place - u * hole.hole_mm / 2
    return Point((ends[0] + ends[1]) / 2).buffer(math.dist(*ends) / 2, quad_segs=180)


def star(rng: np.random.Generator) -> tuple[tuple[float, float], ...]:
    corners = int(rng.integers(3, 9))
    angles = (np.arange(corners) + rng.uniform(0, 0.6, corners)) * math.tau / corners
    far = rng.uniform(5, 12, corners)
    return tuple(
        (float(r * math.cos(a)), float(r * math.sin(a))) for a, r in zip(angles, far, strict=True)
    )


def hold(seeds: range) -> None:
    limited = nothing = 0
    for seed in seeds:
        rng = np.random.default_rng(seed)
        base = star(rng)
        hole = WantedHole(
            right_mm=float(rng.normal(0, 1)),
            down_mm=float(rng.normal(0, 1)),
            hole_mm=6.0,
            screw_mm=5.0,
            washer_mm=float(rng.choice([0, 0, 9.0, 12.0])),
        )
        tier = Tier(int(rng.integers(3)))
        old_mm = float(rng.choice([5.0, 6.0])) if tier is Tier.SLOT else float(rng.uniform(4, 9))
        inside = 1.0
        cover = cover_of(
            hole,
            base=base,
            diameter_mm=old_mm,
            longer_mm=(0.0, 0.0),
            tier=tier,
            furthest_mm=LIMIT[tier],
            inside_mm=inside,
        )
        rim = -inside if tier is not Tier.KEEP else 0.0
        room = Polygon(base).buffer(rim, quad_segs=180)
        washer = Point(hole.right_mm, hole.down_mm).buffer(
            max(hole.washer_mm / 2 + rim, 0.0), quad_segs=180
        )

        lid_of = {
            (lid, slack): prep(shape.buffer(slack))
            for lid, shape in enumerate((room, washer))
            for slack in (-1e-3, 2e-3, -2e-3)
        }

        def fits(e: tuple[float, float], slack: float, *, lids: tuple[int, ...] = (0, 1)) -> bool:
            shape = opening(hole, old_mm, tier, e)  # noqa: B023
            return any(lid_of[lid, slack].covers(shape) for lid in lids)  # noqa: B023

        def told(e: tuple[float, float]) -> bool:
            if isinstance(cover, Cover):  # noqa: B023
                return bool(cover.holds(np.array([e]), tolerance_mm=1e-7)[0])  # noqa: B023
            return cover  # noqa: B023

        nothing += cover is False
        limited += isinstance(cover, Cover)
        if cover is False:
            assert not fits((0.0, 0.0), -1e-3)
            continue
        for a in rng.uniform(0, math.tau, 6):
            ray = np.array([math.cos(a), math.sin(a)])
            far = 0.0
            while far <= LIMIT[tier]:
                e = (float(far * ray[0]), float(far * ray[1]))
                if told(e):
                    assert fits(e, 2e-3), f"seed {seed}: not covered at {e}"
                elif far > LEFT_OUT_MM * 3:
                    back = (e[0] - 3 * LEFT_OUT_MM * ray[0], e[1] - 3 * LEFT_OUT_MM * ray[1])
                    steps = np.linspace(0, 1, 40)
                    every = any(
                        all(
                            fits((float(t * e[0]), float(t * e[1])), -2e-3, lids=(lid,))
                            for t in steps
                        )
                        for lid in (0, 1)
                    )
                    assert told(back) or not every, f"seed {seed}: covered after all at {e}"
                    break
                far += LIMIT[tier] / 9
    assert limited > 0.3 * len(seeds)
    assert nothing > 0


def test_cover_against_shapely() -> None:
    hold(range(REDUCED))


@pytest.mark.full
def test_cover_against_shapely_often() -> None:
    hold(range(1000, 1000 + FULL))


def square_cover(half: float, tier: Tier, *, old_mm: float = 6.0, washer_mm: float = 0.0) -> object:
    base = ((-half, -half), (half, -half), (half, half), (-half, half))
    hole = WantedHole(right_mm=0, down_mm=0, hole_mm=6, screw_mm=5, washer_mm=washer_mm)
    return cover_of(
        hole,
        base=base,
        diameter_mm=old_mm,
        longer_mm=(0.0, 0.0),
        tier=tier,
        furthest_mm=5.0,
        inside_mm=1.0,
    )


def test_a_square_base_by_hand() -> None:
    # slot: centre may go to 7 - 3 - 1 = 3 on every side, exactly, corners too
    slot = square_cover(7.0, Tier.SLOT)
    assert isinstance(slot, Cover)
    at = np.array([[3.0, 0.0], [3.0, 3.0], [-3.0, 2.9], [3.0001, 0.0], [2.0, -3.0001]])
    assert slot.holds(at, tolerance_mm=1e-6).tolist() == [True, True, True, False, False]
    assert len(slot.corners) <= 5
    # enlarge: straight at a side, |e| + 6 + 1 <= 3 + 7; along a side nothing is nearer than e
    enlarge = square_cover(7.0, Tier.ENLARGE)
    assert isinstance(enlarge, Cover)
    assert enlarge.holds(np.array([[2.99, 0.0], [3.01, 0.0]]), tolerance_mm=0.0).tolist() == [
        True,
        False,
    ]
    assert square_cover(9.1, Tier.SLOT) is True
    assert square_cover(3.5, Tier.SLOT) is False
    assert square_cover(2.9, Tier.KEEP) is False
    assert square_cover(2.9, Tier.KEEP, washer_mm=20.0) is True


def test_without_base_and_washer_nothing_limits() -> None:
    hole = WantedHole(right_mm=0, down_mm=0, hole_mm=6, screw_mm=5)
    assert cover_of(
        hole,
        base=(),
        diameter_mm=6,
        longer_mm=(0.0, 0.0),
        tier=Tier.SLOT,
        furthest_mm=4.0,
        inside_mm=1.0,
    )


def test_a_long_old_hole_is_covered_to_both_ends() -> None:
    base = ((-9.0, -9.0), (9.0, -9.0), (9.0, 9.0), (-9.0, 9.0))
    hole = WantedHole(right_mm=0, down_mm=0, hole_mm=6, screw_mm=5)
    cover = cover_of(
        hole,
        base=base,
        diameter_mm=6,
        longer_mm=(8.0, 0.0),
        tier=Tier.KEEP,
        furthest_mm=0.5,
        inside_mm=1.0,
    )
    assert isinstance(cover, Cover)
    # 9 - 3 - 4 = 2 to either side
    at = np.array([[1.99, 0.0], [-1.99, 0.0], [2.01, 0.0], [0.0, 4.0]])
    assert cover.holds(at, tolerance_mm=1e-6).tolist() == [True, True, False, True]
