"""Washers against what is inside the shell, and against the step of a ring."""

from __future__ import annotations

from counterhoop.development.polygon import hole_gap_mm
from counterhoop.development.shape import Round
from counterhoop.errors import Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Opening
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import figure

INSIDE_DOUBT_MM = 0.5


def check_inside(after: Afterwards, tally: Tally) -> None:
    """Hold each washer, nut or screw head that is new inside against what is there.

    Seen on the outer skin: what is inside was noted by its place there. A washer is a little
    wider in degrees at the bore, by the wall over the radius, which for washers up to 20 mm and
    walls up to 12 in shells of 250 mm and more is under 1 mm to each side.
    """
    fittings = {base.label: base.plan for base in after.bases}
    for opening in after.openings:
        fitting = fittings.get(opening.of)
        new = opening.cut or (fitting is not None and fitting.status == "new")
        if not new:
            continue
        behind = 0.0 if fitting is None else fitting.fitting.behind.washer_diameter_mm
        washer = max(behind, opening.plan.backing_washer_mm or 0.0, max(opening.shape.size_mm))
        _in_the_way(after, tally, opening, washer)
        _ring_step(after, tally, opening, washer)


def _in_the_way(after: Afterwards, tally: Tally, opening: Opening, washer_mm: float) -> None:
    for thing in after.layout.drum.inside:
        place = after.layout.truing.moved(thing.place)
        _, top, _, bottom = thing.outline.bounds_mm
        down = opening.place.down_mm - place.down_mm
        if max(top - down, down - bottom) > washer_mm / 2.0 + 2.0:  # clear beyond any doubt
            continue
        gap = hole_gap_mm(
            thing.outline, place, opening.place, Round(washer_mm), surface=after.surface
        )
        tally.hold(
            "inside-in-the-way",
            gap,
            limit=0.0,
            doubt=together(opening.doubt_mm, INSIDE_DOUBT_MM),
            grade=Grade.STOP,
            fact=(
                f"the washer of {figure(washer_mm)} mm behind hole {opening.number} meets"
                f" {thing.what} inside, by {figure(max(-gap, 0.0))} mm"
            ),
            again=f"{thing.what} inside",
            rule="room for the washer inside",
            remedy=f"Move the hole, or take {thing.what} out first.",
            where=f"hole {opening.number}",
            place=opening.place,
            holes=(opening.number,),
        )


def _ring_step(after: Afterwards, tally: Tally, opening: Opening, washer_mm: float) -> None:
    """A washer half on a ring tips when the screw is drawn up."""
    for ring in after.flat.rings:
        along = opening.place.along_deg
        down = after.flat.from_end_mm(opening.place.down_mm, end=ring.end, along_deg=along)
        past = abs(down - ring.wide_at_mm(along)) - washer_mm / 2.0
        tally.hold(
            "washer-on-ring-step",
            past,
            limit=0.0,
            doubt=0.0,
            grade=Grade.TAKE_CARE,
            fact=(
                f"behind hole {opening.number} the washer of {figure(washer_mm)} mm stands half on"
                f" the {ring.end} ring, by {figure(min(-past, washer_mm))} mm, and tips"
            ),
            rule="a flat seat for the washer",
            remedy="Take a smaller washer, or one cut straight to lie against the ring.",
            where=f"hole {opening.number}",
            place=opening.place,
            holes=(opening.number,),
        )
