"""Outlines of bases, plates, shadows and patches in their own millimetres."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache

QUARTER_STEPS = 32


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed polygon about a fitting's own reference point.

    Attributes
    ----------
    points : tuple of (float, float)
        Corners as (right, down) in millimetres from the reference point, the fitting upright,
        seen from outside. Round corners are divided into 32 steps a quarter turn.
    """

    points: tuple[tuple[float, float], ...]
    _hash: int | None = field(default=None, init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        """Return the same as ever, reckoned once: a hundred corners are asked for at every look."""
        if self._hash is None:
            object.__setattr__(self, "_hash", hash(self.points))
        return hash(self._hash)

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom extents from the reference point."""
        return _bounds_mm(self)

    def turned(self, turned_deg: float) -> Outline:
        """Return the outline turned about the reference point, right toward down positive."""
        return self if turned_deg % 360.0 == 0.0 else _turned(self, turned_deg)

    def moved(self, right_mm: float, down_mm: float) -> Outline:
        """Return the outline shifted."""
        return Outline(tuple((x + right_mm, y + down_mm) for x, y in self.points))


# A row has one base many times over, and every check asks how far it reaches as it stands.
@lru_cache(maxsize=4096)
def _bounds_mm(outline: Outline) -> tuple[float, float, float, float]:
    xs = [x for x, _ in outline.points]
    ys = [y for _, y in outline.points]
    return (min(xs), min(ys), max(xs), max(ys))


@lru_cache(maxsize=4096)
def _turned(outline: Outline, turned_deg: float) -> Outline:
    c, s = _cos_sin(turned_deg)
    return Outline(tuple((x * c - y * s, x * s + y * c) for x, y in outline.points))


def rounded(width_mm: float, height_mm: float, *, corner_mm: float = 0.0) -> Outline:
    """Rectangle centred on the reference point with corners of one radius.

    A corner of half the width gives the ends of a tube; width = height = 2 corner gives a disc.
    """
    r = min(corner_mm, width_mm / 2, height_mm / 2)
    w, h = width_mm / 2, height_mm / 2
    if r <= 0:
        return Outline(((-w, -h), (w, -h), (w, h), (-w, h)))
    corners = ((w - r, -h + r, -90.0), (w - r, h - r, 0.0), (-w + r, h - r, 90.0))
    points: list[tuple[float, float]] = []
    for cx, cy, start_deg in (*corners, (-w + r, -h + r, 180.0)):
        for step in range(QUARTER_STEPS + 1):
            a = math.radians(start_deg + 90.0 * step / QUARTER_STEPS)
            points.append((cx + r * math.cos(a), cy + r * math.sin(a)))
    kept = [p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > 1e-9]
    return Outline(tuple(kept))


def disc(diameter_mm: float) -> Outline:
    """Circle about the reference point."""
    return rounded(diameter_mm, diameter_mm, corner_mm=diameter_mm / 2)


def _cos_sin(turned_deg: float) -> tuple[float, float]:
    quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    exact = quarter.get(turned_deg % 360.0)
    if exact is not None:
        return exact
    a = math.radians(turned_deg)
    return (math.cos(a), math.sin(a))
