"""Shadows, imprints and things inside: outlines at a place."""

from __future__ import annotations

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Inside, Mark
from counterhoop.shell.survey_file.models_hole import (
    Disc,
    InsideWritten,
    Lying,
    MarkWritten,
    Polygon,
    Rectangle,
    Rounded,
)
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_height import Heights

LARGEST_MM = 600.0
"""No base or shadow on a drum is larger; more is a slip of unit."""


def outline_of(written: Rounded | Rectangle | Disc | Polygon, *, where: str) -> Outline:
    """Return the outline about its own middle."""
    if isinstance(written, Rounded):
        if written.corner.mm > min(written.width.mm, written.height.mm) / 2.0:
            raise BadInput(
                "a corner of more than half the width",
                where=f"{where}.corner",
                given=written.corner.as_written,
                wanted="at most half the smaller side",
            )
        found = rounded(written.width.mm, written.height.mm, corner_mm=written.corner.mm)
    elif isinstance(written, Rectangle):
        found = rounded(written.width.mm, written.height.mm)
    elif isinstance(written, Disc):
        found = disc(written.diameter.mm)
    else:
        found = Outline(tuple((right.mm, down.mm) for right, down in written.points))
        _check_simple(found, where=f"{where}.points")
    left, top, right, bottom = found.bounds_mm
    if max(right - left, bottom - top) > LARGEST_MM or min(right - left, bottom - top) <= 0.0:
        raise BadInput(
            "impossible as an outline on a drum",
            where=where,
            given=f"{right - left:g} x {bottom - top:g} mm",
            wanted=f"up to {LARGEST_MM:g} mm each way, and some width",
        )
    return found


def _check_simple(outline: Outline, *, where: str) -> None:
    from shapely import Polygon as Shape

    if not Shape(outline.points).is_valid:
        raise BadInput(
            "the outline crosses itself",
            where=where,
            wanted="its corners in order, once round",
        )


def _lie(
    written: Lying, *, finder: PlaceFinder, heights: Heights, where: str
) -> tuple[Place, Outline]:
    outline = outline_of(written.outline, where=f"{where}.outline")
    if written.turned is not None:
        outline = outline.turned(written.turned.deg)
    if (written.down is None) == (written.near is None):
        raise BadInput(
            "how high does it lie?" if written.down is None else "down and near are both written",
            where=where,
            wanted='near = "20 mm", its side nearest the edge, or down = "41 mm", its middle',
        )
    if written.down is not None:
        given, read = written.down, written.down.mm
    else:
        assert written.near is not None
        _, top, _, bottom = outline.bounds_mm
        given = written.near
        read = written.near.mm + (-top if written.from_edge == "batter" else bottom)
    along_deg = finder.find(written.along, where=f"{where}.along")
    down_mm = heights.down_mm(
        read,
        from_edge=written.from_edge,
        along_deg=along_deg,
        where=f"{where}.{'down' if written.down is not None else 'near'}",
        given=given.as_written,
    )
    return Place(along_deg, down_mm), outline


def resolve_mark(
    written: MarkWritten, *, finder: PlaceFinder, heights: Heights, where: str
) -> Mark:
    """Return a shadow or an imprint."""
    place, outline = _lie(written, finder=finder, heights=heights, where=where)
    return Mark(kind=written.kind, place=place, outline=outline, of=written.of)


def resolve_inside(
    written: InsideWritten, *, finder: PlaceFinder, heights: Heights, where: str
) -> Inside:
    """Return something inside the shell."""
    place, outline = _lie(written, finder=finder, heights=heights, where=where)
    return Inside(what=written.what, place=place, outline=outline)
