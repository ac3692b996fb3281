"""The gap between two holes of given shapes whose centres lie so and so apart."""

from __future__ import annotations

import math

from counterhoop.development.shape import HoleShape, Oval, Rectangle, Round, Slot

# A line down the shell, or a rectangle: half extents along and down, then the rounding.
Core = tuple[float, float, float]

SCAN = 64
_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


def core_of(shape: Round | Slot | Rectangle) -> Core:
    """Half extents of the box that, widened by the radius all round, is the hole.

    A round hole is a point with a radius, a slot a line with one, a rectangle a box without.
    """
    if isinstance(shape, Round):
        return (0.0, 0.0, shape.diameter_mm / 2.0)
    if isinstance(shape, Rectangle):
        return (shape.along_mm / 2.0, shape.down_mm / 2.0, 0.0)
    radius = min(shape.width_mm, shape.length_mm) / 2.0
    half = abs(shape.length_mm - shape.width_mm) / 2.0
    # A slot "longer" across than along is read by its longer side.
    along = (shape.lies == "along") == (shape.length_mm >= shape.width_mm)
    return (half, 0.0, radius) if along else (0.0, half, radius)


def boxes_mm(a: Core, b: Core, *, along_mm: float, down_mm: float) -> float:
    """Signed gap between two rounded boxes; below 0 the shortest move that parts them.

    The difference of the two is again a rounded box, so this is the distance from its boundary:
    exact, no polygon.
    """
    x = abs(along_mm) - a[0] - b[0]
    y = abs(down_mm) - a[1] - b[1]
    gap = max(x, y) if x <= 0.0 or y <= 0.0 else math.hypot(x, y)
    return gap - a[2] - b[2]


def between_mm(a: HoleShape, b: HoleShape, *, along_mm: float, down_mm: float) -> float:
    """Signed gap between the edges of two holes on a plane.

    Parameters
    ----------
    a, b : HoleShape
    along_mm, down_mm : float
        From the centre of ``a`` to the centre of ``b``.

    Returns
    -------
    float
        Wood between them; below 0 they overlap, by the shortest move that would part them.
        Exact for round holes, slots and rectangles; ovals to 1e-9 mm, by the greatest separation
        over all directions (the separating-axis form of the distance of convex bodies:
        Boyd and Vandenberghe, 2004, section 8.2).

    Examples
    --------
    >>> round(between_mm(Round(5.5), Round(5.5), along_mm=0.0, down_mm=6.3), 3)
    0.8
    """
    if not isinstance(a, Oval) and not isinstance(b, Oval):
        return boxes_mm(core_of(a), core_of(b), along_mm=along_mm, down_mm=down_mm)
    dx, dy = abs(along_mm), abs(down_mm)
    radius = 0.0
    ovals: list[tuple[float, float]] = []
    for shape in (a, b):
        if isinstance(shape, Oval):
            across, high = shape.size_mm
            ovals.append((across / 2.0, high / 2.0))
        else:
            half_along, half_down, rounding = core_of(shape)
            dx, dy, radius = dx - half_along, dy - half_down, radius + rounding

    def separation(angle: float) -> float:
        c, s = math.cos(angle), math.sin(angle)
        return dx * c + dy * s - radius - sum(math.hypot(p * c, q * s) for p, q in ovals)

    step = math.pi / 2.0 / SCAN
    best = max(range(SCAN + 1), key=lambda index: separation(index * step))
    low, high = max(best - 1, 0) * step, min(best + 1, SCAN) * step
    inner, outer = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_inner, at_outer = separation(inner), separation(outer)
    while high - low > 1e-9:
        if at_inner >= at_outer:
            high, outer, at_outer = outer, inner, at_inner
            inner = high - _GOLDEN * (high - low)
            at_inner = separation(inner)
        else:
            low, inner, at_inner = inner, outer, at_outer
            outer = low + _GOLDEN * (high - low)
            at_outer = separation(outer)
    return max(at_inner, at_outer, separation(best * step))
