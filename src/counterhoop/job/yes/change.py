"""One change of a scheme as a client reads it, and changes that say the same, together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from counterhoop.development.place import Place

Sort: TypeAlias = Literal["permanent", "hidden", "reversible"]
SORTS: Final[tuple[Sort, ...]] = ("permanent", "hidden", "reversible")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place on the shell laid flat that a change is at: "hole 7", "long lug 3".

    ``number`` is the hole's on the hole list; 0 for a fitting.
    """

    called: str
    place: Place
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change.

    Attributes
    ----------
    sort : Sort
        Permanent: cannot be undone. Hidden: cannot be undone either, and is not seen outside.
        Reversible: bolted on or taken off.
    does : str
        What it does to the drum, in one sentence for the client.
    where : str
        Where it is that has no single place: "batter edge", "the whole outside".
    spots : tuple of Spot
        Its place on the picture, in the scheme's own geometry.
    lines : tuple of str
        The lines of the code that stand for it; none for what can be undone.
    """

    sort: Sort
    does: str
    where: str = ""
    spots: tuple[Spot, ...] = ()
    lines: tuple[str, ...] = ()


def gathered(changes: Iterable[Change]) -> tuple[Change, ...]:
    """Put changes that say the same together, with all their places, in the order of the first.

    Examples
    --------
    >>> spots = [Spot(called=f"hole {n}", place=Place(n, 40.0), number=n) for n in (1, 2)]
    >>> (both,) = gathered(Change(sort="hidden", does="Closed.", spots=(s,)) for s in spots)
    >>> [spot.called for spot in both.spots]
    ['hole 1', 'hole 2']
    """
    groups: dict[tuple[Sort, str, str], list[Change]] = {}
    for change in changes:
        groups.setdefault((change.sort, change.does, change.where), []).append(change)
    return tuple(
        Change(
            sort=sort,
            does=does,
            where=where,
            spots=tuple(spot for one in alike for spot in one.spots),
            lines=tuple(line for one in alike for line in one.lines),
        )
        for (sort, does, where), alike in groups.items()
    )
