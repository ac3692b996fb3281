"""One drum of the file becomes the frozen record of a drum as found."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import TypeVar

from counterhoop.development.flat import End
from counterhoop.errors import BadInput, Finding
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Hole
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.readings import Readings
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.survey_file.crosscheck import closing_finding, crosscheck
from counterhoop.shell.survey_file.faults import Faults
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.models_readings import AirWritten
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_choice import resolve_choice
from counterhoop.shell.survey_file.resolve_depth import depth_readings, resolve_depth
from counterhoop.shell.survey_file.resolve_fitting import build_fitting, place_sites
from counterhoop.shell.survey_file.resolve_height import Depth, Heights
from counterhoop.shell.survey_file.resolve_hole import single_site
from counterhoop.shell.survey_file.resolve_mark import resolve_inside, resolve_mark
from counterhoop.shell.survey_file.resolve_names import check_labels, number_sites, register_marks
from counterhoop.shell.survey_file.resolve_plan import resolve_plan
from counterhoop.shell.survey_file.resolve_readings import resolve_readings
from counterhoop.shell.survey_file.resolve_row import build_row, row_sites
from counterhoop.shell.survey_file.resolve_shell import (
    ENDS,
    check_finish,
    check_wall,
    resolve_beds,
    resolve_edges,
    resolve_finish,
    resolve_girth,
    resolve_lines,
    resolve_rings,
    resolve_seam,
)
from counterhoop.shell.survey_file.resolve_tuning import resolve_tuning
from counterhoop.shell.survey_file.resolve_wish import resolve_wish
from counterhoop.shell.wrap_stock import WrapStock

T = TypeVar("T")
R = TypeVar("R")


def resolve_drum(
    key: str,
    written: DrumWritten,
    *,
    tape: object,
    air: AirWritten | None,
    wraps: Mapping[str, WrapStock],
    rules: ShopRules,
    a4_hz: float,
    faults: Faults,
) -> tuple[DrumWanted, tuple[Finding, ...]] | None:
    """Return the drum with its wishes and what the readings say against each other.

    Faults are added to ``faults``; None when there was any.
    """
    before = len(faults.found)
    where = f"drums.{key}"
    try:
        girth = resolve_girth(written, tape=written.tape or tape, where=where)
        depths = [one.mm for _, _, one in depth_readings(written, where=where)]
        check_wall(written, girth=girth, where=where)
        check_finish(written, where=where)
        rings = resolve_rings(written, depth_mm=sum(depths) / len(depths), where=where)
    except BadInput as fault:
        faults.add(fault)
        return None
    finder = PlaceFinder(read_girth_mm=girth.read_mm, girth_mm=girth.circumference.mean_mm)

    @cache
    def readings() -> Readings:
        return resolve_readings(
            written,
            air=air,
            circumference=girth.circumference,
            rings=rings,
            finder=finder,
            where=where,
        )

    @cache
    def depth() -> Depth:
        return resolve_depth(written, readings=readings(), finder=finder, where=where)

    heights = Heights(depth=depth)
    rows = _each(
        written.rows,
        lambda one, path: row_sites(
            one, finder=finder, heights=heights, read_with=written.read_with, where=path
        ),
        where=f"{where}.rows",
        faults=faults,
    )
    fittings = _each(
        written.fittings,
        lambda one, path: place_sites(
            one, finder=finder, heights=heights, read_with=written.read_with, where=path
        ),
        where=f"{where}.fittings",
        faults=faults,
    )
    singles = _each(
        written.holes,
        lambda one, path: single_site(
            one, finder=finder, heights=heights, read_with=written.read_with, where=path
        ),
        where=f"{where}.holes",
        faults=faults,
    )
    check_labels(rows, fittings, where=where, faults=faults)
    if len(faults.found) > before:
        return None
    sites = [
        *(site for row in rows for lug in row.lugs for site in lug.sites),
        *(site for fitting in fittings for site in fitting.sites),
        *singles,
    ]
    numbers = number_sites(sites, faults=faults)
    register_marks(written, fittings, singles, sites, numbers, finder=finder, where=where)
    try:
        depth()
    except BadInput as fault:
        faults.add(fault)
        return None
    holes: dict[int, Hole] = {}
    for site, number in zip(sites, numbers, strict=True):
        try:
            holes[number] = site.build(number)
        except BadInput as fault:
            faults.add(fault)
    if len(faults.found) > before:
        return None
    ready = iter(numbers)

    def next_holes(count: int) -> list[Hole]:
        return [holes[next(ready)] for _ in range(count)]

    hoops = _hoops(written)
    try:
        drum = Drum(
            key=key,
            says=written.says,
            kind=written.kind,
            material=written.material,
            size_as_written=str(written.size) if written.size is not None else "",
            nominal_diameter_mm=written.size.dia.mm if written.size is not None else None,
            heads=written.heads,
            circumference=girth.circumference,
            wall_mm=written.wall.mm,
            depth_mm=depth().mean_mm,
            depth_cos_mm=depth().cos_mm,
            depth_sin_mm=depth().sin_mm,
            depth_readings_mm=depth().readings_mm,
            depth_along_deg=depth().along_deg,
            plies=written.plies,
            finish=resolve_finish(written),
            rings=rings,
            edges=resolve_edges(written),
            rows=tuple(
                build_row(
                    row,
                    holes={lug.label: next_holes(len(lug.sites)) for lug in row.lugs},
                    finder=finder,
                    heights=heights,
                    hoop=dict(hoops).get(row.head, ""),
                )
                for row in rows
            ),
            fittings=tuple(
                build_fitting(one, holes=next_holes(len(one.sites)), finder=finder, heights=heights)
                for one in fittings
            ),
            holes=tuple(holes[number] for number in sorted(holes)),
            hoops=hoops,
            seam=resolve_seam(written, finder=finder, where=where),
            lines=resolve_lines(written, finder=finder, heights=heights, where=where),
            beds=resolve_beds(written, finder=finder, where=where),
            inside=tuple(
                resolve_inside(
                    one, finder=finder, heights=heights, where=f"{where}.inside[{index}]"
                )
                for index, one in enumerate(written.inside, 1)
            ),
            marks=tuple(
                resolve_mark(one, finder=finder, heights=heights, where=f"{where}.marks[{index}]")
                for index, one in enumerate(written.marks, 1)
            ),
            readings=readings(),
        )
        plan = resolve_plan(written, drum=drum, depth=depth(), wraps=wraps, where=where)
        chosen = resolve_choice(written.chosen, where=f"{where}.chosen")
        tuning = resolve_tuning(written.tuning, drum=drum, a4_hz=a4_hz, where=f"{where}.tuning")
    except BadInput as fault:
        faults.add(fault)
        return None
    wishes = _each(
        written.wish,
        lambda one, path: resolve_wish(one, drum=drum, finder=finder, heights=heights, where=path),
        where=f"{where}.wish",
        faults=faults,
    )
    if len(faults.found) > before:
        return None
    findings = [
        *crosscheck(drum, written=written, rules=rules),
        *(f for row in rows if (f := closing_finding(row.closing, head=row.head)) is not None),
    ]
    made = DrumWanted(drum=drum, wishes=tuple(wishes), finish=plan, chosen=chosen, tuning=tuning)
    return made, tuple(findings)


def _each(
    written: Sequence[T], make: Callable[[T, str], R], *, where: str, faults: Faults
) -> list[R]:
    made = []
    for index, one in enumerate(written, 1):
        try:
            made.append(make(one, f"{where}[{index}]"))
        except BadInput as fault:
            faults.add(fault)
    return made


def _hoops(written: DrumWritten) -> tuple[tuple[End, str], ...]:
    named: dict[End, str | None] = {
        "batter": written.hoops.batter,
        "resonant": written.hoops.resonant,
    }
    return tuple((end, hoop) for end in ENDS if (hoop := named[end]) is not None)
