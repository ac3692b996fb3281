"""Readings round the rim as waves: off-centre or tilt, oval or saddle, three lobes and more."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.survey.round_stations import check_stations, equal_steps, gaps_deg

POINTS_PER_WAVE = 7
"""Readings wanted for each wave (ISO 12181-2, from memory)."""

ROUND_NAMES = {1: "off-centre", 2: "oval", 3: "three-lobed", 4: "four-lobed", 5: "five-lobed"}
FLAT_NAMES = {1: "tilt", 2: "saddle"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Harmonic:
    """One wave round the rim: ``amplitude cos(order (along - high))``.

    Attributes
    ----------
    order : int
        Waves round the rim, from 1.
    amplitude_mm : float
        Half of highest minus lowest.
    high_deg : float
        The first high place, in [0, 360/order); the others follow every 360/order.
    doubt_mm : float
        Standard uncertainty of the amplitude from that of the readings.
    high_doubt_deg : float
        Standard uncertainty of the high place; 180/order at most, when it could lie anywhere.
    points_per_wave : float
        Readings for each wave; under 7 the figure is a hint only.
    """

    order: int
    amplitude_mm: float
    high_deg: float
    doubt_mm: float
    high_doubt_deg: float
    points_per_wave: float

    @property
    def sure(self) -> bool:
        """Whether it was read at enough stations and stands clear of its doubt."""
        return self.points_per_wave >= POINTS_PER_WAVE and self.amplitude_mm > 2.0 * self.doubt_mm

    @property
    def across_mm(self) -> float:
        """Largest minus smallest diameter that it makes; 0 for odd lobes."""
        return 4.0 * self.amplitude_mm if self.order % 2 == 0 else 0.0


def highest_order(along_deg: Sequence[float]) -> int:
    """Return the most waves that these stations can tell from fewer (Nyquist)."""
    return max(1, min((len(along_deg) - 1) // 2, math.floor(180.0 / max(gaps_deg(along_deg)))))


def harmonics(
    along_deg: Sequence[float], values_mm: Sequence[float], *, reading_doubt_mm: float = 0.0
) -> tuple[Harmonic, ...]:
    """Return the waves in readings round the rim, from order 1 to the most that can be told.

    Least squares over ``1, cos n, sin n``; at equal stations the discrete Fourier transform.
    Waves of a higher order than the last appear as lower ones: read more stations to see them.

    Parameters
    ----------
    along_deg, values_mm : sequence of float
        Radii or heights at stations, at least four.
    reading_doubt_mm : float
        Standard uncertainty of one reading.

    Examples
    --------
    >>> oval = harmonics(range(0, 360, 24), [3 * math.cos(math.radians(2 * a - 60))
    ...                                      for a in range(0, 360, 24)])[1]
    >>> oval.order, round(oval.amplitude_mm, 9), round(oval.high_deg, 9), round(oval.across_mm, 9)
    (2, 3.0, 30.0, 12.0)
    """
    check_stations(along_deg, values_mm, where="readings round the rim")
    angles = np.radians(np.asarray(along_deg, dtype=float))
    orders = range(1, highest_order(along_deg) + 1)
    turned = np.outer(angles, orders)
    table = np.ones((len(angles), 2 * len(orders) + 1))
    table[:, 1::2], table[:, 2::2] = np.cos(turned), np.sin(turned)
    values = np.asarray(values_mm, dtype=float)
    if equal_steps(along_deg):
        # The columns then stand square to each other.
        shares = np.full(table.shape[1], 2.0 / len(angles))
        shares[0] /= 2.0
        factors, spread = shares * (table.T @ values), np.diag(shares)
    else:
        square, corner = np.linalg.qr(table)
        back = np.linalg.inv(corner)
        factors, spread = back @ (square.T @ values), back @ back.T
    spread = spread * reading_doubt_mm**2
    return tuple(
        _harmonic(
            order,
            factors[2 * order - 1 : 2 * order + 1],
            spread[2 * order - 1 : 2 * order + 1, 2 * order - 1 : 2 * order + 1],
            count=len(angles),
        )
        for order in orders
    )


def _harmonic(order: int, pair: np.ndarray, spread: np.ndarray, *, count: int) -> Harmonic:
    cosine, sine = float(pair[0]), float(pair[1])
    size = math.hypot(cosine, sine)
    x, y = (1.0, 0.0) if size == 0.0 else (cosine / size, sine / size)
    (xx, xy), (_, yy) = spread.tolist()
    doubt = math.sqrt(max(0.0, x * x * xx + 2.0 * x * y * xy + y * y * yy))
    turn = math.sqrt(max(0.0, y * y * xx - 2.0 * x * y * xy + x * x * yy))
    anywhere = 180.0 / order
    step = 360.0 / order
    return Harmonic(
        order=order,
        amplitude_mm=size,
        high_deg=(math.degrees(math.atan2(sine, cosine)) / order) % step % step,
        doubt_mm=doubt,
        high_doubt_deg=anywhere
        if size == 0.0
        else min(anywhere, math.degrees(turn / size) / order),
        points_per_wave=count / order,
    )


def curve_mm(waves: Sequence[Harmonic], along_deg: float) -> float:
    """Return the sum of waves at one place."""
    return sum(
        w.amplitude_mm * math.cos(math.radians(w.order * (along_deg - w.high_deg))) for w in waves
    )


def saddle_response(order: int, *, feet_deg: float) -> float:
    """Return how much a dial between two feet sees of a wave, as a share of its amplitude.

    The saddle rides on the skin, feet to each side, the dial in the middle:
    ``1 - cos(order feet) / cos(feet)``, the first order of small waves for feet at a fixed
    distance (derived). It sees no off-centre.

    Parameters
    ----------
    feet_deg : float
        Angle from the dial to each foot, greater than 0 and less than 90.

    Examples
    --------
    Feet a sixth of a turn to each side: three lobes read threefold, five not at all.

    >>> [round(saddle_response(n, feet_deg=60.0), 9) for n in (1, 2, 3, 5)]
    [0.0, 2.0, 3.0, 0.0]
    """
    feet = math.radians(feet_deg)
    return 1.0 - math.cos(order * feet) / math.cos(feet)


def tells_odd_lobes(waves: Sequence[Harmonic]) -> bool:
    """Tell whether there were stations enough to part three lobes from fewer; seven at least."""
    return any(wave.order >= 3 for wave in waves)


def hidden_from_diameters_mm(waves: Sequence[Harmonic]) -> float:
    """Return how far odd lobes alone put the shell out of round, peak to valley, mm.

    Off-centre is left out. Neither a caliper nor a tape shows anything of it: a shape with odd
    lobes only measures the same across everywhere, and so does the way round it, pi times that
    (Barbier 1860, from memory).
    """
    odd = [w for w in waves if w.order > 1 and w.order % 2]
    around = np.radians(np.arange(360.0))
    orders = np.array([w.order for w in odd], dtype=float)
    sizes = np.array([w.amplitude_mm for w in odd])
    highs = np.radians([w.order * w.high_deg for w in odd])
    heights = np.cos(np.outer(around, orders) - highs) @ sizes
    return float(heights.max() - heights.min())
