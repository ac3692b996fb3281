"""How deep the shell is after truing, and how its heights move, on the drum's own holes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.angle import print_deg
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Hole

SWING_SHOWS_MM = 0.25
"""Half a rule's step: less than this is the same depth all round."""
CLOSED = (Verdict.PLUG, Verdict.PLUGGED_ALREADY)


def depth_line(layout: Layout, *, say: Lengths) -> str:
    """Say how deep the shell is before and after, and where it is deepest and shallowest."""
    drum, flat = layout.drum, layout.flat
    swings = drum.depth_cos_mm != 0.0 or drum.depth_sin_mm != 0.0
    read = drum.depth_mm if swings else drum.depth_read_mm
    before = _round(read, drum.depth_cos_mm, drum.depth_sin_mm, say=say)
    after = _round(flat.depth_mm, flat.depth_cos_mm, flat.depth_sin_mm, say=say)
    return f"Depth before truing {before}; after it {after}."


def degrees(along_deg: float) -> str:
    """Say a place along in running words.

    Examples
    --------
    >>> degrees(22.5), degrees(-30.0)
    ('22.5 degrees', '330 degrees')
    """
    said = print_deg(along_deg % 360.0).removesuffix(" deg")
    return f"{said if said != '360' else '0'} degrees"


def _round(mean_mm: float, cos_mm: float, sin_mm: float, *, say: Lengths) -> str:
    swing = math.hypot(cos_mm, sin_mm)
    if swing < SWING_SHOWS_MM:
        return f"{say.length(mean_mm)} all round"
    at = math.degrees(math.atan2(sin_mm, cos_mm))
    return (
        f"{say.length(mean_mm + swing)} at {degrees(at)}, {say.length(mean_mm - swing)} at"
        f" {degrees(at + 180.0)}"
    )


def moved_lines(layout: Layout, *, ends: Sequence[End], say: Lengths) -> list[str]:
    """Say how heights move, worked through on two holes of the drum itself.

    Heights are printed to a tenth here: it is arithmetic that can be followed, not a reading.
    """
    ends = [end for end in ends if _off(layout, end) != Removal()]
    if not ends:
        return []
    holes = _kept(layout)
    examples: list[str] = []
    for end in ends:
        most, least = _extremes(holes, _off(layout, end), near=end, layout=layout)
        chosen = (most,) if len(ends) == 2 else (most, least)
        examples += [
            _worked(hole, layout, end=end, say=say)
            for hole in dict.fromkeys(chosen)
            if hole is not None
        ]
    return [
        "Heights were measured from the plate that the edge stood on. Every height loses what the"
        " plane goes down at its own place, also where no wood comes off because the edge was low"
        " there. All other papers of this scheme print heights after truing.",
        *examples,
    ]


def _off(layout: Layout, end: End) -> Removal:
    return layout.truing.batter if end == "batter" else layout.truing.resonant


def _kept(layout: Layout) -> tuple[Hole, ...]:
    closed = {plan.number for plan in layout.holes if plan.verdict in CLOSED}
    there = {plan.number for plan in layout.holes}
    open_ones = tuple(h for h in layout.drum.holes if h.number in there - closed)
    return open_ones or layout.drum.holes


def _extremes(
    holes: tuple[Hole, ...], removal: Removal, *, near: End, layout: Layout
) -> tuple[Hole | None, Hole | None]:
    """The holes of one half of the shell that lose most and least; the first of those alike."""
    middle = layout.drum.depth_mm / 2.0
    half = [h for h in holes if (h.place.down_mm < middle) == (near == "batter")]
    half = half if len(half) > 1 else list(holes)
    if not half:
        return None, None

    def lost(hole: Hole) -> float:
        return round(removal.at_mm(hole.place.along_deg), 6)

    most = max(half, key=lambda h: (lost(h), -h.number))
    least = min(half, key=lambda h: (lost(h), -h.number))
    return most, least


def _worked(hole: Hole, layout: Layout, *, end: End, say: Lengths) -> str:
    along = hole.place.along_deg
    off = _off(layout, end).at_mm(along)
    before = hole.place.down_mm
    if end == "resonant":
        before = layout.drum.depth_at_mm(along) - before

    # The printed heights are those of the other papers; what lies between them must add up.
    tenths = (round(mm / CALIPER_MM) for mm in (before, before - off))
    was, now = (count * CALIPER_MM for count in tenths)
    down = print_mm(was - now, resolution_mm=CALIPER_MM)

    def tenth(value_mm: float) -> str:
        return say.length(value_mm, resolution_mm=CALIPER_MM)

    return (
        f"Hole {hole.number} at {degrees(along)}, {tenth(was)} from the {end} edge as found:"
        f" the plane goes down {down} there, so it is then at {tenth(now)}."
    )
