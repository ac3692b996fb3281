"""How far two places lie apart on the skin, the short way round."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.place import Place
from counterhoop.development.surface import Surface


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """From one place to another.

    Attributes
    ----------
    along_mm : float
        To the right positive, the short way round, in [-C/2, C/2).
    down_mm : float
        Downward positive.
    distance_mm : float
        On the skin, not straight through the air.
    """

    along_mm: float
    down_mm: float
    distance_mm: float


def apart(a: Place, b: Place, *, surface: Surface) -> Apart:
    """Say how ``b`` lies from ``a`` on the skin.

    A cylinder unrolls without stretching, so the distance on the skin is Euclid's on the shell
    laid flat (Gauss, 1827, theorema egregium). Valid for any two places; a cone or a barrel would
    need more.

    Examples
    --------
    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.OLD, circumference_mm=360.0)
    >>> apart(Place(358.0, 10.0), Place(1.0, 14.0), surface=skin)
    Apart(along_mm=3.0, down_mm=4.0, distance_mm=5.0)
    """
    along_mm = surface.apart_mm(a.along_deg, b.along_deg)
    down_mm = b.down_mm - a.down_mm
    return Apart(along_mm=along_mm, down_mm=down_mm, distance_mm=math.hypot(along_mm, down_mm))
