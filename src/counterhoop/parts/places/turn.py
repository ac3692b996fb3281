"""The turn, within what is allowed, at which the screws of a part have most room: proven."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from counterhoop.parts.places.pose import Pose
from counterhoop.parts.places.screw import Screw, Screws
from counterhoop.parts.places.shift import best_shifts

Span: TypeAlias = tuple[float, float]
"""From and to, in radians; it may run beyond half a turn."""

Floats = NDArray[np.float64]

TOUCH_MM = 1e-3
"""Room is known to this; a screw that lies out by no more touches."""
NEVER_MIND_MM = 1e-9
"""Turns that differ by less in room are level: the first found stays, and the figures with it."""
LEAST, STEP = 4, 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A pose, and the room that the tightest screw has in it."""

    pose: Pose
    room_mm: float


def most_room(
    screws: Sequence[Screw], *, spans: Sequence[Span], mirror: bool = False
) -> Standing | None:
    """Return the pose that leaves the tightest screw most room, to ``TOUCH_MM``.

    At each turn the best shift is exact (``best_shifts``). A hole runs on a circle as the part
    turns, and the room falls off concavely from it, so the room less half the reach of the
    furthest hole times the square of the turn is concave over a whole span (a convex function of
    a curve bent no more than the reach; Boyd and Vandenberghe, 2004, 3.2.4, from memory). Between
    two turns it lies under the chords of their neighbours, carried on: what is left out cannot be
    better.

    Parameters
    ----------
    screws : sequence of Screw
        One or more, each in its hole.
    spans : sequence of (float, float)
        Turns that are allowed, radians.
    mirror : bool
        What the pose is to say; the screws are given mirrored already.

    Returns
    -------
    Standing or None
        None when at every turn some screw would not go through its hole.

    Examples
    --------
    Two screws of 5 in holes of 6, drilled 0.4 mm too far apart:

    >>> apart = [
    ...     Screw(right_mm=0, down_mm=d, hole_right_mm=0, hole_down_mm=h, play_mm=0.5)
    ...     for d, h in ((-20, -20.2), (20, 20.2))
    ... ]
    >>> round(most_room(apart, spans=[(-0.05, 0.05)]).room_mm, 3)
    0.3
    """
    laid = Screws.of(screws)
    best: tuple[float, float, Floats] | None = None
    for span in spans:
        turns = _first(span)
        rooms, shifts = best_shifts(laid, turns)
        while True:
            top = int(np.argmax(rooms))
            if best is None or rooms[top] > best[0] + NEVER_MIND_MM:
                best = (float(rooms[top]), float(turns[top]), shifts[top])
            enough = max(best[0] + TOUCH_MM, -TOUCH_MM)
            halfway = (turns[:-1] + turns[1:]) / 2.0
            halfway = halfway[_at_most(turns, rooms, laid.reach_mm) > enough]
            if not len(halfway):
                break
            more_rooms, more_shifts = best_shifts(laid, halfway)
            turns = np.concatenate([turns, halfway])
            order = np.argsort(turns, kind="stable")
            turns = turns[order]
            rooms = np.concatenate([rooms, more_rooms])[order]
            shifts = np.concatenate([shifts, more_shifts])[order]
    if best is None or best[0] < -TOUCH_MM:
        return None
    return Standing(pose=laid.pose(best[1], best[2], mirror=mirror), room_mm=best[0])


def _first(span: Span) -> Floats:
    """Turns to begin with; an odd number of them keeps an upright part upright."""
    low, high = span
    return np.linspace(low, high, 2 * max(LEAST, math.ceil((high - low) / STEP)) + 1)


def _at_most(turns: Floats, rooms: Floats, reach_mm: float) -> Floats:
    """Most room that may be left between each turn and the next (rising turns, n: n - 1)."""
    half = (turns[1:] - turns[:-1]) / 2.0
    middle = (turns[1:] + turns[:-1]) / 2.0

    def bent(n: slice, of: slice) -> Floats:
        return np.subtract(
            rooms[n], reach_mm * (turns[n] - middle[of]) ** 2 / 2.0, dtype=np.float64
        )

    every = slice(None)
    here, ahead = bent(slice(0, -1), every), bent(slice(1, None), every)
    rise, fall = np.full(len(half), np.inf), np.full(len(half), -np.inf)
    with np.errstate(divide="ignore", invalid="ignore"):
        rise[1:] = (here[1:] - bent(slice(0, -2), slice(1, None))) / (turns[1:-1] - turns[:-2])
        fall[:-1] = (bent(slice(2, None), slice(0, -1)) - ahead[:-1]) / (turns[2:] - turns[1:-1])
        # Where the chord from before, carried on, meets the chord from behind, carried back.
        along = np.clip((ahead - here - 2.0 * half * fall) / (rise - fall), 0.0, 2.0 * half)
        along = np.where(np.isinf(rise), 0.0, np.where(np.isinf(fall), 2.0 * half, along))
        before = np.where(np.isinf(rise), np.inf, here + rise * along)
        behind = np.where(np.isinf(fall), np.inf, ahead - fall * (2.0 * half - along))
    peak = np.minimum(before, behind)
    peak = np.where(rise <= 0.0, here, np.where(fall >= 0.0, ahead, peak))
    bound: Floats = np.maximum(peak, np.maximum(here, ahead)) + reach_mm * half**2 / 2.0
    # No misfit changes by more than the turn times the reach.
    return np.minimum(bound, np.minimum(rooms[:-1], rooms[1:]) + 2.0 * reach_mm * half)


def turns_of_pair(first: Screw, second: Screw) -> list[Span]:
    """Turns at which two screws may both go through: all others cannot, closed form.

    A slot in the part counts with its farthest end, so that no turn is lost.
    """
    wanted = (second.right_mm - first.right_mm, second.down_mm - first.down_mm)
    there = (second.hole_right_mm - first.hole_right_mm, second.hole_down_mm - first.hole_down_mm)
    a, b = math.hypot(*wanted), math.hypot(*there)
    play = TOUCH_MM + sum(
        s.play_mm + math.hypot(s.half_along_mm, s.half_down_mm) for s in (first, second)
    )
    if abs(a - b) > play:
        return []
    if a + b <= play:
        return [(-math.pi, math.pi)]
    cosine = (a * a + b * b - play * play) / (2.0 * a * b)
    middle = math.atan2(there[1], there[0]) - math.atan2(wanted[1], wanted[0])
    half = math.acos(min(1.0, max(-1.0, cosine)))
    return [(middle - half, middle + half)]


def both(first: Sequence[Span], second: Sequence[Span]) -> list[Span]:
    """Return the turns that lie in a span of each, as they are named in the first.

    Examples
    --------
    >>> both([(-0.1, 0.1)], [(2 * math.pi, 2 * math.pi + 1)])
    [(0.0, 0.1)]
    """
    found: list[Span] = []
    for low, high in first:
        for other_low, other_high in second:
            k = math.ceil((low - other_high) / math.tau - 1e-12)
            while other_low + k * math.tau <= high:
                start = max(low, other_low + k * math.tau)
                end = min(high, other_high + k * math.tau)
                if start <= end:
                    found.append((start, end))
                k += 1
    return found
