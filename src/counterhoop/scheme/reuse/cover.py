"""How far off an old hole may lie before its opening comes out from under base or washer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from counterhoop.scheme.reuse.limits import Tier
from counterhoop.scheme.reuse.wanted import Polygon, WantedHole

Floats = NDArray[np.float64]

DIRECTIONS = 64
NEAR_MM = 1e-9
BULGE_MM = 1e-7
SAG_MM = 2e-3
STEP_MM = 2e-2
REFINED = 8


@dataclass(frozen=True, slots=True, eq=False)
class Cover:
    """Misfits whose opening stays covered: a polygon that sees all of itself from the origin.

    ``corners`` are in order of their angle (``angles``, rising). Its border lies within 0.003 mm of
    the true one, and on it where base and washer have straight sides and the hole is kept or
    slotted; at a corner that points into the base it may stand out by 0.01 mm.
    """

    corners: Floats
    angles: Floats

    def holds(self, e: Floats, *, tolerance_mm: float) -> NDArray[np.bool_]:
        """Tell for each misfit (n x 2) whether it lies inside."""
        at = np.arctan2(e[:, 1], e[:, 0])
        upper = np.searchsorted(self.angles, at, side="right") % len(self.angles)
        a, b = self.corners[upper - 1], self.corners[upper]
        edge, off = b - a, e - a
        length = np.hypot(edge[:, 0], edge[:, 1])
        inward = edge[:, 0] * off[:, 1] - edge[:, 1] * off[:, 0]
        held: NDArray[np.bool_] = inward >= -tolerance_mm * length
        at_origin = np.hypot(e[:, 0], e[:, 1]) <= tolerance_mm
        return np.where(length > 0.0, held, False) | at_origin


@lru_cache(maxsize=512)
def cover_of(
    hole: WantedHole,
    *,
    base: Polygon,
    diameter_mm: float,
    longer_mm: tuple[float, float],
    tier: Tier,
    furthest_mm: float,
    inside_mm: float,
) -> Cover | bool:
    """Misfits (old minus wanted centre) that base or washer cover.

    Parameters
    ----------
    hole : WantedHole
        The hole wanted, by its place under the base.
    base : polygon
        Outline about the fitting's reference point; empty for none.
    diameter_mm, longer_mm : float, (float, float)
        The old hole: diameter or width, and how much longer than wide, along and down.
    tier : Tier
        What is done with it. Keep: base or washer covers the old hole. Enlarge: the smallest
        round hole that holds the old and the wanted one, and slot: the stadium from one to the
        other at the wanted width, lie ``inside_mm`` inside the base, or inside the washer, and so
        they do for every smaller misfit in the same direction.
    furthest_mm : float
        Limit of the misfit.
    inside_mm : float
        Wood left hidden round an opening that is cut.

    Returns
    -------
    Cover, True or False
        True when all misfits up to the limit are covered, False when not even none is.
    """
    if not base and hole.washer_mm == 0.0:
        return True
    travel = (hole.slot_along_mm / 2.0, hole.slot_down_mm / 2.0)
    reach = furthest_mm + math.hypot(travel[0] + longer_mm[0] / 2, travel[1] + longer_mm[1] / 2)
    cap = 1.01 * reach + 1e-3
    corners = np.array(base, dtype=float).reshape(-1, 2) - (hole.right_mm, hole.down_mm)
    wide = _Lid(
        edges=np.column_stack([corners, np.roll(corners, -1, axis=0)]),
        washer_mm=hole.washer_mm / 2.0,
        travel=travel,
        new_mm=hole.hole_mm / 2.0,
        old_mm=diameter_mm / 2.0,
        longer=longer_mm,
        tier=tier,
        inside_mm=0.0 if tier is Tier.KEEP else inside_mm,
    )
    lids = [replace(wide, edges=corners[:0])] if hole.washer_mm else []
    if _holds_origin(wide.edges):
        lids.append(wide.near(cap))
    spare = [float(lid.spare(np.zeros((1, 2)))[0]) for lid in lids]
    if any(s >= cap * lid.steepest for s, lid in zip(spare, lids, strict=True)):
        return True
    lids = [lid for s, lid in zip(spare, lids, strict=True) if s >= -NEAR_MM]
    if not lids:
        return False
    angles = np.unique(np.concatenate([lid.directions() for lid in lids]))
    angles = angles[np.append(np.diff(angles) > 1e-9, True)]
    far = _furthest(lids, angles, cap=cap)
    for _ in range(REFINED):
        between, chord = _between(angles, far, cap=cap)
        actual = _furthest(lids, between, cap=cap)
        off = np.abs(actual - chord) > SAG_MM
        order = np.argsort(np.append(angles, between[off]), kind="stable")
        angles = np.append(angles, between[off])[order]
        far = np.append(far, actual[off])[order]
        if not off.any():
            break
    if np.all(far >= cap):
        return True
    corners = far[:, None] * np.column_stack([np.cos(angles), np.sin(angles)])
    kept = _without_flat_corners(corners)
    return Cover(corners=corners[kept], angles=angles[kept])


def _furthest(lids: Sequence[_Lid], angles: Floats, *, cap: float) -> Floats:
    """How far each direction stays covered by one lid or the other, up to the cap."""
    far: Floats = np.max([lid.first_uncovered(angles, cap=cap) for lid in lids], axis=0)
    return far


def _between(angles: Floats, far: Floats, *, cap: float) -> tuple[Floats, Floats]:
    """Directions halfway, and how far the polygon goes there (beyond the cap: the cap)."""
    ahead = np.append(angles[1:], angles[0] + 2.0 * math.pi)
    half, next_far = (ahead - angles) / 2.0, np.roll(far, -1)
    halfway = (angles + half + math.pi) % (2.0 * math.pi) - math.pi
    both = far + next_far
    chord = 2.0 * far * next_far * np.cos(half) / np.where(both > 0.0, both, 1.0)
    return halfway, np.where((far >= cap) & (next_far >= cap), cap, chord)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lid:
    """A base, or a washer where there are no edges, over one old hole used in one way."""

    edges: Floats
    washer_mm: float
    travel: tuple[float, float]
    new_mm: float
    old_mm: float
    longer: tuple[float, float]
    tier: Tier
    inside_mm: float

    @property
    def steepest(self) -> float:
        """The most that ``spare`` can lose a millimetre further off."""
        return 1.0 if self.travel == (0.0, 0.0) else 2.5

    def near(self, cap: float) -> _Lid:
        """Return the lid without edges that no opening comes near to."""
        furthest = cap + self.old_mm + self.new_mm + self.inside_mm + sum(self.longer)
        kept = _gaps(np.zeros((1, 2)), self.edges)[0] <= furthest + math.hypot(*self.travel)
        return replace(self, edges=self.edges[kept]) if kept.any() else self

    def spare(self, e: Floats) -> Floats:
        """Return how much more than wanted base or washer covers at each misfit (n x 2)."""
        screw = np.clip(e, np.negative(self.travel), self.travel)
        if self.tier is Tier.KEEP:
            half = np.array(self.longer) / 2.0
            sides = [
                self._inside(e + s * half, screw) for s in ((-1, 0, 1) if half.any() else (0,))
            ]
            least: Floats = np.min(sides, axis=0) - self.old_mm
            return least
        if self.tier is Tier.SLOT:
            return self._inside(e, screw) - self.new_mm - self.inside_mm
        off = e - screw
        far = np.hypot(off[:, 0], off[:, 1])
        radius = np.maximum((far + self.old_mm + self.new_mm) / 2.0, max(self.old_mm, self.new_mm))
        # an old hole that holds the wanted one is itself the opening
        share = np.minimum((radius - self.new_mm) / np.where(far > 0.0, far, 1.0), 1.0)
        middle = screw + share[:, None] * off
        return self._inside(middle, screw) - radius - self.inside_mm

    def _inside(self, at: Floats, screw: Floats) -> Floats:
        """Return the depth of covered points below the border of base or washer."""
        if len(self.edges):
            depth: Floats = _gaps(at, self.edges).min(axis=1)
            return depth
        off = at - screw
        return np.subtract(self.washer_mm, np.hypot(off[:, 0], off[:, 1]), dtype=np.float64)

    def directions(self) -> Floats:
        """Even directions and those toward the corners that a parallel border would have."""
        step = 2.0 * math.pi / DIRECTIONS
        even: Floats = np.linspace(step / 2 - math.pi, math.pi - step / 2, DIRECTIONS)
        if not len(self.edges):
            return even
        need = self.old_mm if self.tier is Tier.KEEP else self.new_mm + self.inside_mm
        start, ahead = self.edges[:, :2], self.edges[:, 2:] - self.edges[:, :2]
        ahead = ahead / np.maximum(np.hypot(ahead[:, :1], ahead[:, 1:]), 1e-300)
        normal = np.column_stack([-ahead[:, 1], ahead[:, 0]])
        before = np.roll(normal, 1, axis=0)
        cosine = (normal * before).sum(axis=1)
        sharp = (cosine < 0.99) & (cosine > -0.99)
        shift = need * (normal + before)[sharp] / (1.0 + cosine[sharp, None])
        corners = np.concatenate([start[sharp] + shift, start[sharp] - shift])
        return np.append(even, np.arctan2(corners[:, 1], corners[:, 0]))

    def first_uncovered(self, angles: Floats, *, cap: float) -> Floats:
        """Go outward in each direction until the opening comes out.

        A step as long as what is spare cannot pass a border. A step of ``STEP_MM`` can pass a
        corner that points inward, by half of that at most, and gets along a border beside the way.
        """
        ray = np.column_stack([np.cos(angles), np.sin(angles)])
        far = np.zeros(len(angles))
        out = np.full(len(angles), cap)
        going = np.arange(len(angles))
        while len(going):
            spare = self.spare(far[going, None] * ray[going]) / self.steepest
            longer = far[going] + np.maximum(spare, STEP_MM)
            free = self.spare(longer[:, None] * ray[going]) >= -NEAR_MM
            out[going[~free]] = longer[~free]
            far[going[free]] = longer[free]
            going = going[free & (longer < cap)]
        going = np.flatnonzero(far < cap)
        while np.any(out[going] - far[going] > NEAR_MM):
            middle = (far[going] + out[going]) / 2.0
            free = self.spare(middle[:, None] * ray[going]) >= -NEAR_MM
            far[going] = np.where(free, middle, far[going])
            out[going] = np.where(free, out[going], middle)
        return np.minimum(far, cap)


def _gaps(at: Floats, edges: Floats) -> Floats:
    """Distance of each point (n x 2) from each edge (m x 4), n x m."""
    to = at[:, None, :] - edges[None, :, :2]
    edge = edges[:, 2:] - edges[:, :2]
    square = np.maximum((edge**2).sum(axis=1), 1e-300)
    t = np.clip((to * edge).sum(axis=2) / square, 0.0, 1.0)
    gap = to - t[:, :, None] * edge
    far: Floats = np.hypot(gap[..., 0], gap[..., 1])
    return far


def _holds_origin(edges: Floats) -> bool:
    x0, y0, x1, y1 = edges.T
    over = (y0 > 0.0) != (y1 > 0.0)
    cross = x0 - y0 * (x1 - x0) / np.where(over, y1 - y0, 1.0)
    return bool((over & (cross > 0.0)).sum() % 2 == 1)


def _without_flat_corners(corners: Floats) -> NDArray[np.intp]:
    """Drop corners that stand out by next to nothing: what is left lies inside the polygon."""
    kept = [0]
    for i in range(1, len(corners)):
        last, ahead = corners[kept[-1]], corners[(i + 1) % len(corners)]
        chord = ahead - last
        length = math.hypot(*chord)
        skipped = corners[kept[-1] + 1 : i + 1] - last
        bulge = (chord[1] * skipped[:, 0] - chord[0] * skipped[:, 1]) / max(length, 1e-300)
        seen = chord[1] * last[0] - chord[0] * last[1] > 1e-9 * length
        if not (seen and np.all(bulge >= -1e-9) and np.all(bulge <= BULGE_MM)):
            kept.append(i)
    return np.array(kept)
