"""Heights from both edges, before and after truing, and the flat shell of each finish."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from counterhoop.development.flat import Development, Ring
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.tape import bare_girth_mm, girth_over_mm
from counterhoop.development.truing import Truing
from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """One place from both edges, in one state of truing."""

    from_batter_mm: float
    from_resonant_mm: float
    after_truing: bool


class Left(StrEnum):
    """What truing leaves of a hole."""

    WHOLE = "whole"
    CUT = "cut through by the edge"
    GONE = "cut away"


def heights(place: Place, *, flat: Development) -> Heights:
    """Say how far a place lies from each edge.

    Examples
    --------
    >>> flat = make_flat(950.65, skin=Skin.OLD, wall_bare_mm=5.0, depth_mm=200.0)
    >>> found = heights(Place(60.0, 159.0), flat=flat)
    >>> found.from_batter_mm, found.from_resonant_mm
    (159.0, 41.0)
    """
    return Heights(
        from_batter_mm=place.down_mm,
        from_resonant_mm=flat.depth_at_mm(place.along_deg) - place.down_mm,
        after_truing=flat.after_truing,
    )


def from_resonant(along_deg: float, up_mm: float, *, flat: Development) -> Place:
    """Place at a height from the resonant edge, in the state of ``flat``."""
    return Place(along_deg, flat.depth_at_mm(along_deg) - up_mm)


def place_after(place: Place, *, truing: Truing) -> Place:
    """Place as measured from the batter edge that truing leaves.

    Each height loses what comes off at its own place: the cut may slant. Tilting the axis itself
    changes heights by the square of the slant only, under 0.01 mm for 3 mm across 350.
    """
    return truing.moved(place)


def place_before(place: Place, *, truing: Truing) -> Place:
    """Place as measured from the batter edge as found, from one measured after truing."""
    return Place(place.along_deg, place.down_mm + truing.batter.at_mm(place.along_deg))


def left_after(place: Place, shape: HoleShape, *, flat: Development, truing: Truing) -> Left:
    """Say what truing leaves of a hole.

    Parameters
    ----------
    place : Place
        Before truing.
    shape : HoleShape
    flat : Development
        The shell before truing.
    truing : Truing
        What comes off each end.

    Returns
    -------
    Left
        An edge that just touches the hole leaves it whole, with no wood to the edge.

    Raises
    ------
    BadInput
        When ``flat`` is itself after truing: its heights have lost the wood already.
    """
    _before(flat)
    down_mm = truing.moved(place).down_mm
    depth_mm = flat.depth_at_mm(place.along_deg)
    depth_mm = truing.depth_mm(depth_mm, along_deg=place.along_deg)
    half = (shape.size_mm[1] if not isinstance(shape, Round) else shape.diameter_mm) / 2.0
    if down_mm - half >= 0.0 and down_mm + half <= depth_mm:
        return Left.WHOLE
    if down_mm + half <= 0.0 or down_mm - half >= depth_mm:
        return Left.GONE
    return Left.CUT


def make_flat(
    old_girth_mm: float,
    *,
    skin: Skin = Skin.OLD,
    old_finish_mm: float = 0.0,
    new_finish_mm: float | None = None,
    wall_bare_mm: float,
    depth_mm: float,
    rings: Sequence[Ring] = (),
    truing: Truing = Truing(),
    depth_cos_mm: float = 0.0,
    depth_sin_mm: float = 0.0,
) -> Development:
    """Lay the shell flat for one skin and one state of truing.

    Parameters
    ----------
    old_girth_mm : float
        Circumference over the finish as found (over bare wood when there is none).
    skin : Skin
        The skin that the paper lies on.
    old_finish_mm, new_finish_mm : float
        Thickness of the finish as found and of the one to come. Lacquer counts as 0.
    wall_bare_mm : float
        Wood alone, away from the rings.
    depth_mm : float
        As found, the mean round the rim.
    rings : sequence of Ring
        As found.
    truing : Truing
        What comes off. ``Truing()`` gives the shell before truing.
    depth_cos_mm, depth_sin_mm : float
        How the depth as found swings round the rim.

    Returns
    -------
    Development
        Girth of the bare wood ``old - 2 pi t_old``, over the new finish ``bare + 2 pi t_new``; the
        wall counts the finish of the skin named; rings lose what comes off their end, and those
        that lose all are gone.

    Raises
    ------
    BadInput
        No new finish for the new skin, no wall, no depth, or truing that leaves no shell.

    Examples
    --------
    >>> from counterhoop.development.truing import Removal
    >>> after = make_flat(
    ...     950.65, wall_bare_mm=5.0, depth_mm=203.0, truing=Truing(resonant=Removal(3.0))
    ... )
    >>> after.depth_mm, after.after_truing
    (200.0, True)
    """
    bare_mm = bare_girth_mm(old_girth_mm, thickness_mm=old_finish_mm)
    finish_mm = {Skin.BARE: 0.0, Skin.OLD: old_finish_mm, Skin.NEW: new_finish_mm}[skin]
    if finish_mm is None:
        raise BadInput(
            "there is no new finish to lay a paper over",
            where="new_finish_mm",
            wanted="its thickness in mm, 0 for lacquer",
        )
    if not wall_bare_mm > 0.0:
        raise BadInput("a shell has a wall", where="wall_mm", given=wall_bare_mm, wanted="over 0")
    girth_mm = old_girth_mm if skin is Skin.OLD else girth_over_mm(bare_mm, thickness_mm=finish_mm)
    left = Development(
        surface=Surface(skin=skin, circumference_mm=girth_mm),
        depth_mm=depth_mm - truing.batter.mean_mm - truing.resonant.mean_mm,
        wall_mm=wall_bare_mm + finish_mm,
        rings=tuple(one for one in (_ring_after(ring, truing) for ring in rings) if one),
        after_truing=truing.any,
        depth_cos_mm=depth_cos_mm - truing.batter.cos_mm - truing.resonant.cos_mm,
        depth_sin_mm=depth_sin_mm - truing.batter.sin_mm - truing.resonant.sin_mm,
    )
    least_mm = left.depth_mm - (left.depth_cos_mm**2 + left.depth_sin_mm**2) ** 0.5
    if not least_mm > 0.0:
        raise BadInput(
            "no shell is left",
            where="depth_mm",
            given=depth_mm,
            wanted="a depth greater than what comes off both ends",
        )
    return left


def _ring_after(ring: Ring, truing: Truing) -> Ring | None:
    off = truing.batter if ring.end == "batter" else truing.resonant
    wide_mm = ring.wide_mm - off.mean_mm
    cos_mm, sin_mm = ring.wide_cos_mm - off.cos_mm, ring.wide_sin_mm - off.sin_mm
    if wide_mm + (cos_mm**2 + sin_mm**2) ** 0.5 <= 0.0:
        return None
    return Ring(
        end=ring.end,
        wide_mm=wide_mm,
        thick_mm=ring.thick_mm,
        wide_cos_mm=cos_mm,
        wide_sin_mm=sin_mm,
    )


def _before(flat: Development) -> None:
    if flat.after_truing:
        raise BadInput(
            "these heights have lost the wood already",
            where="flat",
            given="after truing",
            wanted="the shell before truing",
        )
