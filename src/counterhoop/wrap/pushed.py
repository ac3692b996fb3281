"""Push a layout together, so that every cut is measured from a rim or from another piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from counterhoop.wrap.free import largest_left
from counterhoop.wrap.tenths import Spot


def pushed(
    spots: Sequence[Spot], *, bins: Sequence[tuple[int, int]], kerf: int
) -> tuple[Spot, ...]:
    """Slide pieces toward the sheet's first corner until nothing moves.

    A solver stops where the count is right, with pieces floating by odd tenths. The largest
    rectangle left is slid along like a piece, so that it is there afterwards too.

    Examples
    --------
    >>> floating = [Spot(bin=0, x=7, y=3, w=50, h=20, turned=False)]
    >>> [(spot.x, spot.y) for spot in pushed(floating, bins=[(100, 60)], kerf=0)]
    [(0, 0)]
    """
    area, number, (x, y, w, h) = largest_left(bins, spots, kerf=kerf)
    now = list(spots)
    if area:
        now.append(Spot(bin=number, x=x, y=y, w=w, h=h, turned=False))
    before: list[Spot] = []
    while now != before:
        before = now
        now = [replace(spot, y=_to(spot, now, down=True)) for spot in now]
        now = [replace(spot, x=_to(spot, now, down=False)) for spot in now]
    return tuple(now[: len(spots)])


def _to(spot: Spot, among: Sequence[Spot], *, down: bool) -> int:
    """Return where the nearest thing before a piece ends, or 0 for the rim."""

    def reach(s: Spot) -> tuple[int, int, int, int]:
        return (s.y, s.y + s.h, s.x, s.x + s.w) if down else (s.x, s.x + s.w, s.y, s.y + s.h)

    start, _, low, high = reach(spot)
    ends = (reach(other) for other in among if other.bin == spot.bin)
    return max((end for _, end, a, b in ends if end <= start and a < high and low < b), default=0)
