"""How round one end is as a strip: radii off their mean circle, or diameters off their mean."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.papers.drawing.strip import Strip
from counterhoop.quantities.print_length import print_mm
from counterhoop.survey.drum_survey import EndSurvey


def radius_strip(end: EndSurvey) -> Strip | None:
    """Return the strip of an end's radii or, where only those were read, of its diameters.

    Radii are drawn off the least-squares circle, diameters off their mean, each at both of its
    ends; out is up. None where neither was read.
    """
    if end.radii is not None and end.roundness is not None:
        return _radii(end)
    return _diameters(end) if end.diameters is not None else None


def _radii(end: EndSurvey) -> Strip:
    assert end.radii is not None
    assert end.roundness is not None
    off = end.roundness.least_squares.deviations_mm
    step = end.radii.resolution_mm
    return Strip(
        name=f"radius-{end.end}",
        heading=f"{end.end.capitalize()} end, radii",
        says="0 is their mean circle · up is out",
        along_deg=end.radii.along_deg,
        value_mm=off,
        resolution_mm=step,
        zero_says="the mean circle",
        named=_ends(off, [_signed(v, step) for v in off]),
    )


def _diameters(end: EndSurvey) -> Strip:
    assert end.diameters is not None
    read = end.diameters
    mean = sum(read.diameter_mm) / len(read.diameter_mm)
    off = tuple(d - mean for d in read.diameter_mm)
    step = read.resolution_mm
    said = [print_mm(d, resolution_mm=step, with_unit=False) for d in read.diameter_mm]
    return Strip(
        name=f"across-{end.end}",
        heading=f"{end.end.capitalize()} end, diameters",
        says=(
            f"0 is their mean, {print_mm(mean, resolution_mm=step)} · "
            "up is larger · a ring at both ends of each"
        ),
        along_deg=(*read.along_deg, *(a + 180.0 for a in read.along_deg)),
        value_mm=(*off, *off),
        resolution_mm=step,
        zero_says="the mean diameter",
        joined=False,
        named=_ends(off, said),
        numbered=False,
    )


def _ends(values: Sequence[float], said: Sequence[str]) -> tuple[tuple[int, str], ...]:
    """The largest and the smallest with their words; none where all are alike."""
    most, least = max(values), min(values)
    if most - least < 1e-9:
        return ()
    return tuple((values.index(v), said[values.index(v)]) for v in (most, least))


def _signed(value_mm: float, step_mm: float) -> str:
    said = print_mm(abs(value_mm), resolution_mm=step_mm, with_unit=False)
    return f"{'+' if value_mm > 0 else '-'}{said}"
