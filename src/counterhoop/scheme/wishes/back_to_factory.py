"""Everything back as it left the factory."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.shape import Round
from counterhoop.scheme.draft import Cut, Draft, Use, is_extra, is_plugged, is_vent, own_holes
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.phrases import listed
from counterhoop.shell.hole import Origin


def back_to_factory(draft: Draft) -> list[Draft]:
    """Take extras off, plug extra holes, put missing originals back on their own holes.

    Holes that nobody is sure of are left open: plugging the wrong one cannot be undone. An
    original's hole that somebody plugged is drilled again.
    """
    extras = {lug.label for lug in draft.ground.drum.everything if lug.origin is Origin.EXTRA}
    bare = draft.without(*extras)
    there = {plan.label for plan in bare.standing}
    whole = bare
    for plan in draft.ground.missing:
        if plan.label not in extras | there:
            whole = _put_back(plan, whole)
    plugged = tuple(hole.number for hole in whole.free_holes if is_extra(hole))
    whole = replace(whole, plug_only=plugged).named(pattern="back to factory")
    unsure = [
        hole
        for hole in whole.free_holes
        if hole.origin is Origin.NOT_SURE and not is_vent(hole) and not is_plugged(hole)
    ]
    if unsure:
        holes = listed([str(hole.number) for hole in unsure])
        whole = whole.saying(
            f"Nobody is sure of {'hole' if len(unsure) == 1 else 'holes'} {holes}: left open until"
            " someone says factory or extra."
        )
    return [whole]


def _put_back(plan: FittingPlan, draft: Draft) -> Draft:
    """Put an original on the holes it was found on, as far as nothing else holds them."""
    uses: list[Use] = []
    cuts: list[Cut] = []
    free = {hole.number: hole for hole in draft.free_holes}
    for use in own_holes(plan, ground=draft.ground):
        hole = free.get(use.number)
        if hole is None:
            continue
        if is_plugged(hole):
            wanted = plan.fitting.holes
            at = plan.holes.index(use.number)
            size_mm = wanted[at].hole_mm if at < len(wanted) else max(hole.shape.size_mm)
            cuts.append(
                Cut(place=hole.place, shape=Round(size_mm), of=plan.label, serves=use.serves)
            )
        else:
            uses.append(use)
    return draft.with_fittings((replace(plan, status="new"),), uses=tuple(uses), cuts=tuple(cuts))
