"""The hole list: every hole, where it is, how big, what happens to it, done."""

from __future__ import annotations

from collections import Counter
from typing import Any

from counterhoop.development.shape import Round
from counterhoop.papers.drawing.legend import lay_out
from counterhoop.papers.drawing.manner import WORKING
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing, Text
from counterhoop.papers.facts import (
    Lengths,
    block_of,
    count,
    foot_facts,
    holes_said,
    listed,
    sheet_for,
)
from counterhoop.papers.printable import set_readable
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.angle import print_deg
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Condition, Hole
from counterhoop.shell.job import Job

TOGETHER_MM = 6.0
"""Holes no further apart along than this stand in one group of the list."""

WIDER_MM = 0.05
"""Less than this is the same size, as a caliper shows it."""


def hole_list_pdf(job: Job, scheme: Scheme, *, paper: str = "A4") -> bytes:
    """Set the hole list of a scheme, sorted along and then down.

    Places are printed as a tape shows them (0.5 mm), sizes as a caliper does (0.1 mm); the
    template carries the exact places.

    Parameters
    ----------
    job : Job
        Whose units and names are printed.
    scheme : Scheme
        DRAFT stands across the list unless it carries a recorded approval.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    verdicts = sorted({plan.verdict for plan in scheme.layout.holes})
    data = {
        "wide": sheet.long_mm,
        "high": sheet.short_mm,
        "draft": scheme.draft,
        "facts": foot_facts(job, what="hole list", drum=scheme.drum),
        "block": block_of(job, scheme, what="hole list"),
        "rows": hole_rows(job, scheme),
        "counts": count_line(scheme),
    }
    images = {mark_name(verdict): mark_svg(verdict) for verdict in verdicts}
    return set_readable("hole_list", data, title=f"Hole list, {scheme.drum}", images=images)


def hole_rows(job: Job, scheme: Scheme) -> list[dict[str, Any]]:
    """Return the lines of the list as plain data, in their order."""
    flat, drum = scheme.layout.flat, scheme.layout.drum
    say = Lengths(job.units)
    found = {hole.number: hole for hole in drum.holes}
    order = sorted(scheme.layout.holes, key=lambda p: (*_at(p), p.number))
    rows: list[dict[str, Any]] = []
    before = None
    for plan in order:
        along_deg, down_mm = _at(plan)
        along_mm = flat.surface.along_mm(along_deg)
        other_mm = flat.from_end_mm(down_mm, end="resonant", along_deg=along_deg)
        rows.append(
            {
                "number": plan.number,
                "group": before is None or along_mm - before > TOGETHER_MM,
                "deg": _degrees(along_deg),
                "along": say.cell(along_mm),
                "batter": say.cell(down_mm),
                "resonant": say.cell(other_mm),
                "now": say.size(plan.old),
                "after": _after(plan, say=say),
                "made": made_by(plan, found.get(plan.number)),
                "verdict": plan.verdict.value,
                "mark": mark_name(plan.verdict),
                "serves": serves_words(plan, found.get(plan.number)),
                "notes": notes_on(plan, drum, say=say, along=flat.surface.apart_mm),
            }
        )
        before = along_mm
    return rows


def count_line(scheme: Scheme) -> str:
    """Say how many holes there are, and how many of each verdict.

    The sum of the verdicts is the number of lines of the list.
    """
    found = Counter(plan.verdict for plan in scheme.layout.holes)
    each = [f"{found[verdict]} {verdict.value}" for verdict in Verdict if found[verdict]]
    total = sum(found.values())
    return f"{count(total, 'hole')}: {listed(each)}." if total else "No holes."


def made_by(plan: HolePlan, found: Hole | None) -> str:
    """Say factory, extra or not sure, and on whose word."""
    if found is None:
        return str(plan.origin) if plan.origin else "new"
    return f"{found.origin}: {found.who_says}" if found.who_says else str(found.origin)


def notes_on(plan: HolePlan, drum: Drum, *, say: Lengths, along: Any) -> list[str]:
    """Return what else the bench must know of a hole: plugs, washers, shifts, what covers it."""
    notes = []
    closed = plan.verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
    old_mm = max(plan.old.size_mm) if plan.old is not None else 0.0
    if closed and plan.plug_mm is not None and plan.plug_mm > old_mm + WIDER_MM:
        notes.append("plug wider than the hole")
    if plan.plug_place is not None:
        right = along(plan.place.along_deg, plan.plug_place.along_deg)
        down = plan.plug_place.down_mm - plan.place.down_mm
        shift = _shift(right, down, say=say)
        if shift:
            notes.append(f"plug's middle {shift}")
    if plan.verdict.drills and plan.through:
        notes.append(f"first plug {holes_said(plan.through)}")
    if plan.new_place is not None:
        right = along(plan.place.along_deg, plan.new_place.along_deg)
        shift = _shift(right, plan.new_place.down_mm - plan.place.down_mm, say=say)
        if shift:
            notes.append(f"opening's middle {shift} of the old one's")
    if plan.backing_washer_mm is not None:
        notes.append(f"washer inside, {say.diameter(plan.backing_washer_mm)} or more")
    if closed and not plan.covered:
        notes.append("bare plug")
    state = _state(plan, drum)
    return [*notes, state] if state else notes


def mark_name(verdict: Verdict) -> str:
    """Name of the picture of a verdict's mark."""
    return "mark-" + verdict.value.replace(" ", "-")


def mark_svg(verdict: Verdict) -> str:
    """Draw the drafting mark of a verdict alone, in black."""
    strokes = lay_out([("", verdict)], x_mm=0.0, y_mm=0.0, wide_mm=60.0, manner=WORKING)
    marks = tuple(stroke for stroke in strokes if not isinstance(stroke, Text))
    box = Drawing(
        left_mm=0.0, top_mm=1.2, width_mm=9.5, height_mm=9.0, strokes=marks, title=verdict.value
    )
    return to_svg(box, palette=PRINT)


def _at(plan: HolePlan) -> tuple[float, float]:
    place = plan.new_place or plan.place
    return place.along_deg, place.down_mm


def _after(plan: HolePlan, *, say: Lengths) -> tuple[str, str]:
    if plan.verdict is Verdict.PLUGGED_ALREADY:
        return ("stays closed", "")
    if plan.new is not None:
        return say.size(plan.new)
    if plan.plug_mm is None:
        return ("closed", "")
    size, beside = say.size(Round(plan.plug_mm))
    return (f"plug {size}", beside)


def _degrees(along_deg: float) -> str:
    said = print_deg(along_deg).removesuffix(" deg")
    return said if "." in said else f"{said}.0"


def serves_words(plan: HolePlan, found: Hole | None) -> str:
    """Say which hole of which fitting it is, or what it was."""
    if plan.serves:
        return plan.serves
    if found is None or not found.purpose:
        return ""
    still = (
        plan.verdict in (Verdict.KEEP, Verdict.LEAVE_OPEN) and "vent" in found.purpose.casefold()
    )
    return found.purpose if still else f"was {found.purpose}"


def _shift(right_mm: float, down_mm: float, *, say: Lengths) -> str:
    parts = []
    if abs(right_mm) >= 0.05:
        side = "right" if right_mm > 0 else "left"
        parts.append(f"{say.length(abs(right_mm), resolution_mm=CALIPER_MM)} to the {side}")
    if abs(down_mm) >= 0.05:
        way = "down" if down_mm > 0 else "up"
        parts.append(f"{say.length(abs(down_mm), resolution_mm=CALIPER_MM)} {way}")
    return listed(parts)


def _state(plan: HolePlan, drum: Drum) -> str:
    hole = next((h for h in drum.holes if h.number == plan.number), None)
    if hole is None or hole.condition is Condition.SOUND:
        return ""
    return str(hole.condition)
