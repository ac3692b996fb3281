"""Random problems, small enough for the slow solver and crowded enough to be hard."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from typing import Any

import numpy as np
from shapely.geometry import Polygon

from counterhoop.scheme.reuse import (
    Barred,
    BarredDrill,
    Limits,
    OldHole,
    Wanted,
    WantedFitting,
    WantedGroup,
    WantedHole,
    WantedRow,
    Weights,
    Window,
)

Random = np.random.Generator
Shell: Any = sys.modules["reuse_slow"].Shell
WEIGHTS = (None, (3, 2, 1), (1, 1, 1), (5, 5, 2), (7, 1, 1))


def random_shell(seed: int) -> Any:
    """Row or group, old holes crowded about where they would serve, bars, any window of area."""
    rng = np.random.default_rng(seed)
    wanted = _wanted(rng, based=rng.random() < 0.25)
    window = _window(rng, wanted)
    return _filled(rng, wanted, window, holed=True)


def nominal_shell(seed: int) -> Any:
    """The same in round figures: boundaries touch, coincide and cross in one point."""
    shell, s = random_shell(seed), 0.4 if seed % 2 else 0.5

    def rounded(value: float) -> float:
        return round(value / s) * s

    wanted = replace(shell.wanted, girth_mm=round(shell.wanted.girth_mm / (12 * s)) * 12 * s)
    if isinstance(wanted, WantedGroup):
        fittings = (replace(f, along_mm=rounded(f.along_mm)) for f in wanted.fittings)
        wanted = replace(wanted, fittings=tuple(fittings))
    w = shell.window
    low = rounded(w.turn_min_mm)
    bars = (
        replace(b, points=tuple((rounded(x), rounded(y)) for x, y in b.points), holes=())
        for b in shell.barred
    )
    return replace(
        shell,
        wanted=wanted,
        limits=replace(shell.limits, keep_mm=2 * s, enlarge_mm=4 * s, slot_mm=8 * s),
        old=tuple(
            replace(o, along_mm=rounded(o.along_mm), down_mm=rounded(o.down_mm)) for o in shell.old
        ),
        window=Window(
            turn_min_mm=low,
            turn_max_mm=max(low, min(low + wanted.period_mm, rounded(w.turn_max_mm))),
            down_min_mm=rounded(w.down_min_mm),
            down_max_mm=rounded(w.down_max_mm),
        ),
        barred=tuple(b for b in bars if Polygon(b.points).is_valid and Polygon(b.points).area > 0),
        barred_drill=tuple(
            BarredDrill(
                along_mm=rounded(d.along_mm),
                down_mm=rounded(d.down_mm),
                radius_mm=rounded(d.radius_mm),
                lug=d.lug,
                hole=d.hole,
            )
            for d in shell.barred_drill
        ),
    )


def random_line(seed: int) -> Any:
    """The same with a window that has no height, no width, or neither."""
    rng = np.random.default_rng(seed)
    wanted = _wanted(rng, based=False)
    window = _window(rng, wanted)
    x, y = rng.uniform(window.turn_min_mm, window.turn_max_mm), round(rng.uniform(-3, 3), 1)
    flat = rng.integers(0, 5)
    window = Window(
        turn_min_mm=window.turn_min_mm if flat < 2 else x,
        turn_max_mm=window.turn_max_mm if flat < 2 else x,
        down_min_mm=window.down_min_mm if 2 <= flat < 4 else y,
        down_max_mm=window.down_max_mm if 2 <= flat < 4 else y,
    )
    return _filled(rng, wanted, window, holed=False)


def _wanted(rng: Random, *, based: bool) -> Wanted:
    girth = float(rng.uniform(80, 140))
    travel = (lambda: float(rng.choice([0, 0, 1.5]))) if rng.random() < 0.3 else (lambda: 0.0)

    def holes() -> tuple[WantedHole, ...]:
        pitch = float(rng.choice([5.0, 12.0, 21.0]))
        return tuple(
            WantedHole(
                right_mm=float(rng.choice([0.0, 0.0, 1.5])),
                down_mm=i * pitch,
                hole_mm=6.0,
                screw_mm=float(rng.choice([4.5, 5.0, 6.0])),
                slot_along_mm=travel(),
                slot_down_mm=travel(),
            )
            for i in range(int(rng.integers(1, 4)))
        )

    half, top, bottom = (float(rng.uniform(3.9, 9)) for _ in range(3))
    base = ((-half, -top), (half, -top), (half, 21 + bottom), (-half, 21 + bottom))
    base = base if based else ()
    if based:
        travel = lambda: 0.0  # noqa: E731
    if rng.random() < 0.6:
        return WantedRow(holes=holes(), count=int(rng.integers(1, 4)), girth_mm=girth, base=base)
    places = np.cumsum(rng.choice([3.0, 20.0, 24.5], int(rng.integers(1, 4))))
    return WantedGroup(
        fittings=tuple(WantedFitting(along_mm=float(x), holes=holes(), base=base) for x in places),
        girth_mm=girth,
    )


def _window(rng: Random, wanted: Wanted) -> Window:
    period = wanted.period_mm
    if rng.random() < 0.25:
        low = float(rng.uniform(-period, period))
        wide = period
    else:
        low = float(rng.choice([-3.0, -1.0, wanted.girth_mm - 4.0, -0.2]))
        wide = min(float(rng.choice([0.3, 2.0, 6.0, 9.0])), period)
    high = float(rng.choice([0.2, 2.0, 5.0]))
    middle = float(rng.choice([0.0, 1.0]))
    return Window(
        turn_min_mm=low,
        turn_max_mm=low + wide,
        down_min_mm=middle - high,
        down_max_mm=middle + high,
    )


def _filled(rng: Random, wanted: Wanted, window: Window, *, holed: bool) -> Any:
    wants = [(f.along_mm + h.right_mm, h.down_mm) for f in wanted.fittings for h in f.holes]
    middle = (window.turn_min_mm + window.turn_max_mm) / 2
    size = float(rng.choice([0.5, 1.5, 3.5]))
    old: list[OldHole] = []
    for number in range(int(rng.integers(0, 8))):
        x, y = wants[rng.integers(len(wants))]
        dx, dy = rng.normal(0, size, 2)
        if rng.random() < 0.3:
            dx, dy = round(dx * 2) / 2, round(dy * 2) / 2
        x, y = (x + middle + dx) % wanted.girth_mm, y + dy
        if old and rng.random() < 0.15:
            x, y = old[-1].along_mm, old[-1].down_mm
        long = float(rng.choice([0, 0, 0, 2.5]))
        old.append(
            OldHole(
                number=number + 1,
                along_mm=float(x),
                down_mm=float(y),
                diameter_mm=float(rng.choice([5.0, 5.5, 6.0, 6.0, 6.5, 8.0])),
                longer_along_mm=long,
                longer_down_mm=0.0 if long else float(rng.choice([0, 0, 0, 0, 2.5])),
                usable=bool(rng.random() < 0.95),
            )
        )
    weights = WEIGHTS[rng.integers(len(WEIGHTS))]
    keep, enlarge, slot = 0.8, float(rng.choice([1.2, 2.0])), float(rng.choice([2.0, 4.0]))
    based = any(fitting.base for fitting in wanted.fittings)
    if based:
        old = [o for o in old if not (o.longer_along_mm or o.longer_down_mm)]
    return Shell(
        wanted=wanted,
        old=tuple(old),
        window=window,
        ideal=(float(middle + rng.choice([0.0, 0.4, -5.0])), float(rng.choice([0.0, 0.3, 8.0]))),
        limits=Limits(
            keep_mm=keep,
            enlarge_mm=enlarge,
            slot_mm=slot,
            lengthways=bool(rng.random() < 0.3),
            bush=bool(rng.random() < 0.3),
        ),
        barred=tuple(
            _bar(rng, wanted, middle, holed=holed) for _ in range(int(rng.choice([0, 0, 1, 2, 3])))
        ),
        barred_drill=tuple(
            _disc(rng, wants, wanted, middle) for _ in range(int(rng.choice([0, 0, 1, 3])))
        ),
        weights=Weights(keep=weights[0], enlarge=weights[1], slot=weights[2])
        if weights
        else Weights.more_then_better(len(wants)),
    )


def _bar(rng: Random, wanted: Wanted, middle: float, *, holed: bool) -> Barred:
    """A star of any shape about a pose of some fitting, now and then with a place left free."""
    lug = int(rng.integers(len(wanted.fittings)))
    x = middle + wanted.fittings[lug].along_mm + rng.normal(0, 2)
    y = rng.normal(0, 1.5)
    corners = int(rng.integers(3, 9))
    angles = (np.arange(corners) + rng.uniform(0, 0.8, corners)) * math.tau / corners
    far = rng.uniform(0.3, 3.0, corners)
    ring = tuple(
        (float(x + r * math.cos(a)), float(y + r * math.sin(a)))
        for a, r in zip(angles, far, strict=True)
    )
    inner = tuple(((p - x) * 0.4 + x, (q - y) * 0.4 + y) for p, q in ring)
    return Barred(
        points=ring,
        holes=(inner,) if holed and corners > 4 and rng.random() < 0.4 else (),
        lug=lug if rng.random() < 0.2 else None,
    )


def _disc(
    rng: Random, wants: list[tuple[float, float]], wanted: Wanted, middle: float
) -> BarredDrill:
    x, y = wants[rng.integers(len(wants))]
    return BarredDrill(
        along_mm=float((x + middle + rng.normal(0, 2)) % wanted.girth_mm),
        down_mm=float(y + rng.normal(0, 2)),
        radius_mm=float(rng.uniform(0.2, 4)),
        lug=None if rng.random() < 0.5 else int(rng.integers(len(wanted.fittings))),
        hole=None if rng.random() < 0.5 else 0,
    )
