"""What is free beside the pieces on a sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from counterhoop.wrap.tenths import Spot

Rectangle = tuple[int, int, int, int]
"""x, y, extent along, extent across, in tenths."""


def free_rectangles(room: tuple[int, int], taken: Iterable[Rectangle]) -> list[Rectangle]:
    """Return every rectangle that is free and cannot be made larger on any side."""
    free: list[Rectangle] = [(0, 0, *room)]
    for rectangle in taken:
        free = without(free, rectangle)
    return free


def without(free: Sequence[Rectangle], taken: Rectangle) -> list[Rectangle]:
    """Return the largest free rectangles once another one is taken.

    Examples
    --------
    >>> without([(0, 0, 10, 10)], (0, 0, 4, 3))
    [(4, 0, 6, 10), (0, 3, 10, 7)]
    """
    x, y, w, h = taken
    kept: list[Rectangle] = []
    parts: list[Rectangle] = []
    for fx, fy, fw, fh in free:
        if x >= fx + fw or x + w <= fx or y >= fy + fh or y + h <= fy:
            kept.append((fx, fy, fw, fh))
            continue
        if x > fx:
            parts.append((fx, fy, x - fx, fh))
        if x + w < fx + fw:
            parts.append((x + w, fy, fx + fw - x - w, fh))
        if y > fy:
            parts.append((fx, fy, fw, y - fy))
        if y + h < fy + fh:
            parts.append((fx, y + h, fw, fy + fh - y - h))
    parts = list(dict.fromkeys(parts))
    return kept + [
        part
        for part in parts
        if not any(_inside(part, other) for other in (*kept, *parts) if other != part)
    ]


def _inside(part: Rectangle, other: Rectangle) -> bool:
    return (
        part[0] >= other[0]
        and part[1] >= other[1]
        and part[0] + part[2] <= other[0] + other[2]
        and part[1] + part[3] <= other[1] + other[3]
    )


def net_area(rectangle: Rectangle, kerf: int) -> int:
    """Area that remains of a free rectangle once the cuts round it are made."""
    return max(0, rectangle[2] - kerf) * max(0, rectangle[3] - kerf)


def largest_left(
    bins: Sequence[tuple[int, int]], spots: Sequence[Spot], *, kerf: int
) -> tuple[int, int, Rectangle]:
    """Return net area, bin and rectangle of the largest one left on the bins cut into."""
    best = (0, -1, (0, 0, 0, 0))
    for number in sorted({spot.bin for spot in spots}):
        taken = [(s.x, s.y, s.w, s.h) for s in spots if s.bin == number]
        for rectangle in free_rectangles(bins[number], taken):
            area = net_area(rectangle, kerf)
            if area > best[0]:
                best = (area, number, rectangle)
    return best
