"""A hoop's ears against the lugs of a row: where they agree, and what the rest costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.development.surface import Surface


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreeing:
    """What a hoop with another number of ears leaves of a row.

    Attributes
    ----------
    kept : tuple of int
        Indices of the lugs that stand under an ear.
    lugs_off, lugs_new : int
        Lugs to take off and plug, and lugs to put under ears that have none.
    """

    kept: tuple[int, ...]
    lugs_off: int
    lugs_new: int


def agreeing(
    along_deg: Sequence[float], *, ears: int, surface: Surface, within_mm: float
) -> Agreeing:
    """Turn an evenly eared hoop so that as many lugs as can be stand under an ear.

    An ear serves one lug. Turned so that a lug stands exactly under an ear, for each lug in turn:
    with evenly spaced lugs the number that agree is the greatest common divisor of both counts.
    Lugs off their spacing by less than ``within_mm`` are still found, unless the best turn lies
    between two lugs.

    Parameters
    ----------
    along_deg : sequence of float
        Where the lugs stand.
    ears : int
        Ears of the hoop.
    within_mm : float
        How far, along the skin, still counts as under the ear.

    Examples
    --------
    Ten lugs under eight ears agree at two places, half way round from each other:

    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.OLD, circumference_mm=1110.0)
    >>> found = agreeing([36.0 * k for k in range(10)], ears=8, surface=skin, within_mm=0.8)
    >>> found.kept, found.lugs_off, found.lugs_new
    ((0, 5), 8, 6)
    """
    step = 360.0 / ears
    best: tuple[int, ...] = ()
    for start in along_deg:
        taken: set[int] = set()
        kept = []
        for index, at in enumerate(along_deg):
            ear = round((at - start) / step) % ears
            off = surface.apart_mm(start + ear * step, at)
            if abs(off) <= within_mm and ear not in taken:
                taken.add(ear)
                kept.append(index)
        if len(kept) > len(best):
            best = tuple(kept)
    return Agreeing(kept=best, lugs_off=len(along_deg) - len(best), lugs_new=ears - len(best))
