"""The pose at which most old holes serve, found exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.scheme.reuse.answer import Match, NoRoom, Reuse
from counterhoop.scheme.reuse.bars import Barred, BarredDrill, Window
from counterhoop.scheme.reuse.cells import crossings_worth_trying
from counterhoop.scheme.reuse.curve import Curves, curves_of_regions, within
from counterhoop.scheme.reuse.ground import Ground, ground_of
from counterhoop.scheme.reuse.limits import Limits, Tier, Weights
from counterhoop.scheme.reuse.matching import Rulebook, Settled, settle
from counterhoop.scheme.reuse.near import meeting
from counterhoop.scheme.reuse.region import TOLERANCE_MM, Holes, Regions, regions_of
from counterhoop.scheme.reuse.wanted import OldHole, Wanted, WantedRow

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


def best_reuse(
    wanted: Wanted,
    old: Sequence[OldHole],
    *,
    window: Window,
    ideal: tuple[float, float],
    limits: Limits,
    barred: Sequence[Barred] = (),
    barred_drill: Sequence[BarredDrill] = (),
    weights: Weights | None = None,
) -> Reuse | NoRoom:
    """Find the pose of a row or group at which the old holes serve best.

    Parameters
    ----------
    wanted : WantedRow or WantedGroup
        Fittings that turn and move down as one.
    old : sequence of OldHole
        Holes that are there, on the same surface.
    window : Window
        Poses that are allowed.
    ideal : (float, float)
        Turn and down in mm of the pose that the eye expects; it need not lie in the window.
    limits : Limits
        How far off is near enough.
    barred, barred_drill : sequences
        Where no fitting may stand; where nothing may be drilled.
    weights : Weights, optional
        Worth of a hole kept, enlarged, slotted. Default: most used, then most kept, then most
        enlarged.

    Returns
    -------
    Reuse or NoRoom
        Of all poses of the window that are free: one of the greatest worth; of those the one
        nearest to the ideal; of several equally near the one with the least misfit.

    Raises
    ------
    BadInput
        Holes of one number, a fitting that the group lacks, limits that are too wide.

    Notes
    -----
    Every way of using an old hole for a wanted one is possible on a closed region of the
    (turn, down) plane, every bar leaves a closed set free. The worth of a pose therefore grows
    with the set of closed sets that hold it, and over the closure of each face of their
    arrangement it is least in the face itself: the greatest worth is met at a crossing or a corner
    of boundaries or, on a closed boundary that meets no other, at any point of it. The nearest
    pose to the ideal among the best is the ideal itself, such a corner, or a point of a boundary
    that is nearest to the ideal. All these are compared, except in cells of the plane in which
    even all regions that meet the cell together could not do better than the best pose known.
    Lengths are compared to ``TOLERANCE_MM`` (1e-7 mm): a misfit may pass its limit by that much.
    """
    search = _Search.of(
        wanted,
        old,
        window=window,
        ideal=ideal,
        limits=limits,
        barred=barred,
        barred_drill=barred_drill,
        weights=weights,
    )
    best = search.run()
    if best is None:
        return NoRoom(candidates=search.tried)
    return _answer(
        best, holes=search.holes, old=old, regions=search.regions, tried=search.tried, proven=True
    )


def reuse_at(
    wanted: Wanted,
    old: Sequence[OldHole],
    *,
    turn_mm: float,
    down_mm: float,
    limits: Limits,
    ideal: tuple[float, float] | None = None,
    barred: Sequence[Barred] = (),
    barred_drill: Sequence[BarredDrill] = (),
    weights: Weights | None = None,
) -> Reuse:
    """Tell how the old holes serve best at one given pose, free or not.

    Parameters are those of ``best_reuse``. Where a hole that may not be drilled cannot be served,
    the matches are the best that there are without that demand, and ``free`` is False.
    """
    window = Window(
        turn_min_mm=turn_mm, turn_max_mm=turn_mm, down_min_mm=down_mm, down_max_mm=down_mm
    )
    search = _Search.of(
        wanted,
        old,
        window=window,
        ideal=(turn_mm, down_mm) if ideal is None else ideal,
        limits=limits,
        barred=barred,
        barred_drill=barred_drill,
        weights=weights,
    )
    pose = np.array([turn_mm, down_mm], dtype=float)
    region = np.arange(len(search.regions))
    region = region[search.regions.hold(region, np.broadcast_to(pose, (len(region), 2)))]
    must = search.ground.must_serve(pose)
    settled = search.settle(pose, region, must)
    free = settled is not None and not bool(search.ground.barred(pose[None])[0])
    if settled is None:
        settled = search.settle(pose, region, frozenset())
        assert settled is not None, "nothing is asked of the matching"
    best = _Best(pose=pose, settled=settled, far=float(search.far(pose[None])[0]))
    return _answer(
        best, holes=search.holes, old=old, regions=search.regions, tried=1, proven=False, free=free
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Best:
    pose: Floats
    settled: Settled
    far: float

    def beaten_by(self, other: _Best) -> bool:
        if other.settled.value != self.settled.value:
            return other.settled.value > self.settled.value
        if abs(other.far - self.far) > TOLERANCE_MM:
            return other.far < self.far
        mine, theirs = self.settled.misfit_mm2, other.settled.misfit_mm2
        if abs(mine - theirs) > TOLERANCE_MM:
            return theirs < mine
        return tuple(other.pose) < tuple(self.pose)


@dataclass(slots=True, kw_only=True, eq=False)
class _Search:
    """The search at work: what is known of the problem, and the best pose so far."""

    window: Window
    goals: Floats
    holes: Holes
    regions: Regions
    ground: Ground
    curves: Curves
    rules: Rulebook
    worth: Ints
    holes_of_lug: Ints
    best: _Best | None = None
    tried: int = 0

    @classmethod
    def of(
        cls,
        wanted: Wanted,
        old: Sequence[OldHole],
        *,
        window: Window,
        ideal: tuple[float, float],
        limits: Limits,
        barred: Sequence[Barred],
        barred_drill: Sequence[BarredDrill],
        weights: Weights | None,
    ) -> _Search:
        if not all(np.isfinite(ideal)):
            raise BadInput("not a pose", where="ideal", given=ideal, wanted="turn and down in mm")
        every = all(b.lug is None for b in barred) and all(b.lug is None for b in barred_drill)
        alike = isinstance(wanted, WantedRow) and every
        period = wanted.period_mm if alike else wanted.girth_mm
        window = _one_period(window, ideal_mm=ideal[0], period_mm=period)
        holes = Holes.of(wanted)
        weights = weights or Weights.more_then_better(len(holes))
        regions = regions_of(wanted, old, window=window, limits=limits)
        ground = ground_of(
            wanted, holes=holes, window=window, barred=barred, barred_drill=barred_drill
        )
        return cls(
            window=window,
            goals=_goals(window, ideal=ideal, period_mm=period),
            holes=holes,
            regions=regions,
            ground=ground,
            curves=_together(curves_of_regions(regions), ground.curves, window=window),
            rules=Rulebook(
                weights=weights.by_tier, lug_of=tuple(holes.lug.tolist()), bush=limits.bush
            ),
            worth=np.array([*weights.by_tier, 0], dtype=np.intp),
            holes_of_lug=np.diff(np.append(holes.first, len(holes))),
        )

    def run(self) -> _Best | None:
        w = self.window
        low = np.array([w.turn_min_mm, w.down_min_mm])
        high = np.array([w.turn_max_mm, w.down_max_mm])
        alone = np.concatenate(
            [
                np.clip(self.goals, low, high),
                np.column_stack([self.regions.x, self.regions.y]),
                self.curves.own_points(),
                self.curves.nearest_points(self.goals),
            ]
        )
        slack = TOLERANCE_MM
        alone = alone[np.all((alone >= low - slack) & (alone <= high + slack), axis=1)]
        alone = np.clip(alone, low, high)
        region, pose = meeting(self.regions.boxes, np.column_stack([alone, alone]))
        self._compare(alone, pose, region)
        poses, pose, region = crossings_worth_trying(
            self.regions, self.curves.chopped(), window=w, promising=self._promising
        )
        self._compare(np.clip(poses, low, high), pose, region)
        return self.best

    def far(self, poses: Floats) -> Floats:
        """Distance of each pose from the nearest image of the ideal."""
        off = poses[:, None, :] - self.goals[None, :, :]
        nearest: Floats = np.hypot(off[..., 0], off[..., 1]).min(axis=1)
        return nearest

    def settle(self, pose: Floats, region: Ints, must: frozenset[int]) -> Settled | None:
        """Match at a pose, given the regions that hold it."""
        off = self.regions.off(region, np.broadcast_to(pose, (len(region), 2)))
        square = (off**2).sum(axis=1).tolist()
        options: dict[tuple[int, int], tuple[int, float]] = {}
        for w, h, tier, sq in zip(
            self.regions.wanted[region].tolist(),
            self.regions.old[region].tolist(),
            self.regions.tier[region].tolist(),
            square,
            strict=True,
        ):
            if (w, h) not in options or tier < options[w, h][0]:
                options[w, h] = (tier, sq)
        return settle(options, must=must, rules=self.rules)

    def _bound(self, count: int, at: Ints, region: Ints) -> Ints:
        """Worth that cannot be passed where these regions hold: each wanted hole at its best."""
        wants = len(self.holes)
        if not wants:
            return np.zeros(count, dtype=np.intp)
        best = np.full(count * wants, 3, dtype=np.intp)
        np.minimum.at(best, at * wants + self.regions.wanted[region], self.regions.tier[region])
        tiers = best.reshape(count, wants)
        total: Ints = self.worth[tiers].sum(axis=1)
        if not self.rules.bush:
            slots = np.add.reduceat((tiers == Tier.SLOT).astype(np.intp), self.holes.first, axis=1)
            total = total - self.worth[Tier.SLOT] * (slots == self.holes_of_lug).sum(axis=1)
        return total

    def _promising(self, boxes: Floats, cell: Ints, region: Ints) -> NDArray[np.bool_]:
        if self.best is None:
            return np.ones(len(boxes), dtype=bool)
        bound = self._bound(len(boxes), cell, region)
        middle, half = (boxes[:, :2] + boxes[:, 2:]) / 2.0, (boxes[:, 2:] - boxes[:, :2]) / 2.0
        gap = np.maximum(np.abs(middle[:, None] - self.goals[None]) - half[:, None], 0.0)
        near = np.hypot(gap[..., 0], gap[..., 1]).min(axis=1) <= self.best.far + TOLERANCE_MM
        value = self.best.settled.value
        promising: NDArray[np.bool_] = (bound > value) | ((bound == value) & near)
        return promising

    def _compare(self, poses: Floats, pose: Ints, region: Ints) -> None:
        """Take the best of the poses, given pairs of pose and region that may hold it."""
        self.tried += len(poses)
        held = self.regions.hold(region, poses[pose])
        pose, region = pose[held], region[held]
        bound, far = self._bound(len(poses), pose, region), self.far(poses)
        start = np.searchsorted(pose, np.arange(len(poses) + 1))
        known: dict[tuple[bytes, frozenset[int]], int] = {}
        order = np.lexsort((far, -bound))
        for chunk in (order[i : i + 64] for i in range(0, len(order), 64)):
            if not self._worth_a_look(bound[chunk[0]], far[chunk[0]]):
                return
            barred = self.ground.barred(poses[chunk])
            for i in chunk[~barred]:
                if not self._worth_a_look(bound[i], far[i]):
                    continue
                must = self.ground.must_serve(poses[i])
                here = region[start[i] : start[i + 1]]
                pattern = (np.sort(here).tobytes(), must)
                if pattern in known and not self._worth_a_look(known[pattern], far[i]):
                    continue
                settled = self.settle(poses[i], here, must)
                known[pattern] = -1 if settled is None else settled.value
                if settled is None:
                    continue
                found = _Best(pose=poses[i], settled=settled, far=float(far[i]))
                if self.best is None or self.best.beaten_by(found):
                    self.best = found

    def _worth_a_look(self, bound: int, far: float) -> bool:
        if self.best is None:
            return bound >= 0
        value = self.best.settled.value
        return bound > value or (bound == value and far <= self.best.far + TOLERANCE_MM)


def _together(first: Curves, second: Curves, *, window: Window) -> Curves:
    both = Curves(
        circles=np.concatenate([first.circles, second.circles]),
        segments=np.concatenate([first.segments, second.segments]),
    )
    return within(both, window=window)


def _one_period(window: Window, *, ideal_mm: float, period_mm: float) -> Window:
    if window.turn_max_mm - window.turn_min_mm <= period_mm:
        return window
    middle = (window.turn_min_mm + window.turn_max_mm) / 2.0
    image = ideal_mm + round((middle - ideal_mm) / period_mm) * period_mm
    low = min(max(image - period_mm / 2, window.turn_min_mm), window.turn_max_mm - period_mm)
    return Window(
        turn_min_mm=low,
        turn_max_mm=low + period_mm,
        down_min_mm=window.down_min_mm,
        down_max_mm=window.down_max_mm,
    )


def _goals(window: Window, *, ideal: tuple[float, float], period_mm: float) -> Floats:
    """Images of the ideal that may be the nearest to some pose of the window."""
    middle = (window.turn_min_mm + window.turn_max_mm) / 2.0
    image = ideal[0] + round((middle - ideal[0]) / period_mm) * period_mm
    turns = image + period_mm * np.array([-1.0, 0.0, 1.0])
    gap = np.maximum(np.maximum(window.turn_min_mm - turns, turns - window.turn_max_mm), 0.0)
    turns = turns[gap <= period_mm / 2 + TOLERANCE_MM]
    return np.column_stack([turns, np.full(len(turns), float(ideal[1]))])


def _answer(
    best: _Best,
    *,
    holes: Holes,
    old: Sequence[OldHole],
    regions: Regions,
    tried: int,
    proven: bool,
    free: bool = True,
) -> Reuse:
    matches = []
    region = np.arange(len(regions))
    pose = np.broadcast_to(best.pose, (len(region), 2))
    held = region[regions.hold(region, pose)]
    off = regions.off(held, pose[held])
    rows: dict[tuple[int, int], tuple[int, Floats]] = {}
    for i, r in enumerate(held):
        pair, tier = (int(regions.wanted[r]), int(regions.old[r])), int(regions.tier[r])
        if pair not in rows or tier < rows[pair][0]:
            rows[pair] = (tier, off[i])
    for w, h in best.settled.serves:
        tier, e = rows[w, h]
        width, length = _opening(
            Tier(tier), new_mm=holes.wants[w].hole_mm, old=old[h], far=float(np.hypot(*e))
        )
        matches.append(
            Match(
                lug=int(holes.lug[w]),
                hole=int(holes.hole[w]),
                number=old[h].number,
                tier=Tier(tier),
                off_along_mm=float(e[0]),
                off_down_mm=float(e[1]),
                width_mm=width,
                length_mm=length,
            )
        )
    return Reuse(
        turn_mm=float(best.pose[0]),
        down_mm=float(best.pose[1]),
        value=int(best.settled.value),
        matches=tuple(matches),
        wanted=len(holes),
        from_ideal_mm=best.far,
        free=free,
        candidates=tried,
        proven=proven,
    )


def _opening(tier: Tier, *, new_mm: float, old: OldHole, far: float) -> tuple[float, float]:
    if tier is Tier.SLOT:
        return new_mm, new_mm + far
    if tier is Tier.ENLARGE:
        wide = max(old.diameter_mm, new_mm, far + (old.diameter_mm + new_mm) / 2.0)
        return wide, wide
    return old.diameter_mm, old.diameter_mm + max(old.longer_along_mm, old.longer_down_mm)
