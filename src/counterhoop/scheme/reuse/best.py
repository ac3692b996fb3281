"""The pose at which most old holes serve, found exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from counterhoop.scheme.reuse.answer import Match, NoRoom, Reuse
from counterhoop.scheme.reuse.bars import Barred, BarredDrill, Window
from counterhoop.scheme.reuse.limits import Limits, Tier, Weights
from counterhoop.scheme.reuse.search import Best, Search
from counterhoop.scheme.reuse.wanted import OldHole, Wanted

Floats = NDArray[np.float64]


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
    search = Search.of(
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
    return _answer(search, best, old=old, proven=True)


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
    search = Search.of(
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
    best = Best(pose=pose, settled=settled, far=float(search.far(pose[None])[0]))
    return replace(_answer(search, best, old=old, proven=False), free=free, candidates=1)


def _answer(search: Search, best: Best, *, old: Sequence[OldHole], proven: bool) -> Reuse:
    holes, regions = search.holes, search.regions
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
        candidates=search.tried,
        proven=proven,
    )


def _opening(tier: Tier, *, new_mm: float, old: OldHole, far: float) -> tuple[float, float]:
    if tier is Tier.SLOT:
        return new_mm, new_mm + far
    if tier is Tier.ENLARGE:
        wide = max(old.diameter_mm, new_mm, far + (old.diameter_mm + new_mm) / 2.0)
        return wide, wide
    return old.diameter_mm, old.diameter_mm + max(old.longer_along_mm, old.longer_down_mm)
