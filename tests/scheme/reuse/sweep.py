"""Exact sweep of a window that has no height or no width, and the worth of a pose, plainly."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Any

from shapely.geometry import Point, Polygon

from counterhoop.scheme.reuse import Limits, OldHole, Tier, WantedHole

Shell = Any


def solve_on_a_line(shell: Shell) -> int | None:
    """Exact sweep of a window without height (or width): ends of intervals and between them."""
    w, girth = shell.window, shell.wanted.girth_mm
    level = w.down_min_mm == w.down_max_mm
    low, high = (w.turn_min_mm, w.turn_max_mm) if level else (w.down_min_mm, w.down_max_mm)
    fixed = w.down_min_mm if level else w.turn_min_mm
    stops = {low, high}

    def ball(x: float, y: float, hx: float, hy: float, r: float) -> Iterable[float]:
        """Ends of the cut through a box grown by a disc."""
        along, half, across, reach = (
            (x, hx, abs(fixed - y), hy) if level else (y, hy, abs(fixed - x), hx)
        )
        beyond = max(across - reach, 0.0)
        if beyond <= r + 1e-9 >= 1e-9:
            out = half + math.sqrt(max(r * r - beyond * beyond, 0.0))
            yield from (along - out, along + out)

    def edge(p: tuple[float, float], q: tuple[float, float]) -> Iterable[float]:
        (a, b), (c, d) = ((p[1], p[0]), (q[1], q[0])) if level else (p, q)
        if min(a, c) <= fixed <= max(a, c) and a != c:
            yield b + (d - b) * (fixed - a) / (c - a)
        elif a == c == fixed:
            yield from (b, d)

    limits = shell.limits
    for _, _, hole, along in shell.wants:
        for old in shell.old:
            for n in range(-2, 3):
                x, y = old.along_mm - along + n * girth, old.down_mm - hole.down_mm
                a, d = hole.slot_along_mm / 2, hole.slot_down_mm / 2
                keep = min(limits.keep_mm, (old.diameter_mm - hole.screw_mm) / 2)
                stops |= set(
                    ball(x, y, a + old.longer_along_mm / 2, d + old.longer_down_mm / 2, keep)
                )
                stops |= {*ball(x, y, a, d, limits.enlarge_mm), *ball(x, y, a, d, limits.slot_mm)}
                off = hole.hole_mm - (hole.screw_mm + old.diameter_mm) / 2
                off = min(limits.keep_mm, off)
                if not level and off >= 0:
                    stops |= {y - d - off, y + d + off}
            # discs in which nothing may be drilled are added below
        for disc in shell.barred_drill:
            for n in range(-2, 3):
                x, y = disc.along_mm - along + n * girth, disc.down_mm - hole.down_mm
                stops |= set(ball(x, y, 0.0, 0.0, disc.radius_mm))
    for bar in shell.barred:
        for fitting in shell.wanted.fittings:
            for n in range(-2, 3):
                shift = n * girth - fitting.along_mm
                ring = [(p[0] + shift, p[1]) for p in bar.points]
                for p, q in zip(ring, ring[1:] + ring[:1], strict=True):
                    stops |= set(edge(p, q))
    inside = sorted(s for s in stops if low <= s <= high)
    tried = inside + [(p + q) / 2 for p, q in pairwise(inside)]
    values = [
        value_plainly(shell, (t, fixed) if level else (fixed, t), slack_mm=1e-8) for t in tried
    ]
    return max((v for v in values if v is not None), default=None)


def value_plainly(shell: Shell, pose: tuple[float, float], *, slack_mm: float) -> int | None:
    """Worth of one pose by trying every assignment; None when it is not free. No bases."""
    girth, limits = shell.wanted.girth_mm, shell.limits
    worth = dict(zip(Tier, shell.weights.by_tier, strict=True))
    for bar in shell.barred:
        shape = Polygon(bar.points, bar.holes)
        for lug, fitting in enumerate(shell.wanted.fittings):
            for n in range(-2, 3):
                at = Point(pose[0] + fitting.along_mm + n * girth, pose[1])
                deep = shape.contains(at) and shape.boundary.distance(at) > slack_mm
                if bar.lug in (None, lug) and deep:
                    return None
    ways_of: list[list[tuple[int, Tier]]] = []
    forced: list[bool] = []
    for lug, i, hole, along in shell.wants:
        options = []
        for h, old in enumerate(shell.old):
            if not old.usable:
                continue
            e = old.along_mm - along - pose[0]
            e -= round(e / girth) * girth
            f = old.down_mm - hole.down_mm - pose[1]
            tier = best_tier(hole, old, e, f, limits, slack_mm)
            if tier is not None:
                options.append((h, tier))
        ways_of.append(options)
        near = []
        for disc in shell.barred_drill:
            dx = disc.along_mm - along - pose[0]
            dx -= round(dx / girth) * girth
            dy = disc.down_mm - hole.down_mm - pose[1]
            if disc.lug in (None, lug) and disc.hole in (None, i):
                near.append(math.hypot(dx, dy) < disc.radius_mm - slack_mm)
        forced.append(any(near))
    best: int | None = None

    def go(w: int, value: int, chosen: tuple[tuple[int, Tier] | None, ...]) -> None:
        nonlocal best
        if w == len(ways_of):
            if not limits.bush:
                for lug in {row[0] for row in shell.wants}:
                    of_lug = [
                        c for c, row in zip(chosen, shell.wants, strict=True) if row[0] == lug
                    ]
                    if all(c is not None and c[1] is Tier.SLOT for c in of_lug):
                        return
            best = value if best is None else max(best, value)
            return
        if not forced[w]:
            go(w + 1, value, (*chosen, None))
        for h, tier in ways_of[w]:
            if all(c is None or c[0] != h for c in chosen):
                go(w + 1, value + worth[tier], (*chosen, (h, tier)))

    go(0, 0, ())
    return best


def best_tier(
    hole: WantedHole, old: OldHole, e: float, f: float, limits: Limits, slack_mm: float
) -> Tier | None:
    """The best tier that a misfit allows, from the definitions."""

    def beyond(value: float, travel: float) -> float:
        return max(abs(value) - travel / 2, 0.0)

    far = math.hypot(
        beyond(e, hole.slot_along_mm + old.longer_along_mm),
        beyond(f, hole.slot_down_mm + old.longer_down_mm),
    )
    if old.diameter_mm >= hole.screw_mm and far <= slack_mm + min(
        limits.keep_mm, (old.diameter_mm - hole.screw_mm) / 2
    ):
        return Tier.KEEP
    if old.longer_along_mm or old.longer_down_mm:
        return None
    across, lengthways = beyond(e, hole.slot_along_mm), beyond(f, hole.slot_down_mm)
    far = math.hypot(across, lengthways)
    if far <= limits.enlarge_mm + slack_mm:
        return Tier.ENLARGE
    off = min(limits.keep_mm, hole.hole_mm - (hole.screw_mm + old.diameter_mm) / 2)
    aslant = limits.lengthways or lengthways <= off + slack_mm
    if old.diameter_mm <= hole.hole_mm and far <= limits.slot_mm + slack_mm and aslant:
        return Tier.SLOT
    return None
