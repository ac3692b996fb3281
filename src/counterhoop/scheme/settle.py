"""From a draft to a layout: the verdict of every hole, and the shadows that stay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.polygon import covers
from counterhoop.development.shape import HoleShape, Round
from counterhoop.scheme.draft import Cut, Draft, Use, is_plugged, is_vent
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.scheme.wide_plug import WidePlug, shared_plugs
from counterhoop.shell.drum import Mark
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules

SAME_PLACE_MM = 0.25
Box = tuple[float, float, float, float]


def settle(draft: Draft, *, rules: ShopRules) -> Layout:
    """Give every hole its verdict and gather what is on the shell afterwards.

    A new hole that overlaps an old one that nothing uses, or stands nearer to it than a plug's
    rule, is plugged and drilled through one wide plug; any other old hole that nothing uses is
    plugged, unless it is the vent, lies open under a plate, or the wish leaves it alone.
    """
    left = [_left_over(hole, draft) for hole in draft.free_holes]
    kept = [_used(use, draft) for use in draft.uses]
    first = max((h.number for h in draft.ground.drum.holes), default=0) + 1
    cuts = sorted(draft.cuts, key=_along_then_down)
    plugs = shared_plugs(cuts, left, draft=draft, rules=rules)
    left = [_widened(plan, plugs) for plan in left]
    new = [_drilled(cut, first + i, plugs.get(i), rules) for i, cut in enumerate(cuts)]
    laid = [(f.outline, f.place) for f in draft.standing]
    bases = [(base, place, base.bounds_mm) for base, place in laid if base is not None]
    holes = [
        replace(p, covered=True) if _is_covered(p, bases, draft) else p
        for p in (*kept, *left, *new)
    ]
    fittings = _with_holes(draft.fittings, holes)
    return Layout(
        drum=draft.ground.drum,
        flat=draft.ground.flat,
        truing=draft.ground.truing,
        finish=draft.ground.finish,
        holes=tuple(sorted(holes, key=lambda plan: plan.number)),
        fittings=fittings,
        hoops=draft.hoops,
        marks=_marks(draft),
    )


def _along_then_down(cut: Cut) -> tuple[float, float]:
    """New holes are numbered as one meets them: along from the datum, the upper one first."""
    return (round(cut.place.along_deg, 2) % 360.0, cut.place.down_mm)


def _used(use: Use, draft: Draft) -> HolePlan:
    hole = draft.ground.hole(use.number)
    return HolePlan(
        number=hole.number,
        verdict=use.verdict,
        place=hole.place,
        old=hole.shape,
        new=use.new or hole.shape,
        new_place=use.new_place,
        of=use.of,
        serves=use.serves,
        off_mm=use.off_mm,
        backing_washer_mm=use.washer_mm,
        origin=hole.origin,
        doubt_mm=hole.doubt_mm,
        as_written=hole.as_written,
    )


def _left_over(hole: Hole, draft: Draft) -> HolePlan:
    verdict = Verdict.PLUG
    if is_plugged(hole):
        verdict = Verdict.PLUGGED_ALREADY
    elif (
        is_vent(hole)
        or hole.number in draft.open_under
        or (draft.plug_only is not None and hole.number not in draft.plug_only)
    ):
        verdict = Verdict.LEAVE_OPEN
    plugs = verdict is Verdict.PLUG
    return HolePlan(
        number=hole.number,
        verdict=verdict,
        place=hole.place,
        old=hole.shape,
        new=None if plugs or verdict is Verdict.PLUGGED_ALREADY else hole.shape,
        plug_mm=hole.shape.around_mm if plugs else None,
        origin=hole.origin,
        doubt_mm=hole.doubt_mm,
        as_written=hole.as_written,
    )


def _drilled(cut: Cut, number: int, plug: WidePlug | None, rules: ShopRules) -> HolePlan:
    plan = HolePlan(
        number=number,
        verdict=Verdict.DRILL,
        place=cut.place,
        new=cut.shape,
        of=cut.of,
        serves=cut.serves,
        doubt_mm=rules.drill_held_mm,
    )
    if plug is None:
        return plan
    return replace(
        plan,
        verdict=Verdict.PLUG_AND_DRILL,
        through=plug.fills,
        plug_mm=plug.diameter_mm,
        plug_place=plug.place,
        backing_washer_mm=plug.diameter_mm + 2.0 * rules.opening_inside_mm,
    )


def _widened(plan: HolePlan, plugs: Mapping[int, WidePlug]) -> HolePlan:
    """Give an old hole the plug that it shares with a new one."""
    plug = next((plug for plug in plugs.values() if plan.number in plug.fills), None)
    if plug is None:
        return plan
    return replace(plan, verdict=Verdict.PLUG, plug_mm=plug.diameter_mm, plug_place=plug.place)


def _is_covered(plan: HolePlan, bases: Sequence[tuple[Outline, Place, Box]], draft: Draft) -> bool:
    """Tell whether a base covers it; ``bases`` come with how far each reaches."""
    surface = draft.ground.flat.surface
    shape: HoleShape | None = plan.new or plan.old
    if plan.plug_mm is not None and plan.new is None:
        shape = Round(plan.plug_mm)
    if shape is None:
        return False
    at = plan.plug_place if plan.new is None and plan.plug_place else plan.new_place or plan.place
    down_mm = at.down_mm
    for outline, place, (left, top, right, bottom) in bases:
        if (
            top <= down_mm - place.down_mm <= bottom
            and abs(surface.apart_mm(place.along_deg, at.along_deg)) <= max(-left, right)
            and covers(outline, place, at, shape, surface=surface, by_mm=0.0)
        ):
            return True
    return False


def _with_holes(
    fittings: tuple[FittingPlan, ...], holes: Sequence[HolePlan]
) -> tuple[FittingPlan, ...]:
    by_label: dict[str, list[int]] = {}
    for plan in holes:
        if plan.of:
            by_label.setdefault(plan.of, []).append(plan.number)
    return tuple(
        replace(f, holes=tuple(by_label.get(f.label, ()))) if f.status == "new" else f
        for f in fittings
    )


def _same_again(gone: FittingPlan, draft: Draft) -> bool:
    """Whether a base of the same outline stands where this one stood, to what a rule can tell."""
    surface = draft.ground.flat.surface
    return any(
        f.outline == gone.outline
        and abs(surface.apart_mm(f.place.along_deg, gone.place.along_deg)) <= SAME_PLACE_MM
        and abs(f.place.down_mm - gone.place.down_mm) <= SAME_PLACE_MM
        for f in draft.standing
    )


def _marks(draft: Draft) -> tuple[Mark, ...]:
    """Shadows live in the old finish; an imprint is in the wood and stays under lacquer."""
    finish, ground = draft.ground.finish, draft.ground
    moved = [replace(m, place=ground.truing.moved(m.place)) for m in ground.drum.marks]
    if finish.kind == "stays":
        fresh = [
            Mark(kind="shadow", place=f.place, outline=f.outline, of=f.label)
            for f in draft.fittings
            if f.status == "goes" and f.outline is not None and not _same_again(f, draft)
        ]
        return (*moved, *fresh)
    if finish.kind == "clear lacquer":
        return tuple(mark for mark in moved if mark.kind == "imprint")
    return ()
