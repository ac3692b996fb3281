"""One lug of a row: its holes as the row says, or as its own exception does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.hole import Condition, Hole, Origin
from counterhoop.shell.survey_file.models_hole import LugException, RowWritten
from counterhoop.shell.survey_file.resolve_along import Angle, PlaceFinder
from counterhoop.shell.survey_file.resolve_fitting import check_aside, fitting_sites, rights_of
from counterhoop.shell.survey_file.resolve_height import Heights
from counterhoop.shell.survey_file.resolve_hole import DOUBT_MM, Site

LARGEST_LUG_HOLE_MM = 50.0
"""No row of lugs has larger holes, also where inserts stand in them; more is a slip of unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LugSites:
    """One lug of a row: its holes before they have numbers, each right of the lug's middle."""

    label: str
    sites: tuple[Site, ...]
    rights_mm: tuple[float, ...]
    origin: Origin
    missing: bool
    own_heights: bool


def lug_sites(
    written: RowWritten,
    excepted: tuple[str, LugException] | None,
    *,
    row_along: Angle,
    label: str,
    finder: PlaceFinder,
    heights: Heights,
    read_with: str,
    where: str,
) -> LugSites:
    """Return one lug's holes, ready to be worked out; ``excepted`` is its exception with its path.

    Raises
    ------
    BadInput
        When counts do not agree, or something is written twice over.
    """
    path, own = excepted or (where, None)
    if own is not None:
        check_aside(own.right, finder=finder, where=f"{path}.right")

    @cache
    def along() -> float:
        if own is not None and own.along is not None:
            return finder.find(own.along, where=f"{path}.along")
        off = finder.off_deg(own.right.mm) if own is not None and own.right is not None else 0.0
        return (row_along() + off) % 360.0

    origin = own.origin if own is not None and own.origin is not None else written.origin
    missing = own.missing if own is not None and own.missing is not None else written.missing
    if own is not None and own.holes is not None:
        if own.down is not None or own.near is not None or own.hole is not None:
            raise BadInput(
                "its holes are written twice over", where=path, wanted="holes, or down and hole"
            )
        sites = fitting_sites(
            own.holes,
            along=along,
            label=label,
            finder=finder,
            heights=heights,
            read_with=read_with,
            origin=origin,
            who=written.who,
            where=path,
        )
        rights = rights_of(own.holes)
    else:
        sites, rights = _row_holes(
            written,
            own,
            along=along,
            label=label,
            finder=finder,
            heights=heights,
            read_with=read_with,
            origin=origin,
            where=where,
            path=path,
        )
    return LugSites(
        label=label,
        sites=sites,
        rights_mm=rights,
        origin=origin,
        missing=missing,
        own_heights=own is not None and bool(own.down or own.near or own.holes),
    )


def _row_holes(
    written: RowWritten,
    own: LugException | None,
    *,
    along: Angle,
    label: str,
    finder: PlaceFinder,
    heights: Heights,
    read_with: str,
    origin: Origin,
    where: str,
    path: str,
) -> tuple[tuple[Site, ...], tuple[float, ...]]:
    excepted = own is not None and (own.down is not None or own.near is not None)
    place = path if excepted else where
    found, near = _heights(
        own.down if excepted and own else written.down,
        own.near if excepted and own else written.near,
        where=place,
    )
    count = len(found)
    hole = own.hole if own is not None and own.hole is not None else written.hole
    hole_path = f"{path if own is not None and own.hole is not None else where}.hole"
    diameters = _for_each(hole, count=count, where=hole_path)
    for one in diameters:
        if one.mm > LARGEST_LUG_HOLE_MM:
            raise BadInput(
                "impossible as the hole of a lug's screw",
                where=hole_path,
                given=one.as_written,
                wanted=f"at most {LARGEST_LUG_HOLE_MM:g} mm",
                step="Look at the unit. One that is torn out so far is an exception with holes.",
            )
    rights = tuple(right.mm for right in written.right or ()) or (0.0,) * count
    if len(rights) != count:
        raise BadInput(
            f"{len(rights)} sideways places for {count} holes a lug",
            where=f"{where}.right",
            wanted="one for each height",
        )
    for index, right in enumerate(written.right or (), 1):
        check_aside(right, finder=finder, where=f"{where}.right[{index}]")
    condition = own.condition if own is not None and own.condition else written.condition
    name = "near" if near else "down"
    reads = [
        height.mm + (dia.mm / 2.0 if near else 0.0)
        for height, dia in zip(found, diameters, strict=True)
    ]
    downward = [-read if written.from_edge == "resonant" else read for read in reads]

    def down(index: int) -> Callable[[float], float]:
        return lambda along_deg: heights.down_mm(
            reads[index],
            from_edge=written.from_edge,
            along_deg=along_deg,
            where=f"{place}.{name}[{index + 1}]",
            given=found[index].as_written,
        )

    return tuple(
        _row_site(
            along=along,
            right_deg=finder.off_deg(rights[index]),
            down=down(index),
            dia=diameters[index],
            purpose=f"{label}{_which(index, downward)}",
            origin=origin,
            who=written.who,
            condition=condition,
            doubt_mm=DOUBT_MM[read_with],
            said=f"{name} {found[index].as_written}, dia {diameters[index].as_written}"
            + (f", from the {written.from_edge} edge" if written.from_edge != "batter" else ""),
            path=place,
        )
        for index in range(count)
    ), rights


def _row_site(
    *,
    along: Angle,
    right_deg: float,
    down: Callable[[float], float],
    dia: Length,
    purpose: str,
    origin: Origin,
    who: str,
    condition: Condition,
    doubt_mm: float,
    said: str,
    path: str,
) -> Site:
    def along_here() -> float:
        return (along() + right_deg) % 360.0

    def build(number: int) -> Hole:
        along_deg = along_here()
        return Hole(
            number=number,
            place=Place(along_deg, down(along_deg)),
            shape=Round(dia.mm),
            purpose=purpose,
            origin=origin,
            who_says=who,
            condition=condition,
            doubt_mm=doubt_mm,
            as_written=said,
        )

    return Site(path=path, number=None, along=along_here, build=build)


def _heights(
    down: tuple[Length, ...] | None, near: tuple[Length, ...] | None, *, where: str
) -> tuple[tuple[Length, ...], bool]:
    if (down is None) == (near is None):
        raise BadInput(
            "how high are the lug's holes?" if down is None else "down and near are both written",
            where=where,
            wanted='near = ["38 mm", "80 mm"], their sides nearest the edge, '
            'or down = ["41 mm", "83 mm"], their middles',
        )
    heights = down if down is not None else near
    if not heights:
        raise BadInput("a lug without holes", where=where, wanted='down = ["41 mm", "83 mm"]')
    return heights, down is None


def _for_each(hole: Length | tuple[Length, ...], *, count: int, where: str) -> tuple[Length, ...]:
    if isinstance(hole, Length):
        return (hole,) * count
    if len(hole) != count:
        raise BadInput(
            f"{len(hole)} diameters for {count} holes a lug",
            where=where,
            wanted='one for all, hole = "6 mm", or one for each height',
        )
    return hole


def _which(index: int, centres: list[float]) -> str:
    if len(centres) == 1:
        return ""
    if len(centres) == 2 and centres[0] != centres[1]:
        return ", upper" if centres[index] == min(centres) else ", lower"
    return f", hole {index + 1}"
