"""What a caliper would find on a fitting of the book."""

from __future__ import annotations

from itertools import combinations
from math import dist

from counterhoop.fittings.entry import Fitting, Kind, PatternHole
from counterhoop.parts.dimension import Dimension
from counterhoop.standards.threads import find_thread

_ALIKE_MM = 0.05
"""Distances of holes that differ by less are one distance."""


def dimensions_of(fitting: Fitting) -> dict[Dimension, float]:
    """Return what the book states of a fitting, by what one would measure.

    Parameters
    ----------
    fitting : Fitting
        An entry; what it does not state is left out.

    Returns
    -------
    dict of Dimension to float
        In each dimension's own unit.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> lug = dimensions_of(packaged_book().find("Corvane round lug"))
    >>> lug[Dimension.HOLES_APART], lug[Dimension.BASE_WIDE], lug[Dimension.MASS]
    (42.0, 24.0, 92.0)
    """
    stated: dict[Dimension, float | None] = {
        Dimension.REACH: fitting.reach_mm or None,
        Dimension.ROD_LINE: fitting.rod_line_mm,
        Dimension.ROD_DEPTH: fitting.free_depth_mm,
        Dimension.MOUTHS_APART: fitting.span_mm,
        Dimension.MASS: fitting.mass_g,
        Dimension.EARS: fitting.ears,
        Dimension.EAR_CIRCLE: fitting.ear_circle_mm,
        Dimension.HIGH: fitting.height_mm,
        Dimension.THREAD_LENGTH: fitting.thread_length_mm,
        Dimension.SHANK: fitting.shank_mm,
        **_holes(fitting.holes),
        **_base(fitting),
        **_thread(fitting),
        **_own(fitting),
    }
    return {what: float(size) for what, size in stated.items() if size is not None}


def _holes(holes: tuple[PatternHole, ...]) -> dict[Dimension, float | None]:
    if not holes:
        return {}
    apart = sorted(
        (
            dist((one.right_mm, one.down_mm), (other.right_mm, other.down_mm))
            for one, other in combinations(holes, 2)
        ),
        reverse=True,
    )
    most = apart[0] if apart else None
    shorter = [each for each in apart if most is not None and each < most - _ALIKE_MM]
    screw_mm = max(hole.screw_mm for hole in holes)
    return {
        Dimension.HOLE_COUNT: len(holes),
        Dimension.HOLES_APART: most,
        Dimension.HOLES_APART_2: shorter[0] if shorter else None,
        Dimension.SHELL_HOLE: max(hole.hole_mm for hole in holes),
        Dimension.SCREW: screw_mm or None,
    }


def _base(fitting: Fitting) -> dict[Dimension, float | None]:
    if fitting.base is None:
        return {}
    left, top, right, bottom = fitting.base.bounds_mm
    return {Dimension.BASE_WIDE: right - left, Dimension.BASE_HIGH: bottom - top}


def _thread(fitting: Fitting) -> dict[Dimension, float | None]:
    name = fitting.screw_thread if fitting.kind is Kind.SCREW else fitting.thread
    if not name:
        return {}
    thread = find_thread(name)
    return {Dimension.MAJOR: thread.major_mm, Dimension.PITCH: thread.pitch_mm}


def _own(fitting: Fitting) -> dict[Dimension, float | None]:
    """Return what one field of an entry means for its kind."""
    match fitting.kind:
        case Kind.HOOP:
            return {Dimension.INSIDE: fitting.inside_mm, Dimension.HOLE: fitting.ear_hole_mm}
        case Kind.ROD | Kind.T_ROD:
            return {Dimension.LENGTH: fitting.rod_length_mm}
        case Kind.SCREW:
            return {Dimension.LENGTH: fitting.screw_length_mm}
        case Kind.CLAW:
            return {Dimension.HOLE: fitting.ear_hole_mm}
        case Kind.BRACKET | Kind.LEG_BRACKET:
            return {Dimension.TAKES: fitting.diameter_mm}
        case Kind.GATE:
            return {Dimension.INSIDE: fitting.length_mm}
        case Kind.WIRES:
            return {Dimension.LENGTH: fitting.length_mm, Dimension.WIDE: fitting.diameter_mm}
        case Kind.WASHER:
            return {
                Dimension.HOLE: fitting.inside_mm,
                Dimension.ACROSS: fitting.diameter_mm,
                Dimension.THICK: fitting.washer_mm,
            }
        case Kind.GASKET:
            return {Dimension.THICK: fitting.gasket_mm or None}
    return {Dimension.ACROSS: fitting.diameter_mm, Dimension.LENGTH: fitting.length_mm}
