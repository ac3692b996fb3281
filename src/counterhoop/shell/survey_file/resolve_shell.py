"""The shell itself: circumference, depth, finish, rings, ends, seam and lines."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.development.flat import End, Ring
from counterhoop.development.surface import Skin
from counterhoop.development.tape import girth_from_diameters_mm, girth_mm
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.shell.drum import Bed, Circumference, Edge, OldFinish, PlySeam, Seam
from counterhoop.shell.survey_file.models_job import DIAMETER_TAPE, DrumWritten
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_height import Heights
from counterhoop.shell.survey_file.shown import listed

ENDS: tuple[End, ...] = ("batter", "resonant")
PLACES = ("batter", "middle", "resonant")
# From the smallest to the largest drum there is, with room to spare; beyond lies a slip of unit.
GIRTH_MM = (400.0, 3300.0)
DIAMETER_MM = (127.0, 1050.0)
WALL_MM = (0.4, 60.0)
READ_DOUBT_MM = 0.5
THICKEST_TAPE_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Girth:
    """The circumference, and what the tape itself read once round."""

    circumference: Circumference
    read_mm: float


def resolve_girth(written: DrumWritten, *, tape: object, where: str) -> Girth:
    """Return the circumference from tape or diameters, corrected for the tape.

    A tape reads the circle half its thickness outside the skin; a diameter tape is ruled with
    that allowed for, and what its other scale shows may be written as ``diameters``.

    Raises
    ------
    BadInput
        When neither is written, or what is written cannot be a drum.
    """
    if written.circumference is not None:
        return _by_tape(written, tape=tape, where=where)
    diameters = list(_diameters(written, where=where))
    if not diameters:
        raise BadInput(
            "how far round is the shell?",
            where=where,
            wanted='circumference = "951 mm", or diameters = ["302.5 mm", "302.8 mm"]',
        )
    for path, one in diameters:
        possible(one.mm, DIAMETER_MM, one, path, "diameter")
    mean_mm = girth_from_diameters_mm([one.mm for _, one in diameters])
    # The job's tape says nothing of what read the diameters; the drum's own does.
    taped = written.tape == DIAMETER_TAPE
    ends = _ends_across(written)
    # A rule or caliper across sees two places of the rim, a diameter tape the whole of it.
    fewest = min((len(sizes) for sizes in ends.values()), default=len(diameters))
    doubt_mm = READ_DOUBT_MM if taped else math.pi * READ_DOUBT_MM / fewest**0.5
    return Girth(
        circumference=Circumference(
            skin=Skin(written.surface),
            mean_mm=mean_mm,
            readings_mm=tuple((end, girth_from_diameters_mm(sizes)) for end, sizes in ends.items()),
            from_diameters=not taped,
            doubt_mm=doubt_mm,
            as_written=tuple(one.as_written for _, one in diameters),
        ),
        read_mm=mean_mm,
    )


def _diameters(written: DrumWritten, *, where: str) -> Iterator[tuple[str, Length]]:
    """Yield path and length of every diameter: of the drum, or else those of its ends."""
    if written.diameters is not None:
        for index, one in enumerate(written.diameters, 1):
            yield f"{where}.diameters[{index}]", one
        return
    for end in ENDS:
        for index, one in enumerate(_across(written, end), 1):
            yield f"{where}.round.{end}.across[{index}]", one


def _across(written: DrumWritten, end: End) -> tuple[Length, ...]:
    rim = written.round.batter if end == "batter" else written.round.resonant
    return rim.across.lengths if rim is not None and rim.across is not None else ()


def _ends_across(written: DrumWritten) -> dict[End, list[float]]:
    """Return the diameters of each end; none where diameters of the drum say how large it is."""
    if written.diameters is not None:
        return {}
    return {end: [one.mm for one in read] for end in ENDS if (read := _across(written, end))}


def _by_tape(written: DrumWritten, *, tape: object, where: str) -> Girth:
    assert written.circumference is not None
    readings = list(readings_of(written.circumference, where=f"{where}.circumference"))
    if isinstance(written.circumference, dict):
        for place, path, _ in readings:
            if place not in PLACES:
                raise BadInput(
                    "not a place where a circumference is read",
                    where=path,
                    wanted=listed(PLACES),
                    step=did_you_mean(place[:80], PLACES),
                )
    for _, path, one in readings:
        possible(one.mm, GIRTH_MM, one, path, "circumference")
    thick_mm = tape.mm if isinstance(tape, Length) else 0.0
    if thick_mm > THICKEST_TAPE_MM:
        raise BadInput(
            "no tape is that thick",
            where=f"{where}.tape" if written.tape is not None else "job.tape",
            given=str(tape),
            wanted='its thickness, such as "0.2 mm"',
        )
    found = tuple(
        (place or "one reading", girth_mm(one.mm, tape_mm=thick_mm)) for place, _, one in readings
    )
    return Girth(
        circumference=Circumference(
            skin=Skin(written.surface),
            mean_mm=math.fsum(size for _, size in found) / len(found),
            readings_mm=found,
            doubt_mm=READ_DOUBT_MM,
            as_written=tuple(one.as_written for _, _, one in readings),
        ),
        read_mm=math.fsum(one.mm for _, _, one in readings) / len(readings),
    )


def possible(
    size_mm: float, span: tuple[float, float], given: Length, where: str, noun: str
) -> None:
    """Refuse a size that no drum has."""
    if not span[0] <= size_mm <= span[1]:
        raise BadInput(
            f"impossible as the {noun} of a drum's shell",
            where=where,
            given=given.as_written,
            wanted=f"from {span[0]:g} to {span[1]:g} mm",
            step="Look at the unit and the decimal point.",
        )


def readings_of(
    written: Length | tuple[Length, ...] | dict[str, Length], *, where: str
) -> Iterator[tuple[str, str, Length]]:
    """Yield place, path and length of one reading, a list of them, or a table by place."""
    if isinstance(written, Length):
        yield "", where, written
        return
    if not written:
        raise BadInput("nothing is read here", where=where, wanted="one length or several")
    if isinstance(written, dict):
        for place, one in written.items():
            yield " ".join(place.split()).casefold(), f"{where}.{place}", one
        return
    for index, one in enumerate(written, 1):
        yield f"reading {index}", f"{where}[{index}]", one


def check_wall(written: DrumWritten, *, girth: Girth, where: str) -> None:
    """Refuse a wall that no drum has."""
    possible(written.wall.mm, WALL_MM, written.wall, f"{where}.wall", "wall")
    if written.wall.mm * 8.0 * math.pi > girth.circumference.mean_mm:
        raise BadInput(
            "impossible: the wall is thicker than a quarter of the radius",
            where=f"{where}.wall",
            given=written.wall.as_written,
            wanted='the thickness of the bare shell, such as "5 mm"',
        )


def resolve_finish(written: DrumWritten) -> OldFinish:
    """Return the finish as found; a wrap may be nitrate until the file says it is not."""
    found = written.finish
    if found is None:
        return OldFinish(kind="lacquer")
    maybe = found.nitrate == "maybe" or (found.nitrate is None and found.kind == "wrap")
    return OldFinish(
        kind=found.kind,
        thickness_mm=found.thickness.mm if found.thickness else 0.0,
        maybe_nitrate=maybe,
        says=found.says,
    )


def check_finish(written: DrumWritten, *, where: str) -> None:
    """Refuse a finish that cannot be: too thick, or a seam of wrap where there is no wrap."""
    found = written.finish
    if found is not None and found.thickness is not None and found.thickness.mm > 5.0:
        raise BadInput(
            "impossible as the thickness of a finish",
            where=f"{where}.finish.thickness",
            given=found.thickness.as_written,
            wanted='such as "0.5 mm"',
        )
    if written.seam is not None and (found is None or found.kind != "wrap"):
        raise BadInput(
            "a wrap's seam on a drum that is not wrapped",
            where=f"{where}.seam",
            wanted='finish = { kind = "wrap", thickness = "0.5 mm" } with it',
            step='A seam of the plies is a line of kind "ply seam".',
        )
    if written.surface == "bare wood" and found is not None and found.kind == "wrap":
        raise BadInput(
            "measured over bare wood, but the drum is wrapped",
            where=f"{where}.surface",
            given=written.surface,
            wanted='surface = "over the old finish", or finish kind "bare" when the wrap is off',
        )


def resolve_rings(written: DrumWritten, *, depth_mm: float, where: str) -> tuple[Ring, ...]:
    """Return the reinforcements, one an end at most."""
    seen: set[str] = set()
    for index, ring in enumerate(written.rings, 1):
        path = f"{where}.rings[{index}]"
        if ring.end in seen:
            raise BadInput("a second ring at this end", where=f"{path}.end", given=ring.end)
        seen.add(ring.end)
        if ring.wide.mm > depth_mm / 2.0:
            raise BadInput(
                "a ring wider than half the depth",
                where=f"{path}.wide",
                given=ring.wide.as_written,
                wanted='such as "25 mm"',
            )
        if ring.thick.mm > 40.0:
            raise BadInput(
                "impossible as a ring's thickness",
                where=f"{path}.thick",
                given=ring.thick.as_written,
                wanted='such as "5 mm"',
            )
    return tuple(
        Ring(end=ring.end, wide_mm=ring.wide.mm, thick_mm=ring.thick.mm) for ring in written.rings
    )


def resolve_edges(written: DrumWritten) -> tuple[Edge, ...]:
    """Return what is known of both ends.

    The open end of a single-headed drum that the file does not mention counts as not surveyed.
    """
    ringed = {ring.end for ring in written.rings}
    edges = []
    for end in ENDS:
        found = written.edges.batter if end == "batter" else written.edges.resonant
        if found is None:
            surveyed = written.heads == 2 or end == "batter"
            edges.append(Edge(end=end, ring=end in ringed, surveyed=surveyed))
        else:
            edges.append(
                Edge(
                    end=end,
                    there=found.there,
                    ring=end in ringed,
                    wrap_to_edge=found.wrap_to_edge,
                    surveyed=found.surveyed,
                    says=found.says,
                )
            )
    return tuple(edges)


def resolve_seam(written: DrumWritten, *, finder: PlaceFinder, where: str) -> Seam | None:
    """Return the wrap's overlap as an interval along."""
    seam = written.seam
    if seam is None:
        return None
    path = f"{where}.seam"
    sides = seam.from_ is not None and seam.to is not None
    middle = seam.along is not None and seam.overlap is not None
    if sides == middle or (sides and (seam.along or seam.overlap)):
        raise BadInput(
            "where is the seam?",
            where=path,
            wanted='from = "350 deg", to = "354 deg", or along = "352 deg", overlap = "12 mm"',
        )
    if seam.from_ is not None and seam.to is not None:
        from_deg = finder.find(seam.from_, where=f"{path}.from")
        to_deg = finder.find(seam.to, where=f"{path}.to")
    else:
        assert seam.along is not None
        assert seam.overlap is not None
        half = finder.off_deg(seam.overlap.mm / 2.0)
        middle_deg = finder.find(seam.along, where=f"{path}.along")
        from_deg, to_deg = (middle_deg - half) % 360.0, (middle_deg + half) % 360.0
    if (to_deg - from_deg) % 360.0 > 90.0:
        raise BadInput(
            "an overlap of more than a quarter of the way round",
            where=path,
            given=f"from {from_deg:.1f} to {to_deg:.1f} deg",
            wanted="from the left side to the right side",
        )
    return Seam(from_deg=from_deg, to_deg=to_deg)


def resolve_lines(
    written: DrumWritten, *, finder: PlaceFinder, heights: Heights, where: str
) -> tuple[PlySeam, ...]:
    """Return ply seams, cracks, ring joints and lifted plies as lines down the shell."""
    lines = []
    for index, line in enumerate(written.lines, 1):
        path = f"{where}.lines[{index}]"
        if line.kind != "ply seam" and (line.from_ is None or line.to is None):
            raise BadInput(
                f"from where to where does the {line.kind} run?",
                where=path,
                wanted='from = "0 mm", to = "60 mm", heights from the batter edge',
            )
        along_deg = finder.find(line.along, where=f"{path}.along")
        depth_mm = heights.depth().at_mm(along_deg)
        from_mm = line.from_.mm if line.from_ is not None else 0.0
        to_mm = line.to.mm if line.to is not None else depth_mm
        if not 0.0 <= from_mm < to_mm <= depth_mm:
            raise BadInput(
                "the line does not run down the shell",
                where=path,
                given=f"{from_mm:g} to {to_mm:g} mm",
                wanted=f"from and to within {round(depth_mm, 1):g} mm, to the larger",
            )
        lines.append(
            PlySeam(
                kind=line.kind,
                along_deg=along_deg,
                from_mm=from_mm,
                to_mm=to_mm,
                says=line.says,
            )
        )
    return tuple(lines)


def resolve_beds(written: DrumWritten, *, finder: PlaceFinder, where: str) -> tuple[Bed, ...]:
    """Return the snare beds on the resonant edge."""
    for index, bed in enumerate(written.beds, 1):
        if bed.flat is not None and (bed.wide is None or bed.flat.mm > bed.wide.mm):
            raise BadInput(
                "the flat is not a part of how wide the bed is",
                where=f"{where}.beds[{index}].flat",
                given=bed.flat.as_written,
                wanted='wide, ramps included, and flat within it: wide = "80 mm", flat = "40 mm"',
            )
    return tuple(
        Bed(
            along_deg=finder.find(bed.along, where=f"{where}.beds[{index}].along"),
            wide_mm=bed.wide.mm if bed.wide else 0.0,
            deep_mm=bed.deep.mm if bed.deep else 0.0,
            flat_mm=bed.flat.mm if bed.flat else 0.0,
        )
        for index, bed in enumerate(written.beds, 1)
    )
