"""A row of lugs becomes lugs with places and holes: the row first, then its exceptions."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.development.tape import Closing
from counterhoop.errors import BadInput
from counterhoop.shell.drum import PlacedFitting, Row
from counterhoop.shell.hole import Hole
from counterhoop.shell.survey_file.models_hole import LugException, RowWritten
from counterhoop.shell.survey_file.resolve_along import Angle, PlaceFinder, mean_deg
from counterhoop.shell.survey_file.resolve_fitting import in_own_order, middle_of
from counterhoop.shell.survey_file.resolve_height import Heights
from counterhoop.shell.survey_file.resolve_lug import LugSites, lug_sites
from counterhoop.shell.survey_file.resolve_spacing import lug_angles


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSites:
    """A row before its holes have numbers."""

    path: str
    written: RowWritten
    head: End
    lugs: tuple[LugSites, ...]
    closing: Closing | None


def row_sites(
    written: RowWritten, *, finder: PlaceFinder, heights: Heights, read_with: str, where: str
) -> RowSites:
    """Return the row's lugs with their holes, and register them as places to tell others from.

    Raises
    ------
    BadInput
        When counts do not agree.
    """
    head: End = "resonant" if written.head == "resonant" else "batter"
    called = written.called or ("long lug" if written.head == "both" else f"{head} lug")
    angles, closing = lug_angles(written, finder=finder, where=where)
    exceptions = _exceptions(written, where=where)
    lugs = tuple(
        lug_sites(
            written,
            exceptions.get(number),
            row_along=angles[number - 1],
            label=f"{called} {number}",
            finder=finder,
            heights=heights,
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


def build_row(
    sites: RowSites,
    *,
    holes: dict[str, list[Hole]],
    finder: PlaceFinder,
    heights: Heights,
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
    heights : Heights
        Of this drum.
    hoop : str
        The hoop of its head.
    """
    written = sites.written
    turned = written.turned.deg if written.turned else 180.0 if sites.head == "resonant" else 0.0
    lugs = []
    for lug in sites.lugs:
        own = holes[lug.label]
        along, down = middle_of(own, lug.rights_mm, finder=finder)
        read = written.middle is not None and not lug.own_heights
        if written.middle is not None and read:
            down = heights.down_mm(
                written.middle.mm,
                from_edge=written.from_edge,
                along_deg=along,
                where=f"{sites.path}.middle",
                given=written.middle.as_written,
            )
        lugs.append(
            PlacedFitting(
                label=lug.label,
                fitting=written.fitting,
                place=Place(along, down),
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
