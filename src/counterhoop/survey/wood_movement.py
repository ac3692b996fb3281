"""How far wood moves with its moisture, by species, direction and how the piece is made."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from counterhoop.errors import BadInput

FIBRE_SATURATION_PERCENT = 30.0
ALONG_PERCENT = 0.15
"""Shrinkage along the grain, green to dry: 0.1 to 0.2 per cent (awc.org)."""
CROSS_PLY_PERCENT = 0.27 / 13 * FIBRE_SATURATION_PERCENT
"""Of thin three-ply board: 0.27 per cent across the face for 7 to 20 per cent of moisture, mean of
22 species (Forest Products Research Laboratory, as quoted at msd.com.ua), stretched to the 30 of
this scale, so not to be read beyond 7 to 20 per cent."""


class Direction(StrEnum):
    """Which way a size runs in the wood."""

    RADIAL = "radial"
    TANGENTIAL = "tangential"
    ALONG = "along the grain"
    CROSS_PLY = "in the plane of cross-ply"


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """Shrinkage from green to oven-dry, per cent of the green size."""

    name: str
    radial_percent: float
    tangential_percent: float
    source: str


_HERE = "Wood Handbook, Table 4-3"
SPECIES: dict[str, Species] = {
    name: Species(name=name, radial_percent=radial, tangential_percent=tangential, source=source)
    for name, radial, tangential, source in (
        ("yellow birch", 7.3, 9.5, _HERE),
        ("beech", 5.5, 11.9, _HERE),
        ("hard maple", 4.8, 9.9, f"{_HERE} (from memory)"),
        ("yellow-poplar", 4.6, 8.2, _HERE),
        ("mahogany", 3.0, 4.1, "Wood Handbook, Table 4-4"),
        ("African mahogany", 2.5, 4.5, "Wood Handbook, Table 4-4"),
    )
}
"""Mahogany by its shrinkage: the imported rows of Table 13-5 (from memory) are 1.7 times that."""


def shrinkage_percent(species: str, direction: Direction) -> float:
    """Return the shrinkage from green to oven-dry; cross-ply and along whatever the species.

    Raises
    ------
    BadInput
        For a species that is not in the table, where the figure hangs on it.
    """
    if direction is Direction.ALONG:
        return ALONG_PERCENT
    if direction is Direction.CROSS_PLY:
        return CROSS_PLY_PERCENT
    if species not in SPECIES:
        raise BadInput("no figures for this wood", given=species, wanted=", ".join(SPECIES))
    wood = SPECIES[species]
    return wood.radial_percent if direction is Direction.RADIAL else wood.tangential_percent


def movement_per_percent(green_to_dry_percent: float) -> float:
    """Return the share of a size gained for each per cent of moisture, about 10 per cent.

    ``C = 1 / (3000/S - 20)``, which gives the printed coefficients of the Wood Handbook, Table
    13-5, from its shrinkages; valid from 6 to 14 per cent.

    Examples
    --------
    >>> round(movement_per_percent(9.5), 5)
    0.00338
    """
    _need_shrinkage(green_to_dry_percent)
    return 1 / (3000 / green_to_dry_percent - 20)


def movement_mm(
    size_mm: float,
    *,
    green_to_dry_percent: float,
    from_percent: float,
    to_percent: float,
) -> float:
    """Return how much a size grows (or, negative, shrinks) between two moistures.

    ``size (Mf - Mi) / (3000/S - 30 + Mi)``: shrinkage even from 30 per cent down to dry.

    Parameters
    ----------
    size_mm : float
        At ``from_percent``.
    green_to_dry_percent : float
        Above 0, at most 25; see :func:`shrinkage_percent`.
    from_percent, to_percent : float
        Moisture, 0 to 30; above that wood does not move.

    Source: Wood Handbook, section 13 and eq. 4-7 (from memory); stresses of a glued shell are
    not counted.

    Examples
    --------
    >>> round(movement_mm(140, green_to_dry_percent=9.5, from_percent=6.9, to_percent=12), 3)
    2.439
    """
    _need_shrinkage(green_to_dry_percent)
    for percent in (from_percent, to_percent):
        if not 0 <= percent <= FIBRE_SATURATION_PERCENT:
            raise BadInput("moisture out of range", given=percent, wanted="0 to 30 per cent")
    return size_mm * (to_percent - from_percent) / (3000 / green_to_dry_percent - 30 + from_percent)


def _need_shrinkage(percent: float) -> None:
    if not 0 < percent <= 25:
        raise BadInput("no wood shrinks so", given=percent, wanted="per cent, such as 9.5")


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """Two pieces that meet and move differently.

    Attributes
    ----------
    first_mm, second_mm : float
        How much each grows.
    apart_mm : float
        The second less the first: above 0 it grows proud or presses, below 0 it opens or sinks.
    """

    first_mm: float
    second_mm: float
    apart_mm: float


def moves_apart(
    size_mm: float,
    *,
    first: tuple[str, Direction],
    second: tuple[str, Direction],
    from_percent: float,
    to_percent: float,
) -> Apart:
    """Return how a plug or ring (second) moves against the shell (first) that it sits in.

    The diameter of a steam-bent solid shell and of a solid bent ring runs along the grain; of a
    ply shell it is cross-ply; a plug is tangential one way and radial or along the other.

    Examples
    --------
    >>> plug = moves_apart(
    ...     12.0,
    ...     first=("hard maple", Direction.CROSS_PLY),
    ...     second=("hard maple", Direction.TANGENTIAL),
    ...     from_percent=12.0,
    ...     to_percent=6.9,
    ... )
    >>> round(plug.apart_mm, 2)
    -0.2
    """
    first_mm, second_mm = (
        movement_mm(
            size_mm,
            green_to_dry_percent=shrinkage_percent(*piece),
            from_percent=from_percent,
            to_percent=to_percent,
        )
        for piece in (first, second)
    )
    return Apart(first_mm=first_mm, second_mm=second_mm, apart_mm=second_mm - first_mm)
