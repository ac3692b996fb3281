"""What shows: the skin of holes, plugs and shadows that no base, plate or washer covers."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from counterhoop.development.outline import Outline, disc
from counterhoop.development.place import Place
from counterhoop.development.polygon import hole_outline
from counterhoop.development.shape import HoleShape, Round
from counterhoop.development.solid import corners_of
from counterhoop.development.surface import Surface

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    Region: TypeAlias = Polygon | MultiPolygon

Patch: TypeAlias = tuple[Outline | HoleShape, Place]


def uncovered_mm2(targets: Sequence[Patch], covers: Sequence[Patch], *, surface: Surface) -> float:
    """Area of all targets together that no cover hides.

    Parameters
    ----------
    targets, covers : sequence of (Outline or HoleShape, Place)
        Skin under two targets counts once.
    surface : Surface
        The skin; what runs across the datum is neither lost nor counted twice.

    Returns
    -------
    float
        mm2. Exact for the polygons; a round hole is one of 128 sides, 0.04 % small.

    Examples
    --------
    A base 24 wide over one half of a shadow 24 wide and 57 tall:

    >>> from counterhoop.development.outline import rounded
    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.OLD, circumference_mm=960.0)
    >>> base = rounded(24.0, 57.0)
    >>> uncovered_mm2([(base, Place(0.0, 60.0))], [(base, Place(4.5, 60.0))], surface=skin)
    684.0
    """
    shown = _together(targets, surface)
    return float(shown.difference(_together(covers, surface)).area)


def each_uncovered_mm2(
    targets: Sequence[Patch], covers: Sequence[Patch], *, surface: Surface
) -> tuple[float, ...]:
    """Area of each target that no cover hides, in the order of ``targets``.

    Skin under two targets counts for both, so the sum may exceed ``uncovered_mm2``.
    """
    return _each_uncovered_mm2(tuple(targets), tuple(covers), surface)


# A page that is looked at again asks the same again.
@lru_cache(maxsize=256)
def _each_uncovered_mm2(
    targets: tuple[Patch, ...], covers: tuple[Patch, ...], surface: Surface
) -> tuple[float, ...]:
    hidden = _together(covers, surface)
    return tuple(float(_together([target], surface).difference(hidden).area) for target in targets)


def area_mm2(patches: Sequence[Patch], *, surface: Surface) -> float:
    """Area of skin that patches take up together."""
    return float(_together(patches, surface).area)


def _together(patches: Iterable[Patch], surface: Surface) -> Region:
    """Union of patches cut at the datum: x in [0, C]."""
    import numpy as np
    import shapely

    girth_mm = surface.circumference_mm
    pieces: list[Region] = []
    for what, place in patches:
        outline = _outline(what)
        left, top, right, bottom = outline.bounds_mm
        along_mm = surface.along_mm(place.along_deg)
        corners = corners_of(outline)
        for turn in range(
            math.floor((along_mm + left) / girth_mm), math.ceil((along_mm + right) / girth_mm)
        ):
            x0 = along_mm - turn * girth_mm
            piece = shapely.polygons(np.add(corners, (x0, place.down_mm)))
            if x0 + left < 0.0 or x0 + right > girth_mm:
                window = shapely.box(
                    0.0, place.down_mm + top - 1.0, girth_mm, place.down_mm + bottom + 1.0
                )
                # A side that lies on the datum leaves a line behind, which is no skin.
                cut = shapely.get_parts(piece.intersection(window))
                pieces.extend(part for part in cut if part.area > 0.0)
            else:
                pieces.append(piece)
    # GEOS cannot subtract from the union of nothing.
    return shapely.union_all(pieces) if pieces else shapely.MultiPolygon()


@lru_cache(maxsize=1024)
def _outline(what: Outline | HoleShape) -> Outline:
    if isinstance(what, Outline):
        return what
    # Divided as round bases are, so that a disc of the hole's own size hides it to the last mm2.
    return disc(what.diameter_mm) if isinstance(what, Round) else hole_outline(what)
