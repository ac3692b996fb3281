"""The search at work: every pose worth comparing, and the best of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Best:
    """A pose, who serves whom there, and how far it lies from the ideal."""

    pose: Floats
    settled: Settled
    far: float

    def beaten_by(self, other: Best) -> bool:
        """Whether another is worth more, or as much and nearer, or as near and fits better."""
        if other.settled.value != self.settled.value:
            return other.settled.value > self.settled.value
        if abs(other.far - self.far) > TOLERANCE_MM:
            return other.far < self.far
        mine, theirs = self.settled.misfit_mm2, other.settled.misfit_mm2
        if abs(mine - theirs) > TOLERANCE_MM:
            return theirs < mine
        return tuple(other.pose) < tuple(self.pose)


@dataclass(slots=True, kw_only=True, eq=False)
class Search:
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
    best: Best | None = None
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
    ) -> Search:
        """Lay the problem out."""
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

    def run(self) -> Best | None:
        """Compare every pose worth it; None when none is free."""
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
        promising = np.ones(len(boxes), dtype=bool)
        if self.best is not None:
            promising = self._may_beat(self.best, boxes, cell, region)
        left = np.flatnonzero(promising)
        served = np.zeros((len(boxes), len(self.holes)), dtype=bool)
        served[cell, self.regions.wanted[region]] = True
        promising[left] = ~self.ground.lost(boxes[left], served[left])
        return promising

    def _may_beat(self, best: Best, boxes: Floats, cell: Ints, region: Ints) -> NDArray[np.bool_]:
        bound = self._bound(len(boxes), cell, region)
        middle, half = (boxes[:, :2] + boxes[:, 2:]) / 2.0, (boxes[:, 2:] - boxes[:, :2]) / 2.0
        gap = np.maximum(np.abs(middle[:, None] - self.goals[None]) - half[:, None], 0.0)
        near = np.hypot(gap[..., 0], gap[..., 1]).min(axis=1) <= best.far + TOLERANCE_MM
        value = best.settled.value
        may: NDArray[np.bool_] = (bound > value) | ((bound == value) & near)
        return may

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
                found = Best(pose=poses[i], settled=settled, far=float(far[i]))
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
