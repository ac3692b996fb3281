"""A slow solver that shares nothing with the fast one: polygons cut from polygons, case by case."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from counterhoop.scheme.reuse import (
    Barred,
    BarredDrill,
    Limits,
    NoRoom,
    OldHole,
    Reuse,
    Tier,
    Wanted,
    WantedHole,
    WantedRow,
    Weights,
    Window,
    best_reuse,
)

Sides = tuple[float, float, float, float]
QUARTER = 32
"""Sides of a disc, a quarter turn."""


@dataclass(frozen=True, kw_only=True)
class Shell:
    """One problem, as both solvers take it."""

    wanted: Wanted
    old: tuple[OldHole, ...]
    window: Window
    ideal: tuple[float, float]
    limits: Limits
    barred: tuple[Barred, ...] = ()
    barred_drill: tuple[BarredDrill, ...] = ()
    weights: Weights

    def solve(self) -> Reuse | NoRoom:
        return best_reuse(
            self.wanted,
            self.old,
            window=self.window,
            ideal=self.ideal,
            limits=self.limits,
            barred=self.barred,
            barred_drill=self.barred_drill,
            weights=self.weights,
        )

    @property
    def wants(self) -> list[tuple[int, int, WantedHole, float]]:
        return [
            (lug, i, hole, fitting.along_mm + hole.right_mm)
            for lug, fitting in enumerate(self.wanted.fittings)
            for i, hole in enumerate(fitting.holes)
        ]

    @property
    def goals(self) -> list[tuple[float, float]]:
        named = any(bar.lug is not None for bar in (*self.barred, *self.barred_drill))
        alike = isinstance(self.wanted, WantedRow) and not named
        period = self.wanted.girth_mm / (self.wanted.count if alike else 1)
        return [(self.ideal[0] + n * period, self.ideal[1]) for n in range(-30, 31)]


@dataclass(frozen=True, kw_only=True)
class Slow:
    """Best value over a plane in which every closed set is a little small (or a little large)."""

    value: int | None
    from_ideal_mm: float


def grown(shape: BaseGeometry, radius_mm: float, *, large: bool) -> BaseGeometry:
    """Disc-grown shape whose polygon lies outside (large) or inside the true one."""
    slack = 1e-6
    if radius_mm <= slack:
        return shape.buffer(slack) if large else shape
    r = radius_mm / math.cos(math.pi / 4 / QUARTER) + slack if large else radius_mm - slack
    return shape.buffer(r, quad_segs=QUARTER)


def opening_fits(
    hole: WantedHole, sides: Sides, e: tuple[float, float], r_old: float, inside_mm: float
) -> bool:
    """Whether the smallest disc round old and new hole lies in a rectangle, with margin."""
    r_new, far = hole.hole_mm / 2, math.hypot(*e)
    radius = max(r_old, r_new, (far + r_old + r_new) / 2)
    share = 0.0 if far == 0 else min((radius - r_new) / far, 1.0)
    x, y = hole.right_mm + e[0] * share, hole.down_mm + e[1] * share
    left, top, right, bottom = sides
    need = radius + inside_mm
    return left <= x - need and x + need <= right and top <= y - need and y + need <= bottom


@cache
def enlarged_cover(
    hole: WantedHole, sides: Sides, r_old: float, limits: Limits, *, large: bool
) -> BaseGeometry:
    """Misfits whose enlarged opening is covered, ray by ray."""
    points = []
    for step in range(480):
        a = math.tau * step / 480
        low, high = 0.0, limits.enlarge_mm * 1.1
        for _ in range(20):
            middle = (low + high) / 2
            e = (middle * math.cos(a), middle * math.sin(a))
            fits = opening_fits(hole, sides, e, r_old, limits.opening_inside_mm)
            low, high = (middle, high) if fits else (low, middle)
        points.append((low * math.cos(a), low * math.sin(a)))
    if not opening_fits(hole, sides, (0.0, 0.0), r_old, limits.opening_inside_mm):
        return Polygon()
    return Polygon(points).buffer(0.002 if large else -0.022)


def ways(shell: Shell, *, large: bool) -> dict[tuple[int, int], dict[Tier, BaseGeometry]]:
    """For each wanted and old hole the poses at which each tier is possible."""
    found: dict[tuple[int, int], dict[Tier, BaseGeometry]] = {}
    limits, girth = shell.limits, shell.wanted.girth_mm
    room = window_shape(shell.window).buffer(1e-3)
    for w, (lug, _, hole, along) in enumerate(shell.wants):
        base = Polygon(shell.wanted.fittings[lug].base)
        for h, old in enumerate(shell.old):
            if not old.usable:
                continue
            r_old, r_new, r_screw = old.diameter_mm / 2, hole.hole_mm / 2, hole.screw_mm / 2
            tiers: dict[Tier, BaseGeometry] = {}
            ha = (hole.slot_along_mm + old.longer_along_mm) / 2
            hd = (hole.slot_down_mm + old.longer_down_mm) / 2
            travel = plain_box(-ha, -hd, ha, hd)
            if r_old >= r_screw:
                play = min(limits.keep_mm, r_old - r_screw)
                tiers[Tier.KEEP] = grown(travel, play, large=large)
            if old.longer_along_mm == old.longer_down_mm == 0:
                a, d = hole.slot_along_mm / 2, hole.slot_down_mm / 2
                part = plain_box(-a, -d, a, d)
                tiers[Tier.ENLARGE] = grown(part, limits.enlarge_mm, large=large)
                if r_old <= r_new:
                    slot = grown(part, limits.slot_mm, large=large)
                    if not limits.lengthways:
                        off = min(limits.keep_mm, (r_new - r_screw) + (r_new - r_old)) + d
                        off += 1e-6 if large else 0.0
                        slot = (
                            slot.intersection(box(-99, -off, 99, off))
                            if off
                            else (slot.intersection(LineString([(-99, 0), (99, 0)])))
                        )
                    tiers[Tier.SLOT] = slot
            if not base.is_empty:
                left, top, right, bottom = base.bounds
                for tier, shape in tiers.items():
                    if tier is Tier.ENLARGE:
                        cover = enlarged_cover(hole, base.bounds, r_old, limits, large=large)
                    else:
                        need = r_old if tier is Tier.KEEP else r_new + limits.opening_inside_mm
                        sides = (
                            left + need - hole.right_mm,
                            top + need - hole.down_mm,
                            right - need - hole.right_mm,
                            bottom - need - hole.down_mm,
                        )
                        ok = sides[0] <= sides[2] and sides[1] <= sides[3]
                        origin = sides[0] <= 0 <= sides[2] and sides[1] <= 0 <= sides[3]
                        cover = box(*sides) if ok and origin else Polygon()
                        cover = cover.buffer(1e-6 if large else -1e-4)
                    tiers[tier] = shape.intersection(cover)
            for tier, shape in tiers.items():
                # misfit is old minus wanted: the pose is the place at no misfit, less the misfit
                turned = shapely.affinity.scale(shape, -1, -1, origin=(0, 0))
                copies = [
                    shapely.affinity.translate(
                        turned, old.along_mm - along + n * girth, old.down_mm - hole.down_mm
                    )
                    for n in range(-2, 3)
                ]
                near = [copy for copy in copies if copy.intersects(room)]
                if near:
                    found.setdefault((w, h), {})[tier] = shapely.union_all(near)
    return found


def plain_box(x0: float, y0: float, x1: float, y1: float) -> BaseGeometry:
    """Box, segment or point."""
    if x0 == x1 and y0 == y1:
        return Point(x0, y0)
    if x0 == x1 or y0 == y1:
        return LineString([(x0, y0), (x1, y1)])
    return box(x0, y0, x1, y1)


def window_shape(w: Window) -> BaseGeometry:
    """The window as a shape."""
    return plain_box(w.turn_min_mm, w.down_min_mm, w.turn_max_mm, w.down_max_mm)


def free_poses(shell: Shell, *, large: bool) -> BaseGeometry:
    """The window without barred regions."""
    girth = shell.wanted.girth_mm
    free = window_shape(shell.window)
    for bar in shell.barred:
        for lug, fitting in enumerate(shell.wanted.fittings):
            if bar.lug in (None, lug):
                shape = Polygon(bar.points, bar.holes)
                shape = shape.buffer(-1e-6, join_style="mitre") if large else shape
                for n in range(-2, 3):
                    moved = shapely.affinity.translate(shape, n * girth - fitting.along_mm, 0)
                    free = free.difference(moved)
    return free


def undrillable(shell: Shell, *, large: bool) -> list[BaseGeometry]:
    """For each wanted hole the poses at which it may not be drilled."""
    girth = shell.wanted.girth_mm
    shapes = []
    for lug, i, hole, along in shell.wants:
        discs = [
            grown(
                Point(disc.along_mm - along + n * girth, disc.down_mm - hole.down_mm),
                disc.radius_mm,
                large=not large,
            )
            for disc in shell.barred_drill
            if disc.radius_mm > 0 and disc.lug in (None, lug) and disc.hole in (None, i)
            for n in range(-2, 3)
        ]
        shapes.append(shapely.union_all(discs) if discs else Polygon())
    return shapes


def solve_slowly(shell: Shell, *, large: bool) -> Slow:
    """Try every assignment of old holes and tiers, carrying the poses that allow it."""
    wants, worth = shell.wants, dict(zip(Tier, shell.weights.by_tier, strict=True))
    possible, barred = ways(shell, large=large), undrillable(shell, large=large)
    best: int | None = None
    poses: list[BaseGeometry] = []

    def go(w: int, here: BaseGeometry, value: int, chosen: dict[int, tuple[int, Tier]]) -> None:
        nonlocal best, poses
        if here.is_empty:
            return
        if best is not None and value + (len(wants) - w) * worth[Tier.KEEP] < best:
            return
        if w == len(wants):
            if not shell.limits.bush:
                for lug in {row[0] for row in wants}:
                    of_lug = [chosen.get(i) for i, row in enumerate(wants) if row[0] == lug]
                    if all(way is not None and way[1] is Tier.SLOT for way in of_lug):
                        return
            if best is None or value > best:
                best, poses = value, []
            poses.append(here)
            return
        taken = {old for old, _ in chosen.values()}
        for (v, h), tiers in possible.items():
            if v == w and h not in taken:
                for tier, shape in tiers.items():
                    cut = here.intersection(shape)
                    go(w + 1, cut, value + worth[tier], {**chosen, w: (h, tier)})
        go(w + 1, here.difference(barred[w]), value, chosen)

    go(0, free_poses(shell, large=large), 0, {})
    if best is None:
        return Slow(value=None, from_ideal_mm=math.inf)
    whole = shapely.union_all(poses)
    return Slow(value=best, from_ideal_mm=min(whole.distance(Point(goal)) for goal in shell.goals))
