"""Where the rods of a head run: free length, the ears' play, offsets along and splay outward."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.surface import Surface
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.heads import HeadPlan
from counterhoop.scheme.hoop_turn import HoopTurn, best_turn, offsets_from_even_mm, pinned_turn
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.threading import major_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class RodLines:
    """The rods of one head as straight lines from ear to lug mouth.

    Attributes
    ----------
    free_mm : tuple of float
        Free length of each.
    play_mm : float
        How far a rod can move in its ear to any side.
    turn : HoopTurn
        The hoop turned to suit all, or pinned where its lugs want it; lean along the skin.
    splay_mm : float or None
        How far the ears stand outside the lug mouths, towards the axis below zero; None where
        the book does not know the circle of the ears or the line of the rods.
    """

    free_mm: tuple[float, ...]
    play_mm: float
    offsets_mm: tuple[float, ...]
    turn: HoopTurn
    pinned: bool
    splay_mm: float | None

    def lean_deg(self, rod: int, *, along: bool = True) -> float:
        """Lean of a rod from its lug's line, splay and lean along the skin together.

        The two stand square to each other and the ear's hole is round: ``atan((hypot(along,
        splay) - play) / free)``, below zero while play is left. ``along=False`` for splay alone.
        """
        aside = self.offsets_mm[rod] - self.turn.turn_mm if along else 0.0
        pull = math.hypot(aside, self.splay_mm or 0.0) - self.play_mm
        return math.degrees(math.atan2(pull, self.free_mm[rod]))


def rod_lines(head: HeadPlan, *, surface: Surface, rod: Fitting | None) -> RodLines | None:
    """Return how the rods of a head run; None where a free length is not known.

    Parameters
    ----------
    head : HeadPlan
        Its lugs and its hoop.
    surface : Surface
        The skin that the lugs stand on.
    rod : Fitting or None
        The rods chosen; their shank decides the play in the ear, else the lugs' thread.
    """
    free = [free_mm(head, lug) for lug in head.lugs]
    known = tuple(f for f in free if f is not None and f > 0.0)
    if len(known) != len(head.lugs) or len(head.lugs) < 2:
        return None
    offsets = offsets_mm(head, surface=surface)
    play = play_mm(head, rod)
    pinned = head.plan is not None and head.plan.pinned
    seek = pinned_turn if pinned else best_turn
    return RodLines(
        free_mm=known,
        play_mm=play,
        offsets_mm=offsets,
        turn=seek(offsets, free_mm=known, play_mm=play),
        pinned=pinned,
        splay_mm=splay_mm(head, surface=surface),
    )


def splay_mm(head: HeadPlan, *, surface: Surface) -> float | None:
    """Return how far the circle of the ears lies outside that of the lug mouths, in the radius."""
    lines = [lug.fitting.rod_line_mm for lug in head.lugs]
    known = [line for line in lines if line is not None]
    if head.hoop is None or head.hoop.ear_circle_mm is None or len(known) != len(lines):
        return None
    return head.hoop.ear_circle_mm / 2.0 - surface.radius_mm - sum(known) / len(known)


def offsets_mm(head: HeadPlan, *, surface: Surface) -> tuple[float, ...]:
    """Offsets on the circle of the rods, which lies outside the skin by the rods' line."""
    lines = [lug.fitting.rod_line_mm or 0.0 for lug in head.lugs]
    radius = surface.radius_mm + sum(lines) / len(lines)
    along = [math.radians(lug.place.along_deg) * radius for lug in head.lugs]
    return offsets_from_even_mm(along, girth_mm=2.0 * math.pi * radius)


def free_mm(head: HeadPlan, lug: FittingPlan) -> float | None:
    """Free length of rod between ear and mouth: as the book says, else by heights."""
    if lug.fitting.free_rod_mm is not None:
        return lug.fitting.free_rod_mm
    hoop = head.hoop
    if hoop is None or hoop.seat_below_edge_mm is None:
        return None
    depth = [m.below_edge_mm for m in head.mouths if m.lug is lug]
    return min(depth) - hoop.seat_below_edge_mm if depth else None


def play_mm(head: HeadPlan, rod: Fitting | None) -> float:
    """How far a rod can move in its ear's hole to any side."""
    hoop = head.hoop
    if hoop is None or hoop.ear_hole_mm is None:
        return 0.0
    shank = rod.shank_mm if rod is not None else None
    thick = shank or major_mm(head.lugs[0].fitting.thread)
    return 0.0 if thick is None else max(hoop.ear_hole_mm - thick, 0.0) / 2.0
