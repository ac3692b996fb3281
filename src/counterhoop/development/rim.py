"""A plane as heights round the rim, fitted to readings at stations."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, kw_only=True)
class RimPlane:
    """Heights ``mean + cos cos(along) + sin sin(along)`` round the rim.

    Attributes
    ----------
    mean_mm, cos_mm, sin_mm : float
        The plane, as millimetres at the rim.
    off_mm : tuple of float
        Reading less plane at each station; empty when the plane was not fitted but given.
    """

    mean_mm: float
    cos_mm: float
    sin_mm: float
    off_mm: tuple[float, ...] = ()


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
    columns = _columns(along_deg)
    heights = np.asarray(height_mm, dtype=float)
    factors = np.linalg.lstsq(columns, heights, rcond=None)[0]
    return RimPlane(
        mean_mm=float(factors[0]),
        cos_mm=float(factors[1]),
        sin_mm=float(factors[2]),
        off_mm=tuple(float(off) for off in heights - columns @ factors),
    )


def swing_doubt_mm(plane: RimPlane, along_deg: Sequence[float], *, reading_mm: float) -> float:
    """Return the standard uncertainty of a fitted plane's swing round the rim.

    The swing is ``hypot(cos, sin)``; its uncertainty is that of a least-squares fit to readings
    that are all alike and independent, propagated along the direction of the swing (JCGM 100:2008,
    5.1.2, from memory). A reading counts as no surer than what the plane leaves over.

    Parameters
    ----------
    plane : RimPlane
        Fitted to readings at three different places or more.
    along_deg : sequence of float
        Where they were taken.
    reading_mm : float
        Standard uncertainty of one reading.

    Examples
    --------
    At n equal steps it is ``u sqrt(2 / n)``:

    >>> along = (0.0, 90.0, 180.0, 270.0)
    >>> plane = rim_plane(along, (201.0, 200.0, 199.0, 200.0))
    >>> round(swing_doubt_mm(plane, along, reading_mm=0.3), 4)
    0.2121
    """
    free = len(along_deg) - 3
    left_mm = math.sqrt(math.fsum(off * off for off in plane.off_mm) / free) if free else 0.0
    columns = _columns(along_deg)
    shape = np.linalg.inv(columns.T @ columns)
    swing = math.hypot(plane.cos_mm, plane.sin_mm)
    way = np.array((0.0, plane.cos_mm, plane.sin_mm) if swing else (0.0, 1.0, 0.0)) / (swing or 1.0)
    return max(reading_mm, left_mm) * math.sqrt(float(way @ shape @ way))


def between_stations_mm(
    along_deg: Sequence[float], height_mm: Sequence[float], *, at_deg: float
) -> float:
    """Return the height at any place, straight from station to station round the rim.

    Examples
    --------
    >>> round(between_stations_mm((0.0, 120.0, 240.0), (0.0, 1.0, 0.4), at_deg=300.0), 9)
    0.2
    """
    return float(np.interp(at_deg, along_deg, height_mm, period=360.0))


def _columns(along_deg: Sequence[float]) -> NDArray[np.float64]:
    angles = np.radians(np.asarray(along_deg, dtype=float))
    return np.column_stack((np.ones(len(angles)), np.cos(angles), np.sin(angles)))
