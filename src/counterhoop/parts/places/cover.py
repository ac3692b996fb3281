"""The pose, within what holes and room allow, in which a base hides most of the marks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from counterhoop.development.outline import Outline
from counterhoop.development.solid import corners_of, solid
from counterhoop.errors import BadInput
from counterhoop.parts.places.freedom import Freedom
from counterhoop.parts.places.pose import Pose, mirrored
from counterhoop.parts.places.turn import TOUCH_MM

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

Floats = NDArray[np.float64]

GAP_MM2 = 1.0
"""A pose that might hide this much more is not looked for: a square millimetre."""
TRIES = 4000
ROUNDED = 1.0 + 1e-2
"""A grown outline's round corners are chords of the true arc, short of it by less than this."""
FINEST_MM = 1e-3
CLIMBS = 5
"""From so many good poses the search climbs on: screws let a part go along odd ways."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """What a part hides at its best.

    Attributes
    ----------
    pose : Pose
        Where it hides most of all that was found.
    hidden_mm2 : float
        Of the marks together; skin under two marks counts once.
    bare_mm2 : tuple of float
        What still shows of each mark, in their order.
    at_most_mm2 : float
        No pose that is allowed hides more than this: proven.
    """

    pose: Pose
    hidden_mm2: float
    bare_mm2: tuple[float, ...]
    at_most_mm2: float


def best_cover(
    outline: Outline,
    freedom: Freedom,
    marks: Sequence[Outline],
    *,
    gap_mm2: float = GAP_MM2,
    tries: int = TRIES,
) -> Cover | None:
    """Move and turn a base within its freedom until it hides most of the marks.

    Boxes of poses are halved. In a box no base reaches beyond its outline at the middle grown by
    the furthest that a point of it moves: where even that hides no more than the best so far, the
    box is dropped; and so it is when no pose of it lets the screws through.

    Parameters
    ----------
    outline : Outline
        The base, upright, about the part's reference point.
    freedom : Freedom
        ``freedom_of`` a match, or one without screws.
    marks : sequence of Outline
        As they lie on the skin.
    gap_mm2 : float
        How much more may go unlooked for, above 0.
    tries : int
        Most poses that are looked at; ``at_most_mm2`` says what was left open.

    Returns
    -------
    Cover or None
        None when no pose was found that the screws and the room allow. Exact for the polygons.

    Examples
    --------
    A base 24 wide may slide 3 to the right over a shadow 24 wide that lies 5 to its right:

    >>> from counterhoop.development.outline import rounded
    >>> base = rounded(24.0, 50.0)
    >>> free = Freedom(pose=Pose(right_mm=0.0, down_mm=0.0), right_mm=3.0)
    >>> best = best_cover(base, free, [base.moved(5.0, 0.0)])
    >>> round(best.pose.right_mm, 2), round(best.hidden_mm2), [round(b) for b in best.bare_mm2]
    (3.0, 1100, [100])
    """
    import shapely

    if not gap_mm2 > 0.0 or tries < 1:
        raise BadInput(
            "not a search", where="cover", given=(gap_mm2, tries), wanted="a gap above 0, a try"
        )
    shown = shapely.union_all([solid(mark) for mark in marks]) if marks else shapely.MultiPolygon()
    search = _Search(outline, freedom, shown)
    found = search.best(gap_mm2, tries)
    if found is None:
        return None
    at, hidden, at_most = found
    pose = search.pose(at)
    laid = solid(pose.laid(outline))
    return Cover(
        pose=pose,
        hidden_mm2=hidden,
        bare_mm2=tuple(float(solid(mark).difference(laid).area) for mark in marks),
        at_most_mm2=min(max(hidden, at_most), float(shown.area)),
    )


class _Search:
    """Poses are (right, down) of the turning point and a turn in radians, from the first pose."""

    def __init__(self, outline: Outline, freedom: Freedom, shown: Polygon | MultiPolygon) -> None:
        import shapely

        self.freedom, self.shown = freedom, shown
        hand = mirrored(outline) if freedom.pose.mirrored else outline
        self.about = np.array(freedom.about_mm)
        self.corners = corners_of(hand) - self.about
        self.base = shapely.polygons(self.corners)
        self.reach = float(np.hypot(*self.corners.T).max())
        self.known = self._figures(freedom.pose)
        self.start = np.array([*self.known[:2], math.radians(freedom.upright_deg)])
        self.half = np.array(
            [freedom.right_mm, freedom.down_mm, math.radians(freedom.turn_deg)], dtype=float
        )
        screws = freedom.screws
        self.part = np.array([(s.right_mm, s.down_mm) for s in screws]).reshape(-1, 2) - self.about
        self.holes = np.array([(s.hole_right_mm, s.hole_down_mm) for s in screws]).reshape(-1, 2)
        self.slots = np.array([(s.half_along_mm, s.half_down_mm) for s in screws]).reshape(-1, 2)
        self.play = np.array([s.play_mm for s in screws])
        self.room = solid(freedom.room).buffer(TOUCH_MM) if freedom.room is not None else None

    def _figures(self, pose: Pose) -> Floats:
        """A pose as a row of figures, its turn the nearest to the middle of those allowed."""
        upright = self.freedom.upright_deg
        turn = math.radians(upright + (pose.turn_deg - upright + 180.0) % 360.0 - 180.0)
        x, y = self.about
        c, s = math.cos(turn), math.sin(turn)
        return np.array([pose.right_mm + c * x - s * y, pose.down_mm + s * x + c * y, turn])

    def pose(self, at: Floats) -> Pose:
        """The pose of a row of figures."""
        c, s = math.cos(at[2]), math.sin(at[2])
        x, y = self.about
        return Pose(
            right_mm=float(at[0] - c * x + s * y),
            down_mm=float(at[1] - s * x - c * y),
            turn_deg=(math.degrees(at[2]) + 180.0) % 360.0 - 180.0,
            mirrored=self.freedom.pose.mirrored,
        )

    def best(self, gap_mm2: float, tries: int) -> tuple[Floats, float, float] | None:
        """The best pose, what it hides, and what is not ruled out."""
        boxes, half = self.start[None], self.half.copy()
        known = self.known[None]
        best: tuple[Floats, float] | None = None
        if self._screw_room(known)[0] >= -2.0 * TOUCH_MM and self._in_room(self.corners, known)[0]:
            best = (self.known, float(self._hidden(self.corners, known)[0]))
        runners_up: list[tuple[Floats, float]] = []
        dropped, looked = 0.0, 0
        while True:
            room = self._screw_room(boxes)
            hidden = self._hidden(self.corners, boxes)
            fit = (room >= -TOUCH_MM) & self._in_room(self.corners, boxes)
            if fit.any():
                order = np.argsort(np.where(fit, -hidden, np.inf), kind="stable")[:CLIMBS]
                top = int(order[0])
                if best is None or hidden[top] > best[1]:
                    best = (boxes[top], float(hidden[top]))
                runners_up = [(boxes[n], float(hidden[n])) for n in order if fit[n]]
            looked += len(boxes)
            boxes, most = self._open(boxes, half, room)
            enough = gap_mm2 + best[1] if best is not None else -1.0
            still = most > enough
            dropped = max(dropped, float(np.max(most[~still], initial=0.0)))
            boxes = boxes[still]
            if not len(boxes) or looked + 2 * len(boxes) > tries or not half.any():
                break
            widest = int(np.argmax(half * (1.0, 1.0, self.reach)))
            half[widest] /= 2.0
            step = np.zeros(3)
            step[widest] = half[widest]
            boxes = np.concatenate([boxes - step, boxes + step])
        if best is None:
            return None
        # Where the search may be rough, so may the climb.
        rough = gap_mm2 > GAP_MM2
        finest = max(FINEST_MM, gap_mm2 / self.base.length / 10.0) if rough else FINEST_MM
        tops = [best] if rough else [best, *runners_up]
        ends = [self._climbed(*one, step=half, finest_mm=finest) for one in tops]
        at, most_hidden = max(ends, key=lambda end: end[1])
        return at, most_hidden, max(dropped, float(np.max(most[still], initial=0.0)))

    def _open(self, boxes: Floats, half: Floats, room: Floats) -> tuple[Floats, Floats]:
        """Boxes in which some pose may be allowed, and the most that any pose in each hides."""
        slide = math.hypot(half[0], half[1])
        lean = float(np.hypot(*self.part.T).max()) * half[2] if len(self.part) else 0.0
        moves = slide + self.reach * half[2]
        boxes = boxes[room >= -TOUCH_MM - slide - lean]
        if self.room is not None and len(boxes):
            core = self.base.buffer(-moves * ROUNDED)
            if core.geom_type == "Polygon" and not core.is_empty:
                ring = np.array(core.exterior.coords)[:-1]
                boxes = boxes[self._in_room(ring, boxes)]
        grown = np.array(self.base.buffer(moves * ROUNDED, quad_segs=8).exterior.coords)[:-1]
        return boxes, self._hidden(grown, boxes)

    def _climbed(
        self, at: Floats, hidden: float, *, step: Floats, finest_mm: float
    ) -> tuple[Floats, float]:
        """Go on by smaller and smaller steps while that hides more."""
        size = np.where(self.half > 0.0, np.maximum(step, finest_mm), 0.0)
        while (
            size * (1.0, 1.0, self.reach)
        ).max() > finest_mm and hidden < self.shown.area - FINEST_MM:
            around = np.array(
                [(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1)]
            )
            near = at + around * size
            near = near[(np.abs(near - self.start) <= self.half + 1e-12).all(axis=1)]
            fit = (self._screw_room(near) >= -TOUCH_MM) & self._in_room(self.corners, near)
            more = np.where(fit, self._hidden(self.corners, near), -1.0)
            top = int(np.argmax(more))
            if more[top] > hidden + 1e-9:
                at, hidden = near[top], float(more[top])
            else:
                size = size / 2.0
        return at, hidden

    def _laid(self, ring: Floats, at: Floats) -> Any:
        import shapely

        c, s = np.cos(at[:, 2:]), np.sin(at[:, 2:])
        x, y = ring[:, 0], ring[:, 1]
        laid = np.stack([at[:, :1] + c * x - s * y, at[:, 1:2] + s * x + c * y], axis=2)
        return shapely.polygons(laid)

    def _hidden(self, ring: Floats, at: Floats) -> Floats:
        import shapely

        if not len(at) or self.shown.is_empty:
            return np.zeros(len(at))
        hidden: Floats = shapely.area(shapely.intersection(self._laid(ring, at), self.shown))
        return hidden

    def _in_room(self, ring: Floats, at: Floats) -> NDArray[np.bool_]:
        import shapely

        if self.room is None:
            return np.ones(len(at), dtype=bool)
        inside: NDArray[np.bool_] = shapely.covers(self.room, self._laid(ring, at))
        return inside

    def _screw_room(self, at: Floats) -> Floats:
        """Room of the tightest screw at each pose; without screws as much as one likes."""
        if not len(self.part):
            return np.full(len(at), np.inf)
        c, s = np.cos(at[:, 2:]), np.sin(at[:, 2:])
        x, y = self.holes[:, 0] - at[:, :1], self.holes[:, 1] - at[:, 1:2]
        off = np.stack([c * x + s * y - self.part[:, 0], c * y - s * x - self.part[:, 1]], axis=2)
        beyond = np.maximum(np.abs(off) - self.slots, 0.0)
        room: Floats = (self.play - np.hypot(beyond[..., 0], beyond[..., 1])).min(axis=1)
        return room
