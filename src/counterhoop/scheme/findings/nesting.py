"""Drums that are carried one inside another, and no longer go."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.enclosing import overall_width_mm
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import figure, first_up
from counterhoop.scheme.layout import FittingPlan, Layout

WIDTH_DOUBT_MM = 1.0  # common practice, no source: reach of a casting by rule, twice


def check_nesting(after: Afterwards, others: Sequence[Layout], tally: Tally) -> None:
    """Hold this drum's width against the inside of every larger one, as found and afterwards.

    Only what used to go and goes no longer is said: by the fittings that it gains, or by those
    that the larger one gains inside.
    """
    layout = after.layout
    before = [f for f in layout.fittings if f.status in ("stays", "goes")]
    for other in others:
        if other.drum.key == layout.drum.key or other.flat.depth_mm <= 0.0:
            continue
        was_other = [f for f in other.fittings if f.status in ("stays", "goes")]
        room_was, room = _inside_mm(other, was_other), _inside_mm(other, other.standing)
        wanted = after.rules.nest_mm
        if room_was <= 2.0 * after.surface.radius_mm:
            continue
        width_was, width = _width_mm(layout, before), _width_mm(layout, layout.standing)
        left_was, left = room_was - width_was, room - width
        if left_was < wanted or left >= left_was - 0.05:
            continue
        tally.hold(
            "no-longer-nests",
            left,
            limit=wanted,
            doubt=WIDTH_DOUBT_MM,
            grade=Grade.TAKE_CARE,
            fact=first_up(
                f"{layout.drum.key} will be {figure(width)} mm wide over its fittings and"
                f" {other.drum.key} has {figure(room)} inside, so"
                + (f" only {figure(left)} are left" if left >= 0.0 else " they no longer nest")
            ),
            again="the reach of the fittings",
            rule="nest_mm",
            remedy="Ask whether the client carries them so; if not, nothing is lost.",
            where=f"{layout.drum.key} inside {other.drum.key}",
        )
    _head_shuts(after, others, tally)


def _head_shuts(after: Afterwards, others: Sequence[Layout], tally: Tally) -> None:
    """A drum that gets its second head no longer takes another one in."""
    layout = after.layout
    gains = layout.drum.heads == 1 and any(
        f.status == "new" and f.row in ("resonant", "both") for f in layout.standing
    )
    if not gains:
        return
    room = _inside_mm(layout, [f for f in layout.fittings if f.status != "new"])
    held = [
        other.drum.key
        for other in others
        if other.drum.key != layout.drum.key
        and room - _width_mm(other, [f for f in other.fittings if f.status != "new"])
        >= after.rules.nest_mm
    ]
    if not held:
        return
    tally.say(
        Finding(
            code="head-shuts-nest",
            grade=Grade.NOTE,
            says=first_up(
                f"with a second head {layout.drum.key} is shut, and"
                f" {' and '.join(held)} can no longer be carried inside it."
            ),
            where=layout.drum.key,
            unit="",
            rule="an open end to carry a drum in",
            remedy="Ask whether the client carries them so.",
        )
    )


def _width_mm(layout: Layout, fittings: Iterable[FittingPlan]) -> float:
    reach = tuple((f.place.along_deg, f.fitting.reach_mm) for f in fittings)
    return overall_width_mm(layout.flat.surface.radius_mm, reach)


def _inside_mm(layout: Layout, fittings: Iterable[FittingPlan]) -> float:
    """Free width inside: bore, less rings, less the farthest that a fitting reaches in."""
    flat = layout.flat
    ring = max((r.thick_mm for r in flat.rings), default=0.0)
    inward = max((f.fitting.inside_reach_mm for f in fittings), default=0.0)
    return 2.0 * (flat.surface.radius_mm - flat.wall_mm - max(ring, inward))
