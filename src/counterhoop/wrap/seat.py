"""How a base sits where the seam of the wrap runs under it: hidden, steady, or rocking."""

from __future__ import annotations

import math
from dataclasses import dataclass

STEADY_PART = 1.0 / 3.0
"""A base stands when this middle part of it lies on the seam: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """How a base sits on a seam.

    Attributes
    ----------
    touches : bool
        The seam runs under the base at all.
    covers : bool
        The whole breadth of the seam is under the base.
    steady : bool
        The base does not lean or rock.
    rock_mm : float
        How far one side of the base stands higher than the other once it has tipped; 0 when it
        is steady.
    rock_deg : float
        The angle of that.
    """

    touches: bool
    covers: bool
    steady: bool
    rock_mm: float = 0.0
    rock_deg: float = 0.0


def seat(offset_mm: float, *, base_mm: float, seam_mm: float, step_mm: float) -> Seat:
    """Tell how a rigid base sits on the step of an overlap.

    Parameters
    ----------
    offset_mm : float
        Middle of the seam, along, from the middle of the base.
    base_mm : float
        Breadth of the base along the skin.
    seam_mm : float
        Breadth of the overlap; 0 for a butt seam.
    step_mm : float
        How much higher the overlap stands: one thickness of wrap, 0 for a butt seam.

    Returns
    -------
    Seat

    Notes
    -----
    Plane statics: the base follows the curve of the shell, so that only the step counts, and
    its screws pull on its middle line. It rests on the edge of the step and on its own far end.
    A gasket that gives makes it less than said here.

    Examples
    --------
    Half of a base 24 mm broad on an overlap of 0.5 mm: it rests on the step in its middle and
    on its end 12 mm away.

    >>> half = seat(12.5, base_mm=24.0, seam_mm=25.0, step_mm=0.5)
    >>> half.steady, round(half.rock_mm, 2), round(half.rock_deg, 1)
    (False, 1.0, 2.4)
    """
    half, reach = base_mm / 2, seam_mm / 2
    low, high = max(-half, offset_mm - reach), min(half, offset_mm + reach)
    touches = low < high or (seam_mm == 0 and abs(offset_mm) < half)
    covers = abs(offset_mm) + reach <= half + 1e-9
    if not touches or step_mm <= 0 or seam_mm <= 0:
        return Seat(touches=touches, covers=covers, steady=True)
    if low <= -half * STEADY_PART and high >= half * STEADY_PART:
        return Seat(touches=True, covers=covers, steady=True)
    # Distances from the edges of the step to the ends of the base that hang beside it.
    sides = []
    if low > -half and high >= 0:
        sides.append(low + half)
    if high < half and low <= 0:
        sides.append(half - high)
    slope = step_mm / min(sides)
    return Seat(
        touches=True,
        covers=covers,
        steady=False,
        rock_mm=base_mm * math.sin(math.atan(slope)),
        rock_deg=math.degrees(math.atan(slope)),
    )
