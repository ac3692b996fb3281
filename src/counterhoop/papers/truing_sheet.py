"""The truing sheet: what to take off each edge where, what that moves, and how it is done."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, Literal

from counterhoop.development.flat import End
from counterhoop.papers.cautions import DEFER, cautions_for
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.drawing.truing_strip import draw_cut, says_cut
from counterhoop.papers.facts import Lengths, block_of, foot_facts, sheet_for
from counterhoop.papers.order_of_work import needs_of
from counterhoop.papers.printable import set_readable
from counterhoop.papers.svg import to_svg
from counterhoop.papers.truing_edges import bed_parts, section_parts
from counterhoop.papers.truing_heights import depth_line, moved_lines
from counterhoop.quantities.length import MM_PER_INCH
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.budget import Budget
from counterhoop.scheme.findings.read_once import cut_away
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping.sizes import marked_down_mm
from counterhoop.shell.drum import Material
from counterhoop.shell.job import Job
from counterhoop.survey.truing_plan import EdgeCut, TruingPlan

TICK_MM = 10.0
"""A tick inside stands this far from the new edge: clear of every cut of the trade."""
FINEST_MM = 0.05
"""A feeler's step: what comes off is printed no finer."""
IN_A_LINE = 8
BULK_MM = 1.0
"""From here on the bulk comes off before the plate is used (common practice, no source)."""


def truing_sheet_pdf(
    job: Job, scheme: Scheme, plan: TruingPlan, *, budgets: Sequence[Budget] = (),
    paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the truing sheet of a drum whose edges are trued by their readings.

    Parameters
    ----------
    job : Job
        Whose rules, units and names are printed.
    scheme : Scheme
        Planned with that truing: heights after it are the scheme's own. DRAFT stands across the
        sheet unless it carries a recorded approval.
    plan : TruingPlan
        What comes off at each station.
    budgets : sequence of Budget
        Of the drum as found, before the first stroke.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    data, images = truing_data(job, scheme, plan, budgets=budgets, paper=paper)
    title = f"Truing sheet, {scheme.drum}"
    return set_readable("truing_sheet", data, title=title, images=images)


def truing_data(
    job: Job, scheme: Scheme, plan: TruingPlan, *, budgets: Sequence[Budget] = (),
    paper: str = "A4",
) -> tuple[dict[str, Any], dict[str, str]]:  # fmt: skip
    """Return what the truing sheet says, as plain data, and its drawings by name."""
    sheet, say, drum = sheet_for(paper), Lengths(job.units), scheme.layout.drum
    cuts = [cut for cut in (plan.batter, plan.resonant) if cut is not None]
    wood = drum.material is Material.WOOD
    sections, drawn = section_parts(drum, [cut.end for cut in cuts], say=say)
    # Beds that go with an offcut have nothing to do with truing the other edge.
    has_beds = bool(drum.beds) and not cut_away(scheme.layout, "resonant")
    beds, more = (
        bed_parts(drum, truing=scheme.layout.truing, rules=job.rules, say=say)
        if has_beds
        else ([], {})
    )
    strips = {cut.end: _strip(cut, scheme) for cut in cuts}
    images = {f"cut-{end}": _svg(strip, end) for end, strip in strips.items()} | drawn | more
    needs = needs_of(scheme)
    keys = ("edge", "bed") if has_beds else ("edge",)
    warned = dict.fromkeys(c for key in keys for c in cautions_for(key, needs=needs))
    sources = list(dict.fromkeys(c.source for c in warned))
    return {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "draft": scheme.draft,
        "facts": foot_facts(job, what="truing sheet", drum=scheme.drum),
        "block": block_of(job, scheme, what="truing sheet"),
        "other-material": ""
        if wood
        else f"This shell is {drum.material}: how to take off is for wood and left out.",
        "chosen": _chosen(plan),
        "edges": [_edge(cut, scheme, strips[cut.end], units=job.units) for cut in cuts],
        "depth": depth_line(scheme.layout, say=say),
        "moved": moved_lines(scheme.layout, ends=[cut.end for cut in cuts], say=say),
        "budgets": [_budget(b, plan, scheme.layout, say=say) for b in budgets],
        "steps": _steps(cuts, flat_mm=job.rules.flat_mm, beds=has_beds) if wood else [],
        "sections": sections if wood else [],
        "beds": beds if wood else [],
        "cautions": [{"says": c.says, "source": sources.index(c.source) + 1} for c in warned],
        "sources": sources,
        "defer": DEFER,
    }, images  # fmt: skip


def finest_mm(cut: EdgeCut) -> float:
    """Return the step that what comes off is printed to: the instrument's, or a feeler's."""
    return max(FINEST_MM, cut.resolution_mm)


def _strip(cut: EdgeCut, scheme: Scheme) -> Drawing:
    layout = scheme.layout
    lugs = {
        f"lug {number}": lug.place.along_deg
        for head in heads_of(layout)
        if head.head == cut.end
        for number, lug in enumerate(head.lugs, 1)
    }
    return draw_cut(
        cut, surface=layout.flat.surface, resolution_mm=finest_mm(cut),
        lugs=lugs.items(),
    )  # fmt: skip


def _svg(drawing: Drawing, end: End) -> str:
    return to_svg(drawing, palette=PRINT, ident=f"{end}-")


def _chosen(plan: TruingPlan) -> str:
    least = (
        "the most at any station is as little as it can be"
        if plan.least == "most"
        else "as little wood as can be comes off all round"
    )
    ends = "; the edges end parallel" if plan.parallel else ""
    return f"The planes are chosen so that nothing is added and {least}{ends}."


def _edge(
    cut: EdgeCut, scheme: Scheme, strip: Drawing, *, units: Literal["mm", "in"]
) -> dict[str, Any]:
    step = finest_mm(cut)
    surface = scheme.layout.flat.surface
    plate = _on_plate(cut)
    stations = [
        {
            "number": str(number),
            "along": print_mm(surface.along_mm(along % 360.0), with_unit=False),
            # Feelers in inches are marked in thousandths.
            "off-in": f"{off / float(MM_PER_INCH):.3f}".removeprefix("0"),
            "off": print_mm(off, resolution_mm=step, with_unit=False),
            "tick": print_mm(
                TICK_MM + (0.0 - cut.plane.at_mm(along) if plate else off),
                resolution_mm=CALIPER_MM,
                with_unit=False,
            ),
        }
        for number, (along, off) in enumerate(zip(cut.along_deg, cut.removal_mm, strict=True), 1)
    ]
    return {
        "name": f"{cut.end.capitalize()} edge",
        "image": f"cut-{cut.end}",
        "alt": strip.says,
        "wide": strip.width_mm * strip.scale,
        "inches": units == "in",
        "says": says_cut(cut, resolution_mm=step),
        "tick": "tick above plate" if plate else "tick below edge",
        "lines": [stations[n : n + IN_A_LINE] for n in range(0, len(stations), IN_A_LINE)],
        "in-a-line": min(IN_A_LINE, len(stations)),
    }


def _on_plate(cut: EdgeCut) -> bool:
    """Whether the heights were read from a plate that the edge stood on: none is above it."""
    heights = (
        cut.plane.at_mm(along) + above
        for along, above in zip(cut.along_deg, cut.plane.deviations_mm, strict=True)
    )
    return max(heights) < FINEST_MM / 2.0


def _planned(end: End, plan: TruingPlan, layout: Layout, *, say: Lengths) -> str:
    """The most that comes off an edge: by its readings, or the plain length that was asked for."""
    cut = plan.batter if end == "batter" else plan.resonant
    if cut is not None:
        return say.length(cut.most_mm, resolution_mm=finest_mm(cut))
    off = layout.truing.batter if end == "batter" else layout.truing.resonant
    if cut_away(layout, end):
        return "cut off"
    return say.length(off.mean_mm, resolution_mm=CALIPER_MM) if off.mean_mm > 0.0 else "nothing"


def _budget(found: Budget, plan: TruingPlan, layout: Layout, *, say: Lengths) -> dict[str, str]:

    def least(mm: float) -> str:
        """Down to the last mark of a rule: nobody is told of wood that a limit does not leave."""
        return say.length(marked_down_mm(mm))

    then = [f"{what} at {least(mm)}" for what, mm in found.limits if what != found.stopped_by]
    past = [f"past its limit already: {'; '.join(found.already)}"] if found.already else []
    return {
        "edge": found.end,
        "planned": _planned(found.end, plan, layout, say=say),
        "could": least(found.most_mm),
        "stopped": found.stopped_by,
        "then": "; ".join([*then[:2], *past]),
        "unknown": found.not_counted,
    }


def _steps(cuts: Sequence[EdgeCut], *, flat_mm: float, beds: bool) -> list[str]:
    """How it is done: common practice, no source."""
    most = max((cut.most_mm for cut in cuts), default=0.0)
    flat = print_mm(flat_mm, resolution_mm=FINEST_MM)
    steps = [
        "Plate: thick float glass or a stone slab, larger than the drum; a straight edge across it"
        " passes no feeler. Abrasive glued down flat: 80 grit, then 150.",
        " ".join(dict.fromkeys(_ticks(cut) for cut in cuts)),
    ]
    if most > BULK_MM:
        steps.append(
            f"More than {BULK_MM:g} mm: bring the high side down first, coarse abrasive on a long"
            " flat block laid across both walls, to half a millimetre short of the ticks."
        )
    return [
        *steps,
        "Pencil the whole edge, all round. Turn the shell on the abrasive in small circles, flat"
        " down, an eighth of a turn on after every few; lean a hand where the strip is high.",
        "Where pencil is left, the edge has not touched yet. Pencil again and go on until it goes"
        " everywhere at once.",
        "Every few turns dust off and stand the shell on the clean plate. Done when a feeler of"
        f" {flat} goes in nowhere and every tick stands {TICK_MM:.0f} mm above the plate."
        " Stop there: wood does not go back on.",
        "Then the profile, with guide and guard, in shallow passes. Never freehand."
        + (" Beds last, on the trued edge." if beds else ""),
    ]


def _ticks(cut: EdgeCut) -> str:
    """How the lines to stop at are pencilled."""
    if not _on_plate(cut):
        return (
            f"{cut.end.capitalize()} edge: inside, on the bare wood, pencil a fine tick at each"
            " station, as far below the edge as it is printed."
        )
    said = (
        "Stand the shell on the clean plate so that the same gaps show as were read. Inside, on the"
        " bare wood, pencil a fine tick at each station at the height above the plate that is"
        " printed"
    )
    level = math.hypot(cut.plane.cos_mm, cut.plane.sin_mm) < FINEST_MM
    return said + (": a pencil laid on a block draws it." if level else ".")
