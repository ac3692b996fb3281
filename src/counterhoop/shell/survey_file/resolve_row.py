"""A row of lugs becomes lugs with places and holes: the row first, then its exceptions."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.development.tape import Closing
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.drum import PlacedFitting, Row
from counterhoop.shell.hole import Condition, Hole, Origin
from counterhoop.shell.survey_file.models_hole import LugException, RowWritten
from counterhoop.shell.survey_file.resolve_along import Angle, PlaceFinder, mean_deg
from counterhoop.shell.survey_file.resolve_fitting import (
    check_aside,
    fitting_sites,
    in_own_order,
    middle_of,
    rights_of,
)
from counterhoop.shell.survey_file.resolve_hole import (
    DOUBT_MM,
    Site,
    check_on_shell,
    from_batter_mm,
)
from counterhoop.shell.survey_file.resolve_spacing import lug_angles


@dataclass(frozen=True, slots=True, kw_only=True)
class LugSites:
    """One lug of a row: its holes before they have numbers, each right of the lug's middle."""

    label: str
    sites: tuple[Site, ...]
    rights_mm: tuple[float, ...]
    origin: Origin
    missing: bool
    own_heights: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSites:
    """A row before its holes have numbers."""

    path: str
    written: RowWritten
    head: End
    lugs: tuple[LugSites, ...]
    closing: Closing | None


def row_sites(
    written: RowWritten, *, finder: PlaceFinder, depth_mm: float, read_with: str, where: str
) -> RowSites:
    """Return the row's lugs with their holes, and register them as places to tell others from.

    Raises
    ------
    BadInput
        When counts do not agree, or heights lie outside the shell.
    """
    head: End = "resonant" if written.head == "resonant" else "batter"
    called = written.called or ("long lug" if written.head == "both" else f"{head} lug")
    angles, closing = lug_angles(written, finder=finder, where=where)
    exceptions = _exceptions(written, where=where)
    lugs = tuple(
        _lug(
            written,
            exceptions.get(number),
            row_along=angles[number - 1],
            label=f"{called} {number}",
            finder=finder,
            depth_mm=depth_mm,
            read_with=written.read_with or read_with,
            where=where,
        )
        for number in range(1, written.lugs + 1)
    )
    heads: tuple[End, ...] = ("batter", "resonant") if written.head == "both" else (head,)
    for number, lug in enumerate(lugs, 1):
        found = _found_along(lug)
        for one in heads:
            finder.lugs.setdefault((one, number), found)
        finder.named.setdefault(lug.label.casefold(), found)
    return RowSites(path=where, written=written, head=head, lugs=lugs, closing=closing)


def _found_along(lug: LugSites) -> Angle:
    @cache
    def along() -> float:
        return mean_deg(site.along() for site in lug.sites)

    return along


def _exceptions(written: RowWritten, *, where: str) -> dict[int, tuple[str, LugException]]:
    found: dict[int, tuple[str, LugException]] = {}
    for index, one in enumerate(written.exceptions, 1):
        path = f"{where}.exceptions[{index}]"
        if one.lug > written.lugs:
            raise BadInput(
                f"there is no lug {one.lug} in this row",
                where=f"{path}.lug",
                given=one.lug,
                wanted=f"a lug from 1 to {written.lugs}",
            )
        if one.lug in found:
            raise BadInput(
                "this lug is excepted twice",
                where=f"{path}.lug",
                given=one.lug,
                wanted="all that is odd about one lug in one place",
            )
        if one.along is not None and one.right is not None:
            raise BadInput(
                "its place and how far it is off are both written",
                where=f"{path}.right",
                given=one.right.as_written,
                wanted='along = "154 deg", or right = "-3 mm"',
            )
        found[one.lug] = (path, one)
    return found


def _lug(
    written: RowWritten,
    excepted: tuple[str, LugException] | None,
    *,
    row_along: Angle,
    label: str,
    finder: PlaceFinder,
    depth_mm: float,
    read_with: str,
    where: str,
) -> LugSites:
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
            depth_mm=depth_mm,
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
            depth_mm=depth_mm,
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
    depth_mm: float,
    read_with: str,
    origin: Origin,
    where: str,
    path: str,
) -> tuple[tuple[Site, ...], tuple[float, ...]]:
    excepted = own is not None and (own.down is not None or own.near is not None)
    place = path if excepted else where
    heights, near = _heights(
        own.down if excepted and own else written.down,
        own.near if excepted and own else written.near,
        where=place,
    )
    count = len(heights)
    hole = own.hole if own is not None and own.hole is not None else written.hole
    hole_path = f"{path if own is not None and own.hole is not None else where}.hole"
    diameters = _for_each(hole, count=count, where=hole_path)
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
    centres = [
        from_batter_mm(
            height.mm + (dia.mm / 2.0 if near else 0.0),
            from_edge=written.from_edge,
            depth_mm=depth_mm,
        )
        for height, dia in zip(heights, diameters, strict=True)
    ]
    name = "near" if near else "down"
    for index, (centre, height) in enumerate(zip(centres, heights, strict=True), 1):
        check_on_shell(
            centre, depth_mm=depth_mm, where=f"{place}.{name}[{index}]", given=height.as_written
        )
    return tuple(
        _row_site(
            along=along,
            right_deg=finder.off_deg(rights[index]),
            down_mm=centres[index],
            dia=diameters[index],
            purpose=f"{label}{_which(index, centres)}",
            origin=origin,
            who=written.who,
            condition=condition,
            doubt_mm=DOUBT_MM[read_with],
            said=f"{name} {heights[index].as_written}, dia {diameters[index].as_written}"
            + (f", from the {written.from_edge} edge" if written.from_edge != "batter" else ""),
            path=place,
        )
        for index in range(count)
    ), rights


def _row_site(
    *,
    along: Angle,
    right_deg: float,
    down_mm: float,
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
        return Hole(
            number=number,
            place=Place(along_here(), down_mm),
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


def build_row(
    sites: RowSites,
    *,
    holes: dict[str, list[Hole]],
    finder: PlaceFinder,
    middle_mm: float | None,
    hoop: str,
) -> Row:
    """Return the frozen row once its holes have numbers.

    Parameters
    ----------
    sites : RowSites
        The row.
    holes : dict
        Holes by the label of the lug that stands on them.
    finder : PlaceFinder
        Of this drum.
    middle_mm : float or None
        Height of the lugs' own middle (reference point), where it was read.
    hoop : str
        The hoop of its head.
    """
    written = sites.written
    turned = written.turned.deg if written.turned else 180.0 if sites.head == "resonant" else 0.0
    lugs = []
    for lug in sites.lugs:
        own = holes[lug.label]
        along, down = middle_of(own, lug.rights_mm, finder=finder)
        read = middle_mm is not None and not lug.own_heights
        lugs.append(
            PlacedFitting(
                label=lug.label,
                fitting=written.fitting,
                place=Place(along, middle_mm if read and middle_mm is not None else down),
                turned_deg=turned,
                holes=in_own_order(own, turned_deg=turned, finder=finder),
                origin=lug.origin,
                missing=lug.missing,
                place_from="reading" if read else "holes",
            )
        )
    return Row(
        head=sites.head,
        fitting=written.fitting,
        lugs=tuple(lugs),
        hoop=hoop,
        pinned=bool(written.pinned),
        pinned_why=written.pinned,
    )
