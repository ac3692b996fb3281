"""Lines at 45 degrees that fill a circle: what is plugged."""

from __future__ import annotations

import math
from typing import TypeAlias

Segment: TypeAlias = tuple[float, float, float, float]
ROOT_HALF = math.sqrt(0.5)


def circle_hatch(
    x_mm: float, y_mm: float, diameter_mm: float, *, apart_mm: float, clear_mm: float = 0.0
) -> tuple[Segment, ...]:
    """Chords of a circle that rise to the right, evenly about its middle.

    Parameters
    ----------
    x_mm, y_mm, diameter_mm : float
        The circle, y downward.
    apart_mm : float
        Between two lines; narrowed so that no hole has fewer than three.
    clear_mm : float
        Diameter of a disc about the middle that stays free.

    Returns
    -------
    tuple of (x1, y1, x2, y2)

    Examples
    --------
    >>> len(circle_hatch(0.0, 0.0, 6.0, apart_mm=1.5))
    4
    """
    r = diameter_mm / 2.0
    step = min(apart_mm, diameter_mm / 3.5)
    count = max(3, math.floor(diameter_mm / step))
    segments: list[Segment] = []
    for index in range(count):
        off = (index - (count - 1) / 2.0) * step
        half = math.sqrt(max(r * r - off * off, 0.0))
        inner = math.sqrt(max((clear_mm / 2.0) ** 2 - off * off, 0.0))
        spans = [(-half, -inner), (inner, half)] if inner > 0.0 else [(-half, half)]
        for start, end in spans:
            if end - start > 1e-6:
                segments.append(_on_slope(x_mm, y_mm, off, start, end))
    return tuple(segments)


def _on_slope(x: float, y: float, off: float, start: float, end: float) -> Segment:
    ox, oy = x + off * ROOT_HALF, y + off * ROOT_HALF
    return (
        ox + start * ROOT_HALF,
        oy - start * ROOT_HALF,
        ox + end * ROOT_HALF,
        oy - end * ROOT_HALF,
    )


def path_hatch(
    points: tuple[tuple[float, float], ...], bulges: tuple[float, ...], *, apart_mm: float
) -> tuple[Segment, ...]:
    """Lines at 45 degrees within a closed outline (slot, oval, rectangle), rising to the right."""
    corners = flattened(points, bulges)
    offs = [(x + y) * ROOT_HALF for x, y in corners]
    middle = (min(offs) + max(offs)) / 2
    count = max(3, math.floor((max(offs) - min(offs)) / apart_mm))
    step = min(apart_mm, (max(offs) - min(offs)) / 3.5)
    segments: list[Segment] = []
    for index in range(count):
        off = middle + (index - (count - 1) / 2.0) * step
        cuts = []
        for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
            a, b = (x1 + y1) * ROOT_HALF - off, (x2 + y2) * ROOT_HALF - off
            if (a < 0.0) != (b < 0.0):
                t = a / (a - b)
                cuts.append((x1 + (x2 - x1) * t, y1 + (y2 - y1) * t))
        cuts.sort()
        segments += [(*cuts[i], *cuts[i + 1]) for i in range(0, len(cuts) - 1, 2)]
    return tuple(segments)


def flattened(
    points: tuple[tuple[float, float], ...], bulges: tuple[float, ...], *, steps: int = 24
) -> list[tuple[float, float]]:
    """The corners of a closed outline with its arcs divided into steps."""
    if not bulges:
        return list(points)
    corners: list[tuple[float, float]] = []
    for i, start in enumerate(points):
        end, bulge = points[(i + 1) % len(points)], bulges[i]
        corners.append(start)
        if not bulge:
            continue
        turn = 4 * math.atan(bulge)
        half = (1 - bulge * bulge) / (4 * bulge)  # centre from the chord's middle, in chords
        dx, dy = end[0] - start[0], end[1] - start[1]
        cx = (start[0] + end[0]) / 2 - dy * half
        cy = (start[1] + end[1]) / 2 + dx * half
        sx, sy = start[0] - cx, start[1] - cy
        for step in range(1, steps):
            a = turn * step / steps
            c, s = math.cos(a), math.sin(a)
            corners.append((cx + sx * c - sy * s, cy + sx * s + sy * c))
    return corners
