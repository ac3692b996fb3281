"""The identity sheet of a drum: what it is, how to know it again, is it all of one piece."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.manner import AS_FOUND
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.drawing.shell_flat import draw_view, fitting_scale
from counterhoop.papers.drawing.view import view_as_found
from counterhoop.papers.facts import Fact, Lengths, count, foot_facts, holes_said, sheet_for
from counterhoop.papers.facts import labels as places_said
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.day import say_day
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.shell.drum import Drum, PlacedFitting
from counterhoop.shell.hole import Condition, Hole, Origin
from counterhoop.shell.job import Job

PICTURE_HIGH_MM = 92.0
SAID_OF_ORIGIN = {
    Origin.FACTORY: "from the factory",
    Origin.EXTRA: "added later",
    Origin.NOT_SURE: "not sure",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSaid:
    """What is said of one part: original, of the period, later, earlier or can't tell, and why."""

    part: str
    seen: str
    word: str
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Identity:
    """What is known of a drum beside its survey.

    Attributes
    ----------
    marks : tuple of (str, str)
        What it can be known again by: ("serial number", "61 482"), ("stamp inside", ..).
    condition : tuple of str
        Facts that can be measured and photographed, not a letter.
    dated : tuple of str
        When it was made, in sentences: the span first, then what carries it and what conflicts.
    parts : tuple of PartSaid
        Part by part.
    photographs : tuple of str
        What they show, in their order in the folder.
    """

    marks: tuple[Fact, ...] = ()
    condition: tuple[str, ...] = ()
    dated: tuple[str, ...] = ()
    parts: tuple[PartSaid, ...] = ()
    photographs: tuple[str, ...] = ()


def identity_sheet_pdf(
    job: Job, drum: Drum, *, known: Identity | None = None, book: Book | None = None,
    paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the identity sheet of a drum as found.

    Parameters
    ----------
    job : Job
        Whose drum it is, who measured it and when.
    drum : Drum
        As found.
    known : Identity, optional
        Marks, condition, dating and photographs.
    book : Book, optional
        For the bases of its fittings.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    picture = _picture(drum, book=book, wide_mm=sheet.short_mm - 2 * MARGIN_MM)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="identity sheet", drum=drum.key),
        "picture": {
            "name": "shell",
            "alt": f"{picture.title}. {picture.says}",
            "wide": picture.width_mm * picture.scale,
        },
        **identity_data(job, drum, known=known or Identity()),
    }
    images = {"shell": to_svg(picture, palette=PRINT, ident="shell-")}
    return set_readable(
        "identity_sheet", data, title=f"Identity sheet, {drum.key}", images=images
    )  # fmt: skip


def identity_data(job: Job, drum: Drum, *, known: Identity) -> dict[str, Any]:
    """Return what the sheet says, as plain data."""
    say = Lengths(job.units)
    return {
        "says": drum.says,
        "block": [cell for cell in _block(job, drum, say=say) if cell[1]],
        "marks": [*known.marks, *_marks(drum, say=say)],
        "hangs": _hangs(drum),
        "gone": _gone(drum),
        "dated": list(known.dated),
        "parts": [
            {"part": one.part, "seen": one.seen, "word": one.word, "why": one.why}
            for one in known.parts
        ],
        "condition": list(known.condition),
        "photographs": list(known.photographs),
    }


def _picture(drum: Drum, *, book: Book | None, wide_mm: float) -> Drawing:
    """Draw the shell as found to fill the width, lower where it would take too much of the page."""
    view = view_as_found(drum, book=book)
    plain = replace(AS_FOUND, numbers=False, notes=False)
    scale = fitting_scale(view, manner=plain, wide_mm=wide_mm)
    title = f"{drum.key} as found: the shell laid flat"
    drawn = draw_view(view, manner=replace(plain, scale=scale), title=title, legend=False)
    while drawn.height_mm * drawn.scale > PICTURE_HIGH_MM and scale > 0.02:
        scale *= 0.95
        drawn = draw_view(view, manner=replace(plain, scale=scale), title=title, legend=False)
    return drawn


def _block(job: Job, drum: Drum, *, say: Lengths) -> tuple[Fact, ...]:
    finish = drum.finish.says or drum.finish.kind
    return (
        ("job", f"{job.number}, {job.client}" if job.client else job.number),
        ("belongs to", job.owner or job.client),
        ("drum", drum.key),
        ("kind", drum.kind.value),
        ("called", drum.size_as_written),
        ("shell", drum.material.value + (f", {drum.plies} plies" if drum.plies else "")),
        ("once round", f"{say.length(drum.circumference.mean_mm)}, {drum.circumference.skin}"),
        ("depth", say.length(drum.depth_read_mm)),
        ("wall", say.length(drum.wall_mm, resolution_mm=CALIPER_MM)),
        ("finish", finish),
        ("measured by", job.measured_by or NOT_WRITTEN),
        ("date", say_day(job.date) or NOT_WRITTEN),
    )


def _marks(drum: Drum, *, say: Lengths) -> Iterator[Fact]:
    """Yield what the survey shows that another drum of the sort would not have."""
    extra = [hole for hole in drum.holes if hole.origin is Origin.EXTRA]
    if extra:
        yield "extra holes", _holes_at(extra, say=say)
    for condition in (Condition.BROKEN_OUT, Condition.DOWEL, Condition.FACE_GRAIN):
        if found := [hole for hole in drum.holes if hole.condition is condition]:
            yield condition.value, _holes_at(found, say=say)
    for mark in drum.marks:
        of = f" of {mark.of}" if mark.of else ""
        yield f"{mark.kind}{of}", _at(mark.place.along_deg, mark.place.down_mm, say=say)
    for line in drum.lines:
        if line.kind in ("crack", "lifted ply"):
            span = f"{say.length(line.from_mm)} to {say.length(line.to_mm)} down"
            yield line.kind, f"{line.along_deg:.0f}° along, {span}"


def _holes_at(holes: list[Hole], *, say: Lengths) -> str:
    """Say where holes are: a few one by one, many by their numbers."""
    if len(holes) > 4:
        return f"{count(len(holes), 'hole')}, {holes_said(hole.number for hole in holes)}"
    return "; ".join(
        f"hole {hole.number} at {_at(hole.place.along_deg, hole.place.down_mm, say=say)}"
        for hole in holes
    )


def _at(along_deg: float, down_mm: float, *, say: Lengths) -> str:
    return f"{along_deg:.0f}° along, {say.length(down_mm)} down"


def _hangs(drum: Drum) -> list[dict[str, Any]]:
    """Return what hangs on it, alike pieces in one row; what is gone does not hang there."""
    rows: dict[tuple[str, str], list[PlacedFitting]] = {}
    for placed in drum.everything:
        if not placed.missing:
            state = SAID_OF_ORIGIN[placed.origin]
            rows.setdefault((placed.fitting, state), []).append(placed)
    hoops = {row.head: row.hoop for row in drum.rows if row.hoop} | dict(drum.hoops)
    alike: dict[str, list[str]] = {}
    for head, name in hoops.items():
        alike.setdefault(name, []).append(f"{head} head")
    return [
        *(
            {"count": len(heads), "what": name, "where": places_said(heads), "state": ""}
            for name, heads in alike.items()
        ),
        *(
            {
                "count": len(found),
                "what": name,
                "where": places_said([placed.label for placed in found]),
                "state": state,
            }
            for (name, state), found in rows.items()
        ),
    ]


def _gone(drum: Drum) -> list[str]:
    """Return what is gone, alike pieces in one line with where their holes or shadows are."""
    rows: dict[str, list[str]] = {}
    for placed in drum.everything:
        if placed.missing:
            rows.setdefault(placed.fitting, []).append(placed.label)
    return [f"{len(labels)} {name} ({places_said(labels)})" for name, labels in rows.items()]
