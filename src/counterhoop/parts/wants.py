"""From what was counted to what is wanted: sorts of pieces, how many, and where they go."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.ticked import Counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """Pieces of one sort that are wanted.

    Attributes
    ----------
    sort : Sort
        What they are.
    count : int
        How many.
    places : tuple of (str, int)
        Where they go, and how many there.
    spoilt : int
        How many of them were found, but are no use again: samples to match by.
    """

    sort: Sort
    count: int
    places: tuple[tuple[str, int], ...]
    spoilt: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wants:
    """The missing list of one drum.

    Attributes
    ----------
    lines : tuple of Want
        In the order of the count.
    uncounted : tuple of Counted
        Lines that nobody has counted yet: what they lack is not known.
    """

    lines: tuple[Want, ...]
    uncounted: tuple[Counted, ...] = ()

    @property
    def by_name(self) -> dict[str, int]:
        """How many of each piece, by name: what a search through donors takes."""
        return {want.sort.piece: want.count for want in self.lines}


def wants_of(counted: Iterable[Counted], *, stays_off: Collection[str] = ()) -> Wants:
    """Return what is wanted so that a drum can be built up again.

    Parameters
    ----------
    counted : iterable of Counted
        The count, from :func:`counterhoop.parts.ticked.count_off`.
    stays_off : collection of str
        Places whose fitting does not go back on; what it lacks is not wanted.

    Returns
    -------
    Wants
        Only what was counted; what was not is named apart.
    """
    going_back = [one for one in counted if one.expected.place not in stays_off]
    short: dict[Sort, list[Counted]] = {}
    for one in going_back:
        if one.missing:
            short.setdefault(one.expected.sort, []).append(one)
    return Wants(
        lines=tuple(
            Want(
                sort=sort,
                count=sum(one.missing for one in found),
                places=tuple((one.expected.place, one.missing) for one in found),
                spoilt=sum(min(one.spoilt, one.missing) for one in found),
            )
            for sort, found in short.items()
        ),
        uncounted=tuple(one for one in going_back if one.found is None),
    )
