"""What the shelf has of the parts of schemes, in the words of their sheet."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.parts.from_the_shelf import FromShelf, all_served, in_words
from counterhoop.bench.workshop import Workshop
from counterhoop.scheme.phrases import listed

if TYPE_CHECKING:
    from counterhoop.scheme.plan import Scheme


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfSaid:
    """What the shelf has for one scheme.

    Attributes
    ----------
    face : str
        All of it in a sentence; empty where the shelf has nothing to do with it.
    lines : tuple of str
        A sentence for each part that the shelf has, or had.
    aside : int
        How many pieces are set aside for the drum or its job already.
    free : int
        How many more are free and would be set aside.
    seen : str
        What a form that takes the scheme carries along: what its reader was shown.
    """

    face: str = ""
    lines: tuple[str, ...] = ()
    aside: int = 0
    free: int = 0
    seen: str = ""


def shelf_said(shop: Workshop, job: KeptJob, schemes: Sequence[Scheme]) -> Mapping[int, ShelfSaid]:
    """Return what the shelf has for each scheme, by its number."""
    found = all_served(shop, schemes, job=job)
    return {
        scheme.number: _said(shop, served) for scheme, served in zip(schemes, found, strict=True)
    }


def seen_in(text: str) -> Mapping[str, int]:
    """Return what a form says that its reader was shown; nothing where it says nothing readable.

    Examples
    --------
    >>> seen_in('{"rod": 8}'), seen_in("no"), seen_in('{"rod": "all"}')
    ({'rod': 8}, {}, {})
    """
    try:
        read = json.loads(text) if text else {}
    except (ValueError, RecursionError):
        return {}
    counts = read if isinstance(read, dict) else {}
    return {name: count for name, count in counts.items() if type(count) is int}


def _said(shop: Workshop, served: Sequence[FromShelf]) -> ShelfSaid:
    lying = [one for one in served if one.on_shelf]
    if not lying:
        return ShelfSaid()
    here = sum(one.here for one in served)
    wanted = sum(one.part.count for one in served)
    lines = [in_words(shop, one) for one in lying]
    none = [f"{one.part.count} {one.part.name}" for one in served if not one.on_shelf]
    if none:
        lines.append(f"Not on the shelf: {listed(none)}.")
    return ShelfSaid(
        face=_face(here, wanted),
        lines=tuple(lines),
        aside=sum(one.aside for one in served),
        free=sum(count for one in served for _, count in one.to_take),
        seen=json.dumps({one.part.name: one.here for one in served if one.here}),
    )


def _face(here: int, wanted: int) -> str:
    """Say how much of all that is wanted the shelf has.

    Examples
    --------
    >>> _face(8, 8), _face(6, 8)
    ('All 8 pieces are on the shelf.', '6 of 8 pieces are on the shelf.')
    """
    if here == wanted:
        pieces = "Its one piece is" if wanted == 1 else f"All {wanted} pieces are"
        return f"{pieces} on the shelf."
    if not here:
        pieces = "Its one piece is not" if wanted == 1 else f"None of its {wanted} pieces is"
        return f"{pieces} free on the shelf."
    return f"{here} of {wanted} pieces {'is' if here == 1 else 'are'} on the shelf."
