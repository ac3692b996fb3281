"""The spares bag that leaves with a drum: what gets lost first and is hardest to find again."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from types import MappingProxyType

from counterhoop.fittings.entry import Kind
from counterhoop.parts.comes_apart import INSERT, NUT, SWIVEL_NUT, Sort
from counterhoop.parts.strip_down import StripDown

HOW_MANY = MappingProxyType(
    {
        Kind.SCREW: 2,
        Kind.WASHER: 2,
        NUT: 2,
        Kind.GASKET: 1,
        Kind.ROD: 1,
        Kind.T_ROD: 1,
        Kind.LUG_SPRING: 1,
        SWIVEL_NUT: 1,
        INSERT: 1,
    }
)
"""Of each sort of these kinds: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """Spare pieces of one sort, beside how many the drum carries."""

    sort: Sort
    count: int
    on_the_drum: int


def spares_bag(stripped: StripDown, *, stays_off: Collection[str] = ()) -> tuple[Spare, ...]:
    """Return what belongs into the spares bag of a drum.

    Two of each sort of screw, washer and nut, one gasket, one rod and one insert of each sort;
    never more than the drum itself carries.

    Parameters
    ----------
    stripped : StripDown
        What the drum is made of.
    stays_off : collection of str
        Places whose fitting does not go back on.
    """
    on_the_drum: dict[Sort, int] = {}
    for line in stripped.lines:
        if line.place not in stays_off:
            on_the_drum[line.sort] = on_the_drum.get(line.sort, 0) + line.count
    return tuple(
        Spare(sort=sort, count=min(HOW_MANY[sort.kind], count), on_the_drum=count)
        for sort, count in on_the_drum.items()
        if sort.kind in HOW_MANY
    )
