"""All new wraps of a job: what to cut for every drum, from which sheets, and how it goes on."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from counterhoop.errors import BadInput
from counterhoop.scheme.findings.read_once import cut_away, ends_with_a_head
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping.plan import DrumWrap, PieceToCut, WrapPlan
from counterhoop.scheme.wrapping.seams import seams_of
from counterhoop.scheme.wrapping.sizes import (
    bare_girths_mm,
    clear_of_edges_mm,
    cut_size_of,
    marked_down_mm,
    marked_up_mm,
)
from counterhoop.shell.job import Job
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wrap_stock import WrapStock
from counterhoop.survey.drum_fit import fit_of
from counterhoop.survey.head_words import VERBS, room_words
from counterhoop.wrap.cut_size import CutSize
from counterhoop.wrap.glue import USUAL_C, WARMEST_C, glue_called, gluing
from counterhoop.wrap.nest import nest
from counterhoop.wrap.nesting import Piece, Runs, Sheet
from counterhoop.wrap.obvious_order import goes_on, obvious_order

RUNS = {"along": Runs.ALONG, "across": Runs.ACROSS, "either": Runs.EITHER}


def wrap_plans(job: Job, schemes: Sequence[Scheme], *, rules: ShopRules) -> tuple[WrapPlan, ...]:
    """Plan every new wrap that names one of the job's wraps, one plan a wrap.

    Parameters
    ----------
    job : Job
        Whose wraps and order of drums are taken.
    schemes : sequence of Scheme
        The chosen scheme of each drum; a drum without one is left out.
    rules : ShopRules
        How far a seam keeps from what does not lie on it.

    Raises
    ------
    BadInput
        A wrap that the job has not got, a shell that it does not go round, too few sheets.
    """
    by_stock = wraps_wanted(job, schemes)
    return tuple(
        _plan(stock, [_drum(layout, stock, rules=rules) for layout in by_stock[stock.name]])
        for stock in job.wraps
        if stock.name in by_stock
    )


def wraps_wanted(job: Job, schemes: Sequence[Scheme]) -> dict[str, list[Layout]]:
    """Return which drums get each of the job's wraps, both in the order of the job.

    Raises
    ------
    BadInput
        A wrap that the job has not got.
    """
    order = {wanted.drum.key: place for place, wanted in enumerate(job.drums)}
    by_stock: dict[str, list[Layout]] = {stock.name: [] for stock in job.wraps}
    for scheme in sorted(schemes, key=lambda s: order.get(s.drum, len(order))):
        finish = scheme.layout.finish
        if finish.kind != "new wrap" or not finish.wrap:
            continue
        if finish.wrap not in by_stock:
            raise BadInput(
                "no wrap of that name in the job",
                where=f"drums.{scheme.drum}.finish_plan.wrap",
                given=finish.wrap,
                wanted=f"one of {', '.join(by_stock)}" if by_stock else "a table [wraps]",
            )
        by_stock[finish.wrap].append(scheme.layout)
    return {name: layouts for name, layouts in by_stock.items() if layouts}


def _plan(stock: WrapStock, drums: Sequence[DrumWrap]) -> WrapPlan:
    pieces = [
        Piece(
            name=piece.name,
            length_mm=piece.length_mm,
            width_mm=piece.width_mm,
            runs=RUNS[stock.runs],
        )
        for drum in drums
        for piece in drum.pieces
    ]
    sheet = _sheet("new sheet", stock.length_mm, stock.width_mm)
    offcuts = [_sheet(o.name, o.length_mm, o.width_mm) for o in stock.offcuts]
    try:
        nesting = nest(
            pieces, sheet=sheet, offcuts=offcuts, kerf_mm=stock.kerf_mm, most_sheets=stock.sheets
        )
    except BadInput as fault:
        raise fault.at(f"wraps.{stock.name}") from None
    return WrapPlan(
        stock=stock,
        drums=tuple(drums),
        nesting=nesting,
        obvious=obvious_order(pieces, sheet=sheet, offcuts=offcuts, kerf_mm=stock.kerf_mm),
        would_do=tuple(
            (offcut.name, tuple(p.name for p in pieces if goes_on(p, sheet=offcut)))
            for offcut in offcuts
        ),
    )


def _sheet(name: str, length_mm: float, width_mm: float) -> Sheet:
    """A sheet as a rule measures it, so that every place on it lies on a mark of the rule."""
    return Sheet(name=name, length_mm=marked_down_mm(length_mm), width_mm=marked_down_mm(width_mm))


def _drum(layout: Layout, stock: WrapStock, *, rules: ShopRules) -> DrumWrap:
    drum = layout.drum
    try:
        cut = cut_size_of(layout, stock)
    except BadInput as fault:
        raise fault.at(f"drums.{drum.key}") from None
    girths = bare_girths_mm(drum)
    bare = math.fsum(girths) / len(girths)
    clear = clear_of_edges_mm(layout, stock)
    seams, says = seams_of(
        layout, stock, cut=cut, from_down_mm=clear[0], bare_girth_mm=bare, rules=rules
    )
    temperature, cold = _temperature(layout, stock)
    return DrumWrap(
        drum=drum.key,
        bare_girth_mm=bare,
        cut=cut,
        clear_mm=clear,
        pieces=_pieces(drum.key, cut, stock=stock, temperature_c=temperature),
        seams=seams,
        says=(*says, *cold),
        temperature_c=temperature,
        fits=_fits(layout, stock, rules=rules),
        old_wrap=drum.finish.kind == "wrap",
    )


def _pieces(
    drum: str, cut: CutSize, *, stock: WrapStock, temperature_c: float
) -> tuple[PieceToCut, ...]:
    parts = ("whole",) if len(cut.lengths_mm) == 1 else ("long piece", "patch")
    width = marked_down_mm(cut.width_mm)
    return tuple(
        PieceToCut(
            drum=drum,
            part=part,
            length_mm=marked_up_mm(length),
            width_mm=width,
            glue=gluing(
                glue_called(stock.glue),
                length_mm=marked_up_mm(length),
                width_mm=width,
                pace_m2_per_min=1.0 / stock.brush_min_per_m2,
                laying_min=stock.lay_min,
                temperature_c=temperature_c,
            ),
        )
        for part, length in zip(parts, cut.lengths_mm, strict=True)
    )


def _temperature(layout: Layout, stock: WrapStock) -> tuple[float, tuple[str, ...]]:
    """The day's temperature where the glue can be used at it, else the usual one, and why."""
    air = layout.drum.readings.air
    if air is None:
        return USUAL_C, ()
    glue = glue_called(stock.glue)
    if glue.least_c <= air.temperature_c <= WARMEST_C:
        return air.temperature_c, ()
    return USUAL_C, (
        f"It was {air.temperature_c:.0f} C on the day of the survey; {glue.name} glue wants "
        f"{glue.least_c:.0f} to {WARMEST_C:.0f} C. Its times are for {USUAL_C:.0f} C.",
    )


def _fits(layout: Layout, stock: WrapStock, *, rules: ShopRules) -> tuple[str, ...]:
    """Whether each measured head goes over the new wrap, a sentence each."""
    finish = replace(layout.finish, thickness_mm=stock.thickness_mm)
    says: list[str] = []
    unread: list[str] = []
    for end in ends_with_a_head(layout):
        if cut_away(layout, end):
            continue
        found = fit_of(layout.drum, end, rules=rules, finish=finish)
        if found is None:
            unread.append(end)
            continue
        known = found.final.known
        how = "as it stands" if found.final.as_it_stands is not None else "eased round"
        close = " Too close to call: try it over a strip of this wrap." if known.too_close else ""
        says.append(
            f"Over the new wrap the {end} head {VERBS[known.fit]} {how}, "
            f"{room_words(known.clear_mm)}.{close}"
        )
    if unread:
        says.append(
            f"No {' or '.join(unread)} head was measured: try one over a strip of this wrap first."
        )
    return tuple(says)
