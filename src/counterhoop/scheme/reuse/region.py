"""Regions of poses in which an old hole serves a wanted one, a region for each way of using it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.scheme.reuse.bars import Window
from counterhoop.scheme.reuse.cover import Cover, cover_of
from counterhoop.scheme.reuse.limits import Limits, Tier
from counterhoop.scheme.reuse.wanted import OldHole, Wanted, WantedHole

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

TOLERANCE_MM = 1e-7
"""A pose this near to a closed region counts as in it; this deep in an open one as on its edge."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Regions:
    """Closed regions of the (turn, down) plane, as columns.

    A region is a box of half-widths ``hx``, ``hy`` about (``x``, ``y``) grown by ``r``; of it what
    lies no more than ``strip`` off the box in height; of that what the cover numbered ``cover``
    holds (-1: all).
    """

    x: Floats
    y: Floats
    hx: Floats
    hy: Floats
    r: Floats
    strip: Floats
    cover: Ints
    wanted: Ints
    old: Ints
    tier: Ints
    covers: tuple[Cover, ...]

    def __len__(self) -> int:
        return len(self.x)

    @property
    def boxes(self) -> Floats:
        """Left, top, right, bottom of each region (n x 4)."""
        wide, high = self.hx + self.r, self.hy + np.minimum(self.r, self.strip)
        return np.column_stack([self.x - wide, self.y - high, self.x + wide, self.y + high])

    def hold(self, region: Ints, pose: Floats) -> NDArray[np.bool_]:
        """Tell for pairs of region and pose (n x 2) whether the region holds the pose."""
        ex, ey = self.x[region] - pose[:, 0], self.y[region] - pose[:, 1]
        dx = np.maximum(np.abs(ex) - self.hx[region], 0.0)
        dy = np.maximum(np.abs(ey) - self.hy[region], 0.0)
        held: NDArray[np.bool_] = dx * dx + dy * dy <= (self.r[region] + TOLERANCE_MM) ** 2
        held &= dy <= self.strip[region] + TOLERANCE_MM
        if self.covers:
            cover = self.cover[region]
            for number in np.unique(cover[held & (cover >= 0)]):
                at = np.flatnonzero(held & (cover == number))
                e = np.column_stack([ex[at], ey[at]])
                held[at] = self.covers[number].holds(e, tolerance_mm=TOLERANCE_MM)
        return held

    def off(self, region: Ints, pose: Floats) -> Floats:
        """Return the misfit (old minus wanted centre) beyond what travel takes up (n x 2)."""
        e = np.column_stack([self.x[region] - pose[:, 0], self.y[region] - pose[:, 1]])
        half = np.column_stack([self.hx[region], self.hy[region]])
        beyond: Floats = e - np.clip(e, -half, half)
        return beyond

    def some(self, which: Ints) -> Regions:
        """Return some of the regions."""
        columns = {
            name: getattr(self, name)[which]
            for name in ("x", "y", "hx", "hy", "r", "strip", "cover", "wanted", "old", "tier")
        }
        return Regions(**columns, covers=self.covers)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Holes:
    """The wanted holes of a group in one list, fitting by fitting."""

    wants: tuple[WantedHole, ...]
    lug: Ints
    hole: Ints
    along: Floats
    down: Floats
    first: Ints

    def __len__(self) -> int:
        return len(self.wants)

    @classmethod
    def of(cls, wanted: Wanted) -> Holes:
        """List the wanted holes of a row or group."""
        listed = [
            (want, lug, hole, fitting.along_mm + want.right_mm, want.down_mm)
            for lug, fitting in enumerate(wanted.fittings)
            for hole, want in enumerate(fitting.holes)
        ]
        lugs = np.array([row[1] for row in listed], dtype=np.intp)
        return cls(
            wants=tuple(row[0] for row in listed),
            lug=lugs,
            hole=np.array([row[2] for row in listed], dtype=np.intp),
            along=np.array([row[3] for row in listed], dtype=float),
            down=np.array([row[4] for row in listed], dtype=float),
            first=np.flatnonzero(np.append(True, np.diff(lugs) > 0))
            if listed
            else np.zeros(0, dtype=np.intp),
        )


def images(box: Floats, *, window: Window, girth_mm: float) -> tuple[Ints, Floats]:
    """Lay boxes (n x 4) out round the datum: which of them meet the window, shifted by how much."""
    middle = (window.turn_min_mm + window.turn_max_mm) / 2.0
    centre = (box[:, 0] + box[:, 2]) / 2.0
    nearest = np.round((middle - centre) / girth_mm)
    most = int(np.ceil(np.max(box[:, 2] - box[:, 0], initial=0.0) / girth_mm)) + 1
    which, shifts = [], []
    for turns in range(-most, most + 1):
        shift = (nearest + turns) * girth_mm
        meets = (
            (box[:, 0] + shift <= window.turn_max_mm + TOLERANCE_MM)
            & (box[:, 2] + shift >= window.turn_min_mm - TOLERANCE_MM)
            & (box[:, 1] <= window.down_max_mm + TOLERANCE_MM)
            & (box[:, 3] >= window.down_min_mm - TOLERANCE_MM)
        )
        at = np.flatnonzero(meets)
        which.append(at)
        shifts.append(shift[at])
    return np.concatenate(which), np.concatenate(shifts)


def regions_of(
    wanted: Wanted, old: Sequence[OldHole], *, window: Window, limits: Limits
) -> Regions:
    """Build every region that meets the window.

    Raises
    ------
    BadInput
        Two old holes of one number; limits and travel that reach a quarter round the shell.
    """
    holes = Holes.of(wanted)
    _check(holes, old, limits=limits, girth_mm=wanted.girth_mm)
    here = [i for i, hole in enumerate(old) if hole.usable]
    size = np.array([[old[i].diameter_mm] for i in here], dtype=float).reshape(-1, 1)
    place = np.array([[old[i].along_mm, old[i].down_mm] for i in here]).reshape(-1, 2)
    longer = np.array([[old[i].longer_along_mm, old[i].longer_down_mm] for i in here])
    longer = longer.reshape(-1, 2)
    new = np.array([want.hole_mm for want in holes.wants])
    screw = np.array([want.screw_mm for want in holes.wants])
    travel = np.array([[w.slot_along_mm, w.slot_down_mm] for w in holes.wants]).reshape(-1, 2)

    x = place[:, :1] - holes.along
    y = place[:, 1:] - holes.down
    round_hole = np.broadcast_to(np.all(longer == 0.0, axis=1, keepdims=True), x.shape)
    far = np.full_like(x, np.inf)
    play = (size - screw) / 2.0
    aslant = np.minimum(limits.keep_mm, (new - screw) / 2.0 + (new - size) / 2.0)
    keep_box = (longer[:, None, :] + travel[None, :, :]) / 2.0
    cut_box = np.broadcast_to(travel[None, :, :] / 2.0, keep_box.shape)
    by_tier = (
        (Tier.KEEP, play >= 0.0, np.minimum(play, limits.keep_mm), far, keep_box),
        (Tier.ENLARGE, round_hole, np.full_like(x, limits.enlarge_mm), far, cut_box),
        (
            Tier.SLOT,
            round_hole & (size <= new),
            np.full_like(x, limits.slot_mm),
            far if limits.lengthways else aslant,
            cut_box,
        ),
    )
    numbers = np.array(here, dtype=np.intp)
    columns: list[tuple[Floats | Ints, ...]] = []
    for tier, able, radius, strip, box in by_tier:
        h, w = np.nonzero(able)
        columns.append(
            (
                *(x[h, w], y[h, w], box[h, w, 0], box[h, w, 1], radius[h, w], strip[h, w]),
                *(w, numbers[h], np.full(len(h), tier.value, dtype=np.intp)),
            )
        )
    joined = [np.concatenate(parts) for parts in zip(*columns, strict=True)]
    names = ("x", "y", "hx", "hy", "r", "strip", "wanted", "old", "tier")
    whole = Regions(
        **dict(zip(names, joined, strict=True)),
        cover=np.full(len(joined[0]), -1, dtype=np.intp),
        covers=(),
    )
    which, shift = images(whole.boxes, window=window, girth_mm=wanted.girth_mm)
    near = whole.some(which)
    near = replace(near, x=near.x + shift)
    return _covered(near, wanted=wanted, holes=holes, old=old, limits=limits)


def _covered(
    regions: Regions, *, wanted: Wanted, holes: Holes, old: Sequence[OldHole], limits: Limits
) -> Regions:
    fittings = wanted.fittings
    if not any(f.base or any(h.washer_mm for h in f.holes) for f in fittings):
        return regions
    limit = {Tier.KEEP: limits.keep_mm, Tier.ENLARGE: limits.enlarge_mm, Tier.SLOT: limits.slot_mm}
    covers: list[Cover] = []
    number_of: dict[int, int] = {}
    answers: dict[tuple[int, ...], int] = {}
    cover = np.full(len(regions), -1, dtype=np.intp)
    dropped = -2
    triples = zip(regions.wanted.tolist(), regions.old.tolist(), regions.tier.tolist(), strict=True)
    for i, triple in enumerate(triples):
        if triple not in answers:
            w, h, tier = triple
            found = cover_of(
                holes.wants[w],
                base=fittings[holes.lug[w]].base,
                diameter_mm=old[h].diameter_mm,
                longer_mm=(old[h].longer_along_mm, old[h].longer_down_mm),
                tier=Tier(tier),
                furthest_mm=limit[Tier(tier)],
                inside_mm=limits.opening_inside_mm,
            )
            if isinstance(found, Cover):
                if id(found) not in number_of:
                    number_of[id(found)] = len(covers)
                    covers.append(found)
                answers[triple] = number_of[id(found)]
            else:
                answers[triple] = -1 if found else dropped
        cover[i] = answers[triple]
    kept = replace(regions, cover=cover, covers=tuple(covers))
    return kept.some(np.flatnonzero(cover != dropped))


def _check(holes: Holes, old: Sequence[OldHole], *, limits: Limits, girth_mm: float) -> None:
    numbers = [hole.number for hole in old]
    if len(set(numbers)) < len(numbers):
        twice = next(n for n in numbers if numbers.count(n) > 1)
        raise BadInput(
            "two old holes have one number",
            where="old",
            given=twice,
            wanted="a number of its own for every hole",
        )
    travel = max((max(w.slot_along_mm, w.slot_down_mm) for w in holes.wants), default=0.0)
    longest = max((max(h.longer_along_mm, h.longer_down_mm) for h in old), default=0.0)
    reach = limits.furthest_mm + (travel + longest) / 2.0
    if reach >= girth_mm / 4.0:
        raise BadInput(
            "an old hole could serve from a quarter round the shell",
            where="limits",
            given=reach,
            wanted=f"less than a quarter of the girth, {girth_mm / 4.0:.1f} mm",
        )
