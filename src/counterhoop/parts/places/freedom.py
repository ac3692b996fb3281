"""How far a part may still be moved and turned: what its screws and the room about it allow."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from counterhoop.development.outline import Outline
from counterhoop.fittings.entry import PatternHole
from counterhoop.parts.places.match import Laid, Match, Turn
from counterhoop.parts.places.matches import AS_THEY_ARE, OFF_STEP_MM, TILT_DEG
from counterhoop.parts.places.place import HoleAt
from counterhoop.parts.places.pose import Pose
from counterhoop.parts.places.screw import Screw
from counterhoop.scheme.reuse.limits import Limits, Tier


@dataclass(frozen=True, slots=True, kw_only=True)
class Freedom:
    """Poses that a part may take.

    Attributes
    ----------
    pose : Pose
        One that is allowed, to begin with.
    about_mm : (float, float)
        Point of the part that ``right_mm`` and ``down_mm`` move and that the part turns about,
        the part upright and mirrored already.
    right_mm, down_mm : float
        How far either way from ``pose``.
    upright_deg, turn_deg : float
        The middle of the turns that are allowed, and how far either way of it.
    screws : tuple of Screw
        Each has to go through its hole; none where all holes will be new.
    room : Outline or None
        The part's outline has to lie inside it.
    """

    pose: Pose
    about_mm: tuple[float, float] = (0.0, 0.0)
    right_mm: float = 0.0
    down_mm: float = 0.0
    upright_deg: float = 0.0
    turn_deg: float = 0.0
    screws: tuple[Screw, ...] = ()
    room: Outline | None = None


def freedom_of(
    match: Match,
    pattern: tuple[PatternHole, ...],
    holes: tuple[HoleAt, ...],
    *,
    turn: Turn = "upright",
    limits: Limits = AS_THEY_ARE,
    tilt_deg: float = TILT_DEG,
    room: Outline | None = None,
) -> Freedom:
    """Return what a match leaves free: kept holes within their play, cut ones no larger.

    Parameters
    ----------
    match : Match
        Of this pattern on these holes, by these limits.
    turn : "upright", "half turn too" or "any"
        As it was found; of any turn, ``tilt_deg`` either way of the match's own.
    """
    laid = Laid(pattern=pattern, holes=holes, limits=limits, mirror=match.pose.mirrored)
    screws = tuple(
        laid.screw(
            pair.pattern,
            pair.hole,
            play_mm=laid.furthest_mm(pair.pattern, pair.hole, Tier.KEEP) or 0.0
            if pair.tier is Tier.KEEP
            else pair.off_mm + OFF_STEP_MM,
        )
        for pair in match.pairs
    )
    count = len(screws)
    # The middle of all screws lies no further off than they do in the mean, and so do both ends
    # of the way from one such pose to another.
    free = (
        2.0 * sum(s.play_mm + math.hypot(s.half_along_mm, s.half_down_mm) for s in screws) / count
    )
    return Freedom(
        pose=match.pose,
        about_mm=(sum(s.right_mm for s in screws) / count, sum(s.down_mm for s in screws) / count),
        right_mm=free,
        down_mm=free,
        upright_deg=match.pose.turn_deg if turn == "any" else _upright_deg(match.pose),
        turn_deg=tilt_deg,
        screws=screws,
        room=room,
    )


def straight(free: Freedom) -> Freedom:
    """Return the poses of these that stand straight: upright, or upside down.

    The point that the part turns about stays where it is in the pose to begin with, which the
    screws may not allow.
    """
    x, y = free.about_mm
    at = free.pose.at(-x if free.pose.mirrored else x, y)
    a = math.radians(free.upright_deg)
    right = at[0] - math.cos(a) * x + math.sin(a) * y
    down = at[1] - math.sin(a) * x - math.cos(a) * y
    pose = replace(free.pose, right_mm=right, down_mm=down, turn_deg=free.upright_deg)
    return replace(free, pose=pose, turn_deg=0.0)


def _upright_deg(pose: Pose) -> float:
    """The half turn that a pose is nearest to."""
    return round(pose.turn_deg / 180.0) * 180.0
