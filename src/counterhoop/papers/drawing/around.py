"""Copies beyond the datum, so that nothing is cut by the edge of the picture."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """The stretch of skin that is drawn, in unrolled millimetres from the datum.

    Whatever lies within it is drawn at every turn on which it is seen: a mark across the datum
    shows at both ends.
    """

    around_mm: float
    left_mm: float
    right_mm: float

    def seen(self, x_mm: float, *, from_mm: float, to_mm: float) -> tuple[tuple[float, str], ...]:
        """Places at which a thing shows that reaches from ``from_mm`` to ``to_mm`` about ``x``.

        Returns
        -------
        tuple of (x, mark)
            ``mark`` is empty for the place in [0, C), "-before" or "-after" for copies.

        Examples
        --------
        >>> Around(around_mm=100.0, left_mm=0.0, right_mm=110.0).seen(2.0, from_mm=-5, to_mm=5)
        ((2.0, ''), (102.0, '-after'))
        """
        first = math.floor((self.left_mm - (x_mm + to_mm)) / self.around_mm) - 1
        last = math.ceil((self.right_mm - (x_mm + from_mm)) / self.around_mm) + 1
        found = []
        for turn in range(first, last + 1):
            x = x_mm + turn * self.around_mm
            if x + to_mm > self.left_mm and x + from_mm < self.right_mm:
                name = "" if turn == 0 else "-before" if turn < 0 else "-after"
                found.append((x, name))
        return tuple(found)


def whole_lead_mm(
    lead_mm: float, spans: Iterable[tuple[float, float, float]], *, around_mm: float
) -> float:
    """Widen what is drawn beyond the datum until nothing on it is cut by its rim.

    Parameters
    ----------
    lead_mm : float
        At least this much, at both ends.
    spans : iterable of (x, from, to)
        Places along and how far each thing reaches to either side.
    around_mm : float
        Once round; the lead stays below a quarter of it.

    Examples
    --------
    >>> whole_lead_mm(10.0, [(12.0, -5.0, 5.0), (30.0, -3.0, 3.0)], around_mm=100.0)
    17.0
    """
    reach = [(x + a, x + b) for x, a, b in spans]
    beyond = [*reach, *((around_mm - b, around_mm - a) for a, b in reach)]
    for near, far in sorted(beyond):
        if near < lead_mm < far:
            lead_mm = far
    return min(lead_mm, around_mm / 4)


def between_edges(
    points: tuple[tuple[float, float], ...], *, depth_at_mm: Callable[[float], float]
) -> tuple[tuple[float, float], ...]:
    """The part of an outline that lies on the shell: what was sawn off with an offcut is gone.

    One half-plane after the other (Sutherland and Hodgman 1974). ``depth_at_mm`` gives the
    resonant edge at a place along; a side that crosses it does so where the straight line between
    the edge at its two ends lies.

    Examples
    --------
    >>> between_edges(((0.0, 90.0), (4.0, 90.0), (4.0, 110.0)), depth_at_mm=lambda _: 100.0)
    ((0.0, 90.0), (4.0, 90.0), (4.0, 100.0), (2.0, 100.0))
    """
    kept = list(points)
    sides: tuple[Callable[[float, float], float], ...] = (
        lambda _x, y: y,
        lambda x, y: depth_at_mm(x) - y,
    )
    for inside in sides:
        within = [inside(x, y) for x, y in kept]
        if not within or min(within) >= 0.0:
            continue
        corners, kept = kept, []
        for place, ((x1, y1), a) in enumerate(zip(corners, within, strict=True), 1):
            (x2, y2), b = corners[place % len(corners)], within[place % len(corners)]
            if a >= 0.0:
                kept.append((x1, y1))
            if (a < 0.0) != (b < 0.0) and a != 0.0 and b != 0.0:
                share = a / (a - b)
                kept.append((x1 + (x2 - x1) * share, y1 + (y2 - y1) * share))
    return tuple(kept) if len(kept) > 2 else ()
