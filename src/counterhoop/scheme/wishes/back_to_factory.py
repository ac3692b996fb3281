"""Everything back as it left the factory."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.scheme.draft import Draft, is_extra, is_vent, own_holes
from counterhoop.scheme.phrases import listed
from counterhoop.shell.hole import Origin


def back_to_factory(draft: Draft) -> list[Draft]:
    """Take extras off, plug extra holes, put missing originals back on their own holes.

    Holes that nobody is sure of are left open: plugging the wrong one cannot be undone.
    """
    extras = {lug.label for lug in draft.ground.drum.everything if lug.origin is Origin.EXTRA}
    bare = draft.without(*extras)
    back = tuple(f for f in draft.ground.missing if f.label not in extras)
    uses = tuple(use for f in back for use in own_holes(f, ground=draft.ground))
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
