"""The holes of a drum as rows that any spreadsheet opens."""

from __future__ import annotations

from counterhoop.papers.facts import Lengths
from counterhoop.papers.handover_record import MADE
from counterhoop.parts.rows.csv_cell import csv_text
from counterhoop.quantities.print_length import TAPE_MM, print_mm
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.hole import Origin

HOLES = (
    *("hole", "along, degrees", "down from the batter edge, mm", "size as found, mm"),
    *("size as it is, mm", "made by", "what became of it"),
)
BECAME = {
    Verdict.KEEP: "as found", Verdict.LEAVE_OPEN: "as found", Verdict.ENLARGE: "made larger",
    Verdict.SLOT: "made longer", Verdict.PLUG: "closed by us", Verdict.DRILL: "made by us",
    Verdict.PLUG_AND_DRILL: "made by us, through a plug",
    Verdict.PLUGGED_ALREADY: "closed before it came to us",
}  # fmt: skip


def holes_csv(layout: Layout) -> str:
    """Return every hole of a layout by its number, places as a tape shows them.

    Heights are from the batter edge as it is in this layout.
    """
    plans = sorted(layout.holes, key=lambda plan: plan.number)
    return csv_text([HOLES, *map(_row, plans)])


def _row(plan: HolePlan) -> tuple[str, ...]:
    place = plan.new_place or plan.place
    made = MADE[None if plan.verdict.drills else plan.origin or Origin.NOT_SURE]
    return (
        str(plan.number),
        f"{round(2.0 * place.along_deg) / 2.0 % 360.0:g}",
        print_mm(place.down_mm, resolution_mm=TAPE_MM, with_unit=False),
        _size(plan, old=True),
        _size(plan, old=False),
        made,
        BECAME[plan.verdict],
    )


def _size(plan: HolePlan, *, old: bool) -> str:
    closed = plan.verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
    shape = plan.old if old else None if closed else plan.new or plan.old
    return "" if shape is None else Lengths().size(shape)[0]
