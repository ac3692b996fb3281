"""What the wrap command prints: what to cut from which sheet, and where seams go."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from counterhoop.cli.text import wrapped
from counterhoop.quantities.print_length import print_mm

if TYPE_CHECKING:
    from counterhoop.scheme.wrapping import DrumWrap, PieceToCut, WrapPlan
    from counterhoop.wrap.nesting import Placed


def wrap_text(plans: Sequence[WrapPlan], *, currency: str) -> str:
    """Say what each wrap is cut into, a line a piece, then each drum's seam, glue and heads."""
    from counterhoop.scheme.wrapping.words import grows_say, sheets_say, would_do_say

    lines: list[str] = []
    if not plans:
        return "No drum gets a new wrap that the survey file lists under wraps."
    for plan in plans:
        lines.append(f"{plan.stock.name}:")
        for said in sheets_say(plan, currency=currency):
            lines += wrapped(said, indent=2)
        lines.append("")
        for piece, put in zip(plan.pieces, plan.nesting.placed, strict=True):
            lines += wrapped(_piece(piece, put, plan), indent=2)
        for put in plan.nesting.left:
            lines += wrapped(
                f"keep {print_mm(put.along_mm, with_unit=False)} x {print_mm(put.across_mm)} "
                f"off {plan.sheet_names[put.sheet]}",
                indent=2,
            )
        for said in would_do_say(plan):
            lines += wrapped(f"in stock, {said}", indent=2)
        for drum in plan.drums:
            lines += ["", f"  {drum.drum}:"]
            says = [grows_say(drum, thickness_mm=plan.stock.thickness_mm), *drum.fits, *drum.says]
            for said in says:
                lines += wrapped(said, indent=4)
            lines += _seams(drum)
            lines += _glue(drum, glue=plan.stock.glue)
        lines.append("")
    return "\n".join(lines).rstrip()


def _piece(piece: PieceToCut, put: Placed, plan: WrapPlan) -> str:
    lies = "across" if put.turned else "along"
    return (
        f"{piece.name}: {print_mm(piece.length_mm, with_unit=False)} x {print_mm(piece.width_mm)},"
        f" {lies} {plan.sheet_names[put.sheet]}, {print_mm(put.from_end_mm)} from its end and"
        f" {print_mm(put.from_side_mm)} from its side"
    )


def _seams(drum: DrumWrap) -> list[str]:
    lines = []
    for rank, seam in enumerate(drum.seams):
        places = " and ".join(print_mm(mm) for mm in seam.along_mm)
        first = "seam at" if rank == 0 else "or at"
        lines += wrapped(f"{first} {places} on the bare skin. {seam.says}", indent=4)
    return lines


def _glue(drum: DrumWrap, *, glue: str) -> list[str]:
    slowest = max((piece.glue for piece in drum.pieces), key=lambda g: g.drill_hours)
    litres = sum(piece.glue.litres for piece in drum.pieces)
    lines = wrapped(
        f"{glue} glue, {max(1, round(litres * 100)) * 10} ml; trim after"
        f" {slowest.trim_hours:.0f} h, drill after {slowest.drill_hours:.0f} h at"
        f" {drum.temperature_c:.0f} C",
        indent=4,
    )
    for note in dict.fromkeys(note for p in drum.pieces for note in p.glue.notes):
        lines += wrapped(note, indent=4)
    return lines
