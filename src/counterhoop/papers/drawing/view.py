"""What is to be drawn, whether it comes from a scheme or from the drum as found."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from counterhoop.development.flat import Development
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.around import between_edges
from counterhoop.quantities.print_length import TAPE_MM
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Bed, Drum, Mark, PlySeam, Seam
from counterhoop.shell.hole import Condition

Points: TypeAlias = tuple[tuple[float, float], ...]
LEAST_SWING_MM = 0.05
"""An edge that swings by less is drawn straight: no pencil line shows it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Everything on one shell laid flat, in one geometry; heights already moved to it."""

    flat: Development
    holes: tuple[HolePlan, ...] = ()
    fittings: tuple[FittingPlan, ...] = ()
    marks: tuple[Mark, ...] = ()
    seam: Seam | None = None
    lines: tuple[PlySeam, ...] = ()
    beds: tuple[Bed, ...] = ()
    inside: tuple[tuple[str, Place, Outline], ...] = ()
    key: str = ""

    def x_mm(self, along_deg: float) -> float:
        """Along of an angle, in [0, C)."""
        return self.flat.surface.along_mm(along_deg)

    @property
    def around_mm(self) -> float:
        """Once round."""
        return self.flat.surface.circumference_mm

    @property
    def slants(self) -> bool:
        """Whether the edges are so far from parallel that a line on paper shows it."""
        return self.flat.swings_mm()[1] > LEAST_SWING_MM

    def depth_at_mm(self, x_mm: float) -> float:
        """Where the resonant edge is drawn at one place along, on any turn."""
        if not self.slants:
            return self.flat.depth_mm
        return self.flat.depth_at_mm(x_mm * 360.0 / self.around_mm)

    def depths_mm(self, *, from_mm: float = 0.0, to_mm: float | None = None) -> tuple[float, float]:
        """Highest and lowest place of the resonant edge over a stretch; once round by default."""
        if not self.slants:
            return (self.flat.depth_mm, self.flat.depth_mm)
        end_mm = self.around_mm if to_mm is None else to_mm
        return self.flat.depths_mm(
            from_deg=from_mm * 360.0 / self.around_mm, to_deg=end_mm * 360.0 / self.around_mm
        )


# While a row is dragged, the outlines of all others lie where they lay.
@lru_cache(maxsize=1024)
def laid(outline: Outline, x_mm: float, down_mm: float) -> Points:
    """Corners of an outline where it lies."""
    return outline.moved(x_mm, down_mm).points


@lru_cache(maxsize=1024)
def laid_on_shell(outline: Outline, x_mm: float, down_mm: float, *, flat: Development) -> Points:
    """Corners of what of an outline lies on the shell; none where all of it was sawn off."""
    depth_at_mm = View(flat=flat).depth_at_mm
    return between_edges(laid(outline, x_mm, down_mm), depth_at_mm=depth_at_mm)


def between_said(least_mm: float, most_mm: float, *, say: Callable[[float], str]) -> str:
    """Say from where to where a length goes, or one figure where a rule sees no difference."""
    if most_mm - least_mm < TAPE_MM:
        return say((least_mm + most_mm) / 2.0)
    return f"{say(least_mm)} to {say(most_mm)}"


def view_of_layout(layout: Layout) -> View:
    """The shell as a scheme leaves it."""
    drum, truing = layout.drum, layout.truing
    lines = tuple(
        PlySeam(
            kind=line.kind,
            along_deg=line.along_deg,
            from_mm=max(0.0, line.from_mm - truing.batter.at_mm(line.along_deg)),
            to_mm=min(
                layout.flat.depth_at_mm(line.along_deg),
                line.to_mm - truing.batter.at_mm(line.along_deg),
            ),
            says=line.says,
        )
        for line in drum.lines
    )
    new_skin = layout.finish.kind == "new wrap"
    return View(
        flat=layout.flat,
        holes=layout.holes,
        fittings=layout.fittings,
        marks=layout.marks,
        seam=None if new_skin else drum.seam,
        lines=tuple(line for line in lines if line.to_mm > line.from_mm),
        beds=drum.beds,
        inside=tuple((i.what, truing.moved(i.place), i.outline) for i in drum.inside),
        key=drum.key,
    )


def view_as_found(drum: Drum, *, book: Book | None = None) -> View:
    """The shell as the survey says it is; bases only of fittings that the book knows."""
    skin = drum.circumference.skin
    finish = drum.finish.thickness_mm if skin is not Skin.BARE else 0.0
    known = {entry.name.casefold(): entry for entry in book} if book else {}
    rows = {id(lug): row for row in drum.rows for lug in row.lugs}
    fittings = []
    for placed in drum.everything:
        entry = known.get(placed.fitting.casefold())
        if entry is None:
            continue
        row = rows.get(id(placed))
        fittings.append(
            FittingPlan(
                label=placed.label,
                fitting=entry,
                place=placed.place,
                turned_deg=placed.turned_deg,
                status="goes" if placed.missing else "stays",
                row="both" if len(entry.serves) > 1 else row.head if row else "",
                holes=placed.holes,
            )
        )
    return View(
        flat=Development(
            surface=Surface(skin=skin, circumference_mm=drum.circumference.mean_mm),
            depth_mm=drum.depth_mm,
            wall_mm=drum.wall_mm + finish,
            rings=drum.rings,
            depth_cos_mm=drum.depth_cos_mm,
            depth_sin_mm=drum.depth_sin_mm,
        ),
        holes=tuple(
            HolePlan(
                number=hole.number,
                verdict=Verdict.PLUGGED_ALREADY
                if hole.condition in (Condition.DOWEL, Condition.FACE_GRAIN)
                else Verdict.LEAVE_OPEN,
                place=hole.place,
                old=hole.shape,
                new=hole.shape,
                serves=hole.purpose,
                origin=hole.origin,
            )
            for hole in drum.holes
        ),
        fittings=tuple(fittings),
        marks=drum.marks,
        seam=drum.seam,
        lines=drum.lines,
        beds=drum.beds,
        inside=tuple((i.what, i.place, i.outline) for i in drum.inside),
        key=drum.key,
    )
