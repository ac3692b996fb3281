"""A good layout at once: pieces put down one by one, in several orders, the best one kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from counterhoop.wrap.free import Rectangle, largest_left, without
from counterhoop.wrap.tenths import Box, Spot, Tenths

MOST_OFFCUT_SETS = 40
Rank = tuple[int, int, int]
"""New sheets, offcuts used, and the largest rectangle left as a negative: less is better."""

_ORDERS: tuple[Callable[[Box], tuple[int, ...]], ...] = (
    lambda box: (-box.area,),
    lambda box: (-box.extents[0][0], -box.extents[0][1]),
    lambda box: (-box.extents[0][1], -box.extents[0][0]),
    lambda box: (-max(box.extents[0]), -min(box.extents[0])),
    lambda box: (-min(box.extents[0]), -max(box.extents[0])),
)
_FITS: tuple[Callable[[Rectangle, int, int], tuple[int, ...]], ...] = (
    lambda free, w, h: (min(free[2] - w, free[3] - h), max(free[2] - w, free[3] - h)),
    lambda free, w, h: (free[1] + h, free[0]),
    lambda free, w, h: (free[0] + w, free[1]),
    lambda free, w, h: (free[2] * free[3] - w * h, min(free[2] - w, free[3] - h)),
    lambda free, w, h: (free[3] - h, free[2] - w),
)


def rank(nest: Tenths, spots: Sequence[Spot]) -> Rank:
    """Tell how good a layout is; the least is the best."""
    used = {spot.bin for spot in spots}
    new = sum(number >= len(nest.offcuts) for number in used)
    return new, len(used) - new, -largest_left(bins_of(nest, len(spots)), spots, kerf=nest.kerf)[0]


def bins_of(nest: Tenths, new: int) -> list[tuple[int, int]]:
    """Return the bins: offcuts first, then so many new sheets."""
    return [*nest.offcuts, *([nest.sheet] * new)]


def first_layout(nest: Tenths) -> tuple[Spot, ...] | None:
    """Return the best of some hundred layouts by maximal rectangles; None when none is whole.

    Notes
    -----
    Every free rectangle is kept at its largest; a piece goes into the corner of the one that it
    fits best (J. Jylänki, "A thousand ways to pack the bin", 2010; from memory).
    """
    best: tuple[Rank, tuple[Spot, ...]] | None = None
    for allowed in _offcut_sets(nest):
        for order in _ORDERS:
            places = sorted(range(len(nest.boxes)), key=lambda i: (*order(nest.boxes[i]), i))
            for fit in _FITS:
                spots = _put_down(nest, places=places, fit=fit, allowed=allowed)
                if spots is None:
                    continue
                worth = rank(nest, spots)
                if best is None or worth < best[0]:
                    best = (worth, spots)
    return best[1] if best else None


def _offcut_sets(nest: Tenths) -> Iterator[tuple[int, ...]]:
    count = 0
    for size in range(len(nest.offcuts) + 1):
        for chosen in combinations(range(len(nest.offcuts)), size):
            if count >= MOST_OFFCUT_SETS:
                yield tuple(range(len(nest.offcuts)))
                return
            count += 1
            yield chosen


def _put_down(
    nest: Tenths,
    *,
    places: Sequence[int],
    fit: Callable[[Rectangle, int, int], tuple[int, ...]],
    allowed: tuple[int, ...],
) -> tuple[Spot, ...] | None:
    free: dict[int, list[Rectangle]] = {n: [(0, 0, *nest.offcuts[n])] for n in allowed}
    opened = 0
    spots: dict[int, Spot] = {}
    for place in places:
        box = nest.boxes[place]
        spot = _best_spot(box, free, fit)
        if spot is None and opened < nest.most_sheets:
            number = len(nest.offcuts) + opened
            opened += 1
            free[number] = [(0, 0, *nest.sheet)]
            spot = _best_spot(box, {number: free[number]}, fit)
        if spot is None:
            return None
        free[spot.bin] = without(free[spot.bin], (spot.x, spot.y, spot.w, spot.h))
        spots[place] = spot
    return tuple(spots[place] for place in range(len(nest.boxes)))


def _best_spot(
    box: Box,
    free: dict[int, list[Rectangle]],
    fit: Callable[[Rectangle, int, int], tuple[int, ...]],
) -> Spot | None:
    for number, rectangles in free.items():
        ways = [
            (fit(room, w, h), room[0], room[1], w, h, turned)
            for room in rectangles
            for (w, h), turned in zip(box.extents, box.turned, strict=True)
            if w <= room[2] and h <= room[3]
        ]
        if ways:
            _, x, y, w, h, turned = min(ways)
            return Spot(bin=number, x=x, y=y, w=w, h=h, turned=turned)
    return None
