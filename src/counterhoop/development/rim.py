"""A plane as heights round the rim, fitted to readings at stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True, kw_only=True)
class RimPlane:
    """Heights ``mean + cos cos(along) + sin sin(along)`` round the rim.

    Attributes
    ----------
    mean_mm, cos_mm, sin_mm : float
        The plane, as millimetres at the rim.
    off_mm : tuple of float
        Reading less plane at each station.
    """

    mean_mm: float
    cos_mm: float
    sin_mm: float
    off_mm: tuple[float, ...]


def rim_plane(along_deg: Sequence[float], height_mm: Sequence[float]) -> RimPlane:
    """Return the least-squares plane through heights at three places or more.

    Parameters
    ----------
    along_deg, height_mm : sequence of float
        Where and what was read; as many of one as of the other.

    Examples
    --------
    >>> plane = rim_plane((0.0, 120.0, 240.0), (201.0, 200.0, 202.0))
    >>> round(plane.mean_mm, 9), round(plane.sin_mm, 3)
    (201.0, -1.155)
    """
    angles = np.radians(np.asarray(along_deg, dtype=float))
    columns = np.column_stack((np.ones(len(angles)), np.cos(angles), np.sin(angles)))
    heights = np.asarray(height_mm, dtype=float)
    factors = np.linalg.lstsq(columns, heights, rcond=None)[0]
    return RimPlane(
        mean_mm=float(factors[0]),
        cos_mm=float(factors[1]),
        sin_mm=float(factors[2]),
        off_mm=tuple(float(off) for off in heights - columns @ factors),
    )
