"""A hole in words: read aloud on the drawing, and in the table that says the same."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.development.shape import HoleShape, Round
from counterhoop.papers.drawing.holes import verdict_words
from counterhoop.papers.drawing.manner import Manner, Units
from counterhoop.papers.drawing.view import View
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_inch, print_mm
from counterhoop.scheme.verdict import HolePlan, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleLine:
    """One hole as a line of the table beside the drawing; every text as it is printed.

    ``down`` and ``up`` are the heights of its middle from the batter and the resonant edge.
    """

    number: int
    along: str
    down: str
    up: str
    size: str
    verdict: str
    of: str
    made: str


def hole_lines(view: View, *, manner: Manner) -> tuple[HoleLine, ...]:
    """Return every hole in the order along, those above one another from the batter edge down."""
    lines = []
    for plan in sorted(view.holes, key=lambda plan: _order(plan, view)):
        place = plan.new_place or plan.place
        up_mm = view.flat.from_end_mm(place.down_mm, end="resonant", along_deg=place.along_deg)
        lines.append(
            HoleLine(
                number=plan.number,
                along=length(view.x_mm(place.along_deg), units=manner.units),
                down=length(place.down_mm, units=manner.units),
                up=length(up_mm, units=manner.units),
                size=_size(plan, manner.units),
                verdict=verdict_words(plan, manner=manner),
                of=plan.serves,
                made=str(plan.origin) if plan.origin else "new",
            )
        )
    return tuple(lines)


def hole_label(plan: HolePlan, *, manner: Manner) -> str:
    """Name a hole for who cannot see it: its number, its size, what happens to it."""
    parts = [f"hole {plan.number}", _size(plan, manner.units), verdict_words(plan, manner=manner)]
    return ", ".join(part for part in parts if part)


def hole_more(plan: HolePlan, *, view: View, manner: Manner) -> str:
    """Say where it is and what it serves."""
    place = plan.new_place or plan.place
    along = length(view.x_mm(place.along_deg), units=manner.units)
    down = length(place.down_mm, units=manner.units)
    return ", ".join(
        part
        for part in (f"hole {plan.number}", f"{along} along", f"{down} down", plan.serves)
        if part
    )


def length(value_mm: float, *, units: Units, resolution_mm: float = TAPE_MM) -> str:
    """Print a length in the unit that the person reads, as fine as the instrument gave it."""
    if units == "in":
        return print_inch(value_mm, denominator=64 if resolution_mm < TAPE_MM else 32)
    return print_mm(value_mm, resolution_mm=resolution_mm)


def _size(plan: HolePlan, units: Units) -> str:
    old, new = plan.old, plan.new
    if plan.verdict in (Verdict.ENLARGE, Verdict.SLOT) and old is not None and new is not None:
        return f"{shape_words(old, units)} to {shape_words(new, units)}"
    shape = old if plan.verdict is Verdict.PLUG else new or old
    return "" if shape is None else shape_words(shape, units)


def shape_words(shape: HoleShape, units: Units) -> str:
    """Return the size of a hole as a caliper shows it."""
    wide, tall = (length(v, units=units, resolution_mm=CALIPER_MM) for v in shape.size_mm)
    if isinstance(shape, Round):
        return f"{wide} dia"
    return f"{wide} wide x {tall} tall"


def _order(plan: HolePlan, view: View) -> tuple[float, float, int]:
    place = plan.new_place or plan.place
    return round(view.x_mm(place.along_deg), 1), place.down_mm, plan.number
