"""Photographs of the same place before and after, as pairs that a paper sets side by side."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from counterhoop.bench.folders.album import Photograph, missing_views
from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.views import IN_WORK, VIEWS


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """One place, photographed before, after, or both times."""

    place: str
    before: Photograph | None = None
    after: Photograph | None = None


def sides_of(found: Iterable[Photograph], drum: KeptDrum) -> tuple[Sides, ...]:
    """Return the photographs of a drum by place, in the order of the views.

    What was photographed while the work went on is no side of it. Several of one place are paired
    in the order in which they were put in; those of which nobody has said the place go by their
    caption.
    """
    own = [
        one
        for one in found
        if one.drum is not None and one.drum.id == drum.id and one.view != IN_WORK
    ]
    places = {
        **{(view.name, ""): view.says for view in VIEWS},
        **{("", one.says): one.says or "a place that is not said" for one in own if not one.view},
    }
    pairs = []
    for key, says in places.items():
        here = [one for one in own if (one.view, "" if one.view else one.says) == key]
        before = [one for one in here if not one.after]
        after = [one for one in here if one.after]
        pairs += [Sides(place=says, before=b, after=a) for b, a in zip_longest(before, after)]
    return tuple(pairs)


def lacks_after(found: Sequence[Photograph], drum: KeptDrum) -> tuple[str, ...]:
    """Return in one line which places were photographed before and not after."""
    missing = missing_views(found, drum, after=True)
    if not missing:
        return ()
    return (f"No photograph after the work: {'; '.join(view.says for view in missing)}.",)
