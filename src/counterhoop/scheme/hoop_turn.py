"""The turn of a hoop that suits all its rods best."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HoopTurn:
    """A hoop turned, and how its rods lean then.

    Attributes
    ----------
    turn_mm : float
        How far the hoop is turned to the right, on the circle that the offsets lie on.
    lean_deg : tuple of float
        Lean of each rod, the ear's play used up.
    pull_mm : tuple of float
        What the ear pulls each rod aside; below zero is play that is left.
    """

    turn_mm: float
    lean_deg: tuple[float, ...]
    pull_mm: tuple[float, ...]

    @property
    def worst(self) -> int:
        """Index of the rod that leans most."""
        return max(range(len(self.lean_deg)), key=lambda i: self.lean_deg[i])

    @property
    def worst_deg(self) -> float:
        """Lean of that rod."""
        return self.lean_deg[self.worst]


def offsets_from_even_mm(along_mm: Sequence[float], *, girth_mm: float) -> tuple[float, ...]:
    """How far each lug of a row lies from even spacing, counted from the first.

    Parameters
    ----------
    along_mm : sequence of float
        Places in order along, on a circle of ``girth_mm``.

    Examples
    --------
    >>> offsets_from_even_mm([10.0, 100.0, 187.0, 280.0], girth_mm=360.0)
    (0.0, 0.0, -3.0, 0.0)
    """
    step = girth_mm / len(along_mm)
    return tuple(
        math.remainder(at - along_mm[0] - index * step, girth_mm)
        for index, at in enumerate(along_mm)
    )


def best_turn(
    offsets_mm: Sequence[float], *, free_mm: Sequence[float], play_mm: float = 0.0
) -> HoopTurn:
    """Find the turn at which the rod that leans most leans least.

    A rod's ear may stand off its lug by the play without a lean; what is left over leans over the
    free length of the rod, ``atan((|offset - turn| - play) / free)``. The worst of these is
    convex in the turn, and its least value is the greatest, over all pairs, of
    ``(o_j - o_i - 2 play) / (free_i + free_j)``: where the rod that pulls to the right and the one
    that pulls to the left lean alike (linear programming in one unknown, by elimination).

    Parameters
    ----------
    offsets_mm : sequence of float
        Where the lugs lie from where the ears would stand, the hoop not turned.
    free_mm : sequence of float
        Free length of each rod between ear and lug mouth, above zero.
    play_mm : float
        How far a rod can move in its ear to either side.

    Examples
    --------
    One of eight lugs 3.0 off and 34 mm of free rod:

    >>> turn = best_turn([0.0] * 7 + [3.0], free_mm=[34.0] * 8)
    >>> turn.turn_mm, round(turn.worst_deg, 2)
    (1.5, 2.53)
    >>> round(best_turn([0.0] * 7 + [3.0], free_mm=[34.0] * 8, play_mm=0.75).worst_deg, 2)
    1.26
    """
    slope = 0.0
    for left, left_free in zip(offsets_mm, free_mm, strict=True):
        for right, right_free in zip(offsets_mm, free_mm, strict=True):
            slope = max(slope, (right - left - 2.0 * play_mm) / (left_free + right_free))
    low = max(o - play_mm - slope * f for o, f in zip(offsets_mm, free_mm, strict=True))
    high = min(o + play_mm + slope * f for o, f in zip(offsets_mm, free_mm, strict=True))
    return turned(offsets_mm, (low + high) / 2.0, free_mm=free_mm, play_mm=play_mm)


def pinned_turn(
    offsets_mm: Sequence[float], *, free_mm: Sequence[float], play_mm: float = 0.0
) -> HoopTurn:
    """Take a hoop that cannot be turned to stand where most of its lugs want it: the median.

    Examples
    --------
    >>> round(pinned_turn([0.0] * 7 + [3.0], free_mm=[34.0] * 8).worst_deg, 2)
    5.04
    """
    middle = statistics.median(offsets_mm)
    return turned(offsets_mm, middle, free_mm=free_mm, play_mm=play_mm)


def turned(
    offsets_mm: Sequence[float], turn_mm: float, *, free_mm: Sequence[float], play_mm: float
) -> HoopTurn:
    """Say how the rods lean at a turn."""
    pull = tuple(abs(o - turn_mm) - play_mm for o in offsets_mm)
    return HoopTurn(
        turn_mm=float(turn_mm),
        lean_deg=tuple(
            math.degrees(math.atan2(max(p, 0.0), f)) for p, f in zip(pull, free_mm, strict=True)
        ),
        pull_mm=pull,
    )
