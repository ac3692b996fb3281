"""The heights of one edge as a strip: off the plate, outward is away from the shell."""

from __future__ import annotations

from counterhoop.papers.drawing.strip import Strip
from counterhoop.quantities.print_length import print_mm
from counterhoop.survey.drum_survey import EndSurvey

MOST_NAMED = 3


def edge_strip(end: EndSurvey) -> Strip | None:
    """Return the strip of an edge, None where it was not read.

    The plane fitted to it is dashed; places higher than both neighbours and clear of the doubt
    carry what they stand above that plane.
    """
    edge, flat = end.edge, end.flat
    if edge is None or flat is None:
        return None
    plane = flat.least_squares
    at = {along: index for index, along in enumerate(edge.along_deg)}
    high = [h for h in flat.high_places if h.above_mm > flat.doubt_mm / 2.0][:MOST_NAMED]
    return Strip(
        name=f"edge-{end.end}",
        heading=f"{end.end.capitalize()} edge, heights",
        says=(
            "0 is the plate · dashed: the plane fitted, + is above that · "
            f"{'up' if end.end == 'batter' else 'down'} is more wood"
        ),
        along_deg=edge.along_deg,
        value_mm=edge.height_mm,
        resolution_mm=edge.resolution_mm,
        zero_says="the plate",
        grows=1 if end.end == "batter" else -1,
        plane=(plane.mean_mm, plane.cos_mm, plane.sin_mm),
        named=tuple((at[h.along_deg], _above(h.above_mm, edge.resolution_mm)) for h in high),
    )


def _above(above_mm: float, step_mm: float) -> str:
    return f"+{print_mm(above_mm, resolution_mm=step_mm, with_unit=False)}"
