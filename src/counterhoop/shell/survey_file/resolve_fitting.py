"""Fittings on the shell, and the holes that they stand on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.drum import PlacedFitting
from counterhoop.shell.hole import Hole, Origin
from counterhoop.shell.survey_file.models_hole import FittingHole, FittingWritten
from counterhoop.shell.survey_file.resolve_along import Angle, PlaceFinder, mean_deg
from counterhoop.shell.survey_file.resolve_height import Heights
from counterhoop.shell.survey_file.resolve_hole import Site, build_hole, shape_of

ONE_LINE_MM = 4.0
"""Holes of one line of a fitting lie within this; lines of a real pattern lie farther apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingSites:
    """A fitting before its holes have numbers."""

    path: str
    written: FittingWritten
    sites: tuple[Site, ...]
    along: Angle


def place_sites(
    written: FittingWritten, *, finder: PlaceFinder, heights: Heights, read_with: str, where: str
) -> FittingSites:
    """Return the fitting with its holes, and register it as a place to tell others from.

    Raises
    ------
    BadInput
        When neither its height nor a hole is written.
    """
    if written.down is None and not written.holes:
        raise BadInput(
            "how high is it?",
            where=where,
            wanted='down = "130 mm", the height of its middle, or its holes',
        )

    @cache
    def along() -> float:
        return finder.find(written.along, where=f"{where}.along")

    sites = fitting_sites(
        written.holes,
        along=along,
        label=written.label,
        finder=finder,
        heights=heights,
        read_with=read_with,
        origin=written.origin,
        who=written.who,
        where=where,
    )
    finder.named.setdefault(written.label.casefold(), along)
    return FittingSites(path=where, written=written, sites=sites, along=along)


def fitting_sites(
    holes: Sequence[FittingHole],
    *,
    along: Angle,
    label: str,
    finder: PlaceFinder,
    heights: Heights,
    read_with: str,
    origin: Origin,
    who: str,
    where: str,
) -> tuple[Site, ...]:
    """Return the holes of one fitting or one lug, ready to be worked out."""
    return tuple(
        _site(
            hole,
            along=along,
            purpose=label if len(holes) == 1 else f"{label}, hole {index}",
            finder=finder,
            heights=heights,
            read_with=read_with,
            origin=origin,
            who=who,
            where=f"{where}.holes[{index}]",
        )
        for index, hole in enumerate(holes, 1)
    )


def _site(
    hole: FittingHole,
    *,
    along: Angle,
    purpose: str,
    finder: PlaceFinder,
    heights: Heights,
    read_with: str,
    origin: Origin,
    who: str,
    where: str,
) -> Site:
    if hole.along is not None and hole.right is not None:
        raise BadInput(
            "its place along and how far it is to the right are both written",
            where=f"{where}.right",
            given=hole.right.as_written,
            wanted='right = "10 mm", or along = "95 deg"',
        )

    check_aside(hole.right, finder=finder, where=f"{where}.right")

    def along_here() -> float:
        if hole.along is not None:
            return finder.find(hole.along, where=f"{where}.along")
        right_mm = hole.right.mm if hole.right is not None else 0.0
        return (along() + finder.off_deg(right_mm)) % 360.0

    def build(number: int) -> Hole:
        said = f"along {hole.along.as_written}" if hole.along else ""
        if hole.right is not None:
            said = f"right {hole.right.as_written}"
        return build_hole(
            hole,
            number=number,
            along_deg=along_here(),
            shape=shape_of(hole, where=where),
            heights=heights,
            where=where,
            said=said,
            read_with=read_with,
            purpose=purpose,
            origin=origin,
            who=who,
        )

    return Site(path=where, number=hole.number, along=along_here, build=build)


def rights_of(holes: Sequence[FittingHole]) -> tuple[float, ...]:
    """Return how far each hole is said to lie to the right of its fitting's middle."""
    return tuple(hole.right.mm if hole.right is not None else 0.0 for hole in holes)


def middle_of(
    holes: Sequence[Hole], rights_mm: Sequence[float], *, finder: PlaceFinder
) -> tuple[float, float]:
    """Return along and down of the middle that the holes point to."""
    along = mean_deg(
        (hole.place.along_deg - finder.off_deg(right)) % 360.0
        for hole, right in zip(holes, rights_mm, strict=True)
    )
    return along, math.fsum(hole.place.down_mm for hole in holes) / len(holes)


def in_own_order(
    holes: Sequence[Hole], *, turned_deg: float, finder: PlaceFinder
) -> tuple[int, ...]:
    """Return the holes' numbers as the fitting itself counts: line by line, then to the right.

    A lug on the resonant side is turned, so that its mouth looks to that edge: counted downward
    in its own frame its holes go from the resonant edge toward the batter edge. Holes that lie
    within ``ONE_LINE_MM`` of the first of a line count as one line: no two readings of one line
    agree to the tenth.
    """
    turn = math.radians(turned_deg)
    own: list[tuple[float, float, int]] = []
    for hole in holes:
        apart_deg = (hole.place.along_deg - holes[0].place.along_deg + 180.0) % 360.0 - 180.0
        right, down = finder.girth_mm * apart_deg / 360.0, hole.place.down_mm
        own.append(
            (
                down * math.cos(turn) - right * math.sin(turn),
                right * math.cos(turn) + down * math.sin(turn),
                hole.number,
            )
        )
    own.sort()
    lines: list[list[tuple[float, float, int]]] = []
    for one in own:
        if lines and one[0] - lines[-1][0][0] <= ONE_LINE_MM:
            lines[-1].append(one)
        else:
            lines.append([one])
    return tuple(number for line in lines for _, _, number in sorted(line, key=lambda one: one[1]))


def check_aside(right: Length | None, *, finder: PlaceFinder, where: str) -> None:
    """Refuse a distance to the side that is no distance on this shell."""
    if right is not None and abs(right.mm) > finder.girth_mm / 2.0:
        raise BadInput(
            "farther to the side than half way round the shell",
            where=where,
            given=right.as_written,
            wanted='a distance such as "-3 mm"',
        )


def build_fitting(
    sites: FittingSites, *, holes: Sequence[Hole], finder: PlaceFinder, heights: Heights
) -> PlacedFitting:
    """Return the frozen fitting once its holes have numbers."""
    written = sites.written
    turned_deg = written.turned.deg if written.turned is not None else 0.0
    along_deg = sites.along()
    if written.down is not None:
        down_mm = heights.down_mm(
            written.down.mm,
            from_edge=written.from_edge,
            along_deg=along_deg,
            where=f"{sites.path}.down",
            given=written.down.as_written,
        )
    else:
        down_mm = math.fsum(hole.place.down_mm for hole in holes) / len(holes)
    return PlacedFitting(
        label=written.label,
        fitting=written.fitting,
        place=Place(along_deg, down_mm),
        turned_deg=turned_deg,
        holes=in_own_order(holes, turned_deg=turned_deg, finder=finder),
        origin=written.origin,
        missing=written.missing,
        place_from="holes" if written.down is None else "reading",
    )
