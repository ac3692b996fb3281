"""The wrap list: what to cut from which sheet, where seams go, when glue is ready."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from counterhoop.papers.cautions import DEFER, Caution, cautions_for
from counterhoop.papers.drawing.cut_plan import Cut, sheet_drawing
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.facts import Lengths, facts_of, foot_facts, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM, PaperSize
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.wrapping import DrumWrap, PieceToCut, SeamAdvice, WrapPlan
from counterhoop.scheme.wrapping.words import grows_say, sheets_say, would_do_say
from counterhoop.shell.job import Job
from counterhoop.wrap.nesting import Placed

HIGHEST_MM = 72.0
"""A sheet is drawn no higher on paper: two stand under a list of usual length."""

OVERLAP_TAKES = "the overlap takes up a millimetre or two, no more."
BUTT_TAKES = (
    "a butt seam takes up nothing: leave a few millimetres over, bend the wrap round dry and trim"
    " the end to meet."
)
"""Common practice, no source."""


def wrap_list_pdf(job: Job, plan: WrapPlan, *, paper: str = "A4") -> bytes:
    """Set the list for one sort of wrap.

    Parameters
    ----------
    job : Job
        Whose names, units and money are printed.
    plan : WrapPlan
        What is cut, glued and where.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    return set_readable(
        "wrap_list",
        wrap_data(job, plan, paper=paper),
        title=f"Wrap list, {plan.stock.name}",
        images=_images(plan, on=sheet),
    )


def wrap_data(job: Job, plan: WrapPlan, *, paper: str = "A4") -> dict[str, Any]:
    """Return what the wrap list says, as plain data."""
    sheet, say, facts, stock = sheet_for(paper), Lengths(job.units), facts_of(job), plan.stock
    return {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what=f"wrap list, {stock.name}"),
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("wrap", stock.name),
            ("thick, with its glue", print_mm(stock.thickness_mm, resolution_mm=CALIPER_MM)),
            ("new sheet", _size(stock.length_mm, stock.width_mm)),
            ("overlap", print_mm(stock.overlap_mm) if stock.overlap_mm else "none: butt seam"),
            ("lost at a cut", print_mm(stock.kerf_mm) if stock.kerf_mm else "nothing: knife"),
            ("glue", stock.glue),
            ("date", facts.date or NOT_WRITTEN),
            ("measured by", facts.measured_by or NOT_WRITTEN),
            ("shop rules", facts.rules_version),
        ),
        "says": sheets_say(plan, currency=job.figures.currency),
        "pieces": [
            _piece(number, piece, put, plan=plan, say=say)
            for number, (piece, put) in enumerate(
                zip(plan.pieces, plan.nesting.placed, strict=True), 1
            )
        ],
        "takes-up": OVERLAP_TAKES if stock.overlap_mm else BUTT_TAKES,
        "sheets": [_sheet(number, plan) for number in range(len(plan.nesting.sheets))],
        "left": [
            _left(letter, put, plan=plan)
            for letter, put in zip(_letters(plan), plan.nesting.left, strict=True)
        ],
        "stock": would_do_say(plan),
        "drums": [_drum(drum, plan=plan, say=say) for drum in plan.drums],
        "glue": [_glue(piece, plan) for piece in plan.pieces],
        "glue-notes": list(dict.fromkeys(note for p in plan.pieces for note in p.glue.notes)),
        "found": [{"drum": drum.drum, "old": drum.old_wrap} for drum in plan.drums],
        "cautions": [{"says": c.says, "source": c.source} for c in _cautions(plan)],
        "defer": DEFER,
    }


def _letters(plan: WrapPlan) -> list[str]:
    return [f"offcut {n}" for n in range(1, len(plan.nesting.left) + 1)]


def _size(length_mm: float, width_mm: float) -> str:
    sides = (print_mm(mm, with_unit=False) for mm in (length_mm, width_mm))
    return f"{' x '.join(sides)} mm"


def _piece(
    number: int, piece: PieceToCut, put: Placed, *, plan: WrapPlan, say: Lengths
) -> dict[str, Any]:
    return {
        "number": number,
        "name": piece.name,
        "length": say.cell(piece.length_mm),
        "width": say.cell(piece.width_mm),
        "sheet": plan.sheet_names[put.sheet],
        "end": say.cell(put.from_end_mm),
        "side": say.cell(put.from_side_mm),
        "lies": "across" if put.turned else "along",
    }


def _sheet(number: int, plan: WrapPlan) -> dict[str, Any]:
    sheet = plan.nesting.sheets[number]
    return {
        "name": plan.sheet_names[number],
        "size": _size(sheet.length_mm, sheet.width_mm),
        "image": f"sheet-{number}",
        "alt": _alt(number, plan),
    }


def _alt(number: int, plan: WrapPlan) -> str:
    """The layout of one sheet in words, for who cannot see the picture."""
    said = [
        f"{piece.name} from {print_mm(put.from_end_mm)} along and "
        f"{print_mm(put.from_side_mm)} across, {_size(put.along_mm, put.across_mm)}"
        for piece, put in zip(plan.pieces, plan.nesting.placed, strict=True)
        if put.sheet == number
    ]
    said += [
        f"{letter}, {_size(put.along_mm, put.across_mm)}, is kept"
        for letter, put in zip(_letters(plan), plan.nesting.left, strict=True)
        if put.sheet == number
    ]
    return f"{plan.sheet_names[number]}, to scale, pattern along it: {'; '.join(said)}."


def _left(letter: str, put: Placed, *, plan: WrapPlan) -> dict[str, Any]:
    size = _size(put.along_mm, put.across_mm)
    return {
        "name": letter,
        "sheet": plan.sheet_names[put.sheet],
        "write": f"{plan.stock.name}, {size}, pattern along the "
        f"{print_mm(put.along_mm, with_unit=False)}",
    }


def _drum(drum: DrumWrap, *, plan: WrapPlan, say: Lengths) -> dict[str, Any]:
    batter, resonant = (say.length(mm) for mm in drum.clear_mm)
    clear = f"{batter} clear of both edges"
    if batter != resonant:
        clear = f"{batter} clear of the batter edge and {resonant} of the resonant edge"
    return {
        "name": drum.drum,
        "lines": [
            f"Once round the bare wood {say.length(drum.bare_girth_mm)}; wrap {clear}.",
            grows_say(drum, thickness_mm=plan.stock.thickness_mm),
            *drum.fits,
            *drum.says,
        ],
        "seams": [_seam(seam, overlap_mm=drum.cut.overlap_mm, say=say) for seam in drum.seams],
    }


def _seam(seam: SeamAdvice, *, overlap_mm: float, say: Lengths) -> dict[str, Any]:
    def both(places: Sequence[float]) -> tuple[str, str]:
        cells = [say.cell(mm) for mm in places]
        return (" and ".join(c[0] for c in cells), " and ".join(c[1] for c in cells if c[1]))

    return {
        "middle": both(seam.along_mm),
        "line": both(seam.from_mm) if overlap_mm else None,
        "says": seam.says,
    }


def _glue(piece: PieceToCut, plan: WrapPlan) -> dict[str, Any]:
    glue = piece.glue
    drum = next(d for d in plan.drums if d.drum == piece.drum)
    return {
        "name": piece.name,
        "at": f"{drum.temperature_c:.0f} C",
        "area": f"{glue.area_m2:.2f} m²",
        "litres": f"{max(1, round(glue.litres * 100)) * 10} ml",
        "brush": print_minutes(glue.spreading_min),
        "open": print_minutes(glue.open_min),
        "spare": print_minutes(glue.spare_min) if glue.spare_min >= 0 else "none",
        "clamp": _hours(glue.clamp_hours),
        "trim": _hours(glue.trim_hours),
        "drill": _hours(glue.drill_hours),
    }


def _hours(hours: float) -> str:
    return f"{hours:.0f} h" if hours else "–"


def _cautions(plan: WrapPlan) -> list[Caution]:
    """What concerns old wrap coming off, cutting, gluing, and drilling what is glued on."""
    old = {"old wrap"} if any(drum.old_wrap for drum in plan.drums) else set()
    found = [
        *cautions_for("wrap off", needs=frozenset({"always", *old})),
        *cautions_for("wrap", needs=frozenset({"always", "new wrap"})),
        *cautions_for("drill", needs=frozenset({"wrapped"})),
    ]
    return list(dict.fromkeys(found))


def sheet_drawings(plan: WrapPlan, *, wide_mm: float, high_mm: float) -> tuple[Drawing, ...]:
    """Draw every sheet that is cut into, all to the scale at which the largest one fits.

    Parameters
    ----------
    wide_mm, high_mm : float
        What one may take on paper.
    """
    sheets = plan.nesting.sheets
    scale = min(
        wide_mm / (max(s.length_mm for s in sheets) + 10.0),
        high_mm / max(s.width_mm for s in sheets),
    )
    return tuple(
        sheet_drawing(
            sheet.length_mm,
            sheet.width_mm,
            _cuts(number, plan),
            scale=scale,
            title=plan.sheet_names[number],
            says=_alt(number, plan),
        )
        for number, sheet in enumerate(sheets)
    )


def _images(plan: WrapPlan, *, on: PaperSize) -> dict[str, str]:
    drawings = sheet_drawings(plan, wide_mm=on.short_mm - 2 * MARGIN_MM, high_mm=HIGHEST_MM)
    return {
        f"sheet-{number}": to_svg(drawing, palette=PRINT, ident=f"sheet-{number}-")
        for number, drawing in enumerate(drawings)
    }


def _cuts(number: int, plan: WrapPlan) -> list[Cut]:
    pieces = zip(plan.pieces, plan.nesting.placed, strict=True)
    cuts = [
        _cut(put, (str(place), piece.name, _size(put.along_mm, put.across_mm)))
        for place, (piece, put) in enumerate(pieces, 1)
        if put.sheet == number
    ]
    cuts += [
        _cut(put, (letter, _size(put.along_mm, put.across_mm)), left=True)
        for letter, put in zip(_letters(plan), plan.nesting.left, strict=True)
        if put.sheet == number
    ]
    return cuts


def _cut(put: Placed, lines: tuple[str, ...], *, left: bool = False) -> Cut:
    return Cut(
        x_mm=put.from_end_mm,
        y_mm=put.from_side_mm,
        along_mm=put.along_mm,
        across_mm=put.across_mm,
        lines=lines,
        left=left,
    )
