"""How likely a reading is: of a known size that wears, and of a size that nobody states.

All densities are natural logarithms per unit of the reading (of a count: of its probability).
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

OUT_OF_TRUE, BY = 0.04, 3.0
"""One reading in so many is off by so much more than it should be: dirt, plating, a bent part, a
jaw held askew. Common practice, no source."""
COUNT_RIGHT = 0.98
"""How often a count is right. Common practice, no source."""
ALIKE = 0.12
"""Width, as a share of the size, by which another make's part differs from one of the book."""
_FADES = 0.5
_FREEDOM = 3.0
_LOG_T = (
    math.lgamma((_FREEDOM + 1.0) / 2.0)
    - math.lgamma(_FREEDOM / 2.0)
    - 0.5 * math.log(_FREEDOM * math.pi)
)


def worn_normal(off: Floats, *, sd: Floats, worn: Floats, way: int) -> Floats:
    """Return the log density of a normal error and an exponential wear together.

    The exponentially modified normal distribution, in the form with the scaled complementary error
    function, which neither overflows nor cancels: with ``y = way * off``,
    ``-y^2 / (2 sd^2) + log(erfcx((sd/worn - y/sd) / sqrt(2)) / (2 worn))``.

    Parameters
    ----------
    off : array
        Reading less the size when new.
    sd, worn : array
        Standard deviation of the error, above zero; mean wear, 0 for none. Broadcast with ``off``.
    way : int
        Which way wear moves a reading: -1 or 1; with 0 there is none.

    Examples
    --------
    >>> normal = worn_normal(np.array(0.5), sd=np.array(1.0), worn=np.array(0.0), way=-1)
    >>> round(float(np.exp(normal)), 5)
    0.35207
    """
    from scipy.special import erfcx, log_ndtr

    off, sd, worn = np.broadcast_arrays(
        np.asarray(off, dtype=float), np.asarray(sd, dtype=float), np.asarray(worn, dtype=float)
    )
    normal = -0.5 * (off / sd) ** 2 - np.log(sd) - 0.5 * math.log(2.0 * math.pi)
    wears = worn > 1e-6 * sd
    if way == 0 or not wears.any():
        return np.asarray(normal)
    mean = np.where(wears, worn, 1.0)
    y = way * off / sd
    short = sd / mean
    t = y - short
    # Left of the bend erfcx is exact; right of it the normal's tail is 1 and the exponent small.
    log, left = np.empty(t.shape), t < 0.0
    log[left] = -0.5 * y[left] ** 2 + np.log(erfcx(-t[left] / math.sqrt(2.0)) / 2.0)
    right = ~left
    log[right] = 0.5 * short[right] ** 2 - y[right] * short[right] + log_ndtr(t[right])
    return np.where(wears, log - np.log(mean), normal)


def reading(off: Floats, *, sd: Floats, worn: Floats, way: int) -> Floats:
    """Return the log density of a reading of a known size, one in some being out of true."""
    true = worn_normal(off, sd=sd, worn=worn, way=way)
    wide = worn_normal(off, sd=BY * sd, worn=BY * worn, way=way)
    return np.logaddexp(math.log1p(-OUT_OF_TRUE) + true, math.log(OUT_OF_TRUE) + wide)


def alike(value: Floats, *, size: Floats, width: Floats | float = ALIKE) -> Floats:
    """Return the log density of a size near another: Student's t of 3 in its logarithm.

    Heavy tails, for nobody knows how far another make goes. Both above zero; ``width`` is the
    share by which sizes differ.
    """
    apart = (np.log(value) - np.log(size)) / width
    bell = _LOG_T - (_FREEDOM + 1.0) / 2.0 * np.log1p(apart * apart / _FREEDOM)
    return np.asarray(bell - np.log(width) - np.log(value))


def count_near(value: Floats, *, size: Floats) -> Floats:
    """Return the log probability of a count near another: falling by half with each step.

    Normalised over 0, 1, 2 ...

    Examples
    --------
    >>> several = np.arange(0.0, 60.0)
    >>> round(float(np.exp(count_near(several, size=np.array(4.0))).sum()), 9)
    1.0
    """
    apart = np.abs(value - size)
    # Two sides of a geometric row, the lower cut off at 0.
    whole = (1.0 + _FADES - _FADES ** (size + 1.0)) / (1.0 - _FADES)
    return np.asarray(apart * math.log(_FADES) - np.log(whole))


def counted(value: Floats, *, size: Floats) -> Floats:
    """Return the log probability of a count of what is ``size``."""
    near = math.log(1.0 - COUNT_RIGHT) + count_near(value, size=size)
    return np.logaddexp(np.where(value == size, math.log(COUNT_RIGHT), -np.inf), near)
