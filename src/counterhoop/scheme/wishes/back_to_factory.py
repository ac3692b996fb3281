"""Everything back as it left the factory."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.scheme.draft import Draft, Use, is_extra, is_vent, serves
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Origin


def back_to_factory(draft: Draft) -> list[Draft]:
    """Take extras off, plug extra holes, put missing originals back on their own holes.

    Holes that nobody is sure of are left open: plugging the wrong one cannot be undone.
    """
    extras = {lug.label for lug in draft.ground.drum.everything if lug.origin is Origin.EXTRA}
    bare = draft.without(*extras)
    back = tuple(f for f in draft.ground.missing if f.label not in extras)
    uses = tuple(use for f in back for use in _own_holes(f, draft))
    fitted = tuple(replace(f, status="new") for f in back)
    whole = bare.with_fittings(fitted, uses=uses, cuts=())
    unsure = [h for h in whole.free_holes if h.origin is Origin.NOT_SURE and not is_vent(h)]
    plugged = tuple(hole.number for hole in whole.free_holes if is_extra(hole))
    whole = replace(whole, plug_only=plugged).named(pattern="back to factory")
    if unsure:
        holes = listed([str(hole.number) for hole in unsure])
        whole = whole.saying(
            f"Nobody is sure of {'hole' if len(unsure) == 1 else 'holes'} {holes}: left open until"
            " someone says factory or extra."
        )
    return [whole]


def _own_holes(plan: FittingPlan, draft: Draft) -> list[Use]:
    here = {hole.number for hole in draft.ground.holes}
    return [
        Use(
            number=number,
            verdict=Verdict.KEEP,
            serves=serves(plan, i),
        )
        for i, number in enumerate(plan.holes)
        if number in here
    ]
