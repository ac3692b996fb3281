"""A normal whose mean and spread are both unknown, and how one more reading moves it."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class NormalGuess:
    """A normal-inverse-gamma belief about readings y of a normal N(m, v).

    v is inverse gamma with ``shape`` and ``scale``; m given v is normal round ``mean`` with
    variance v / ``weight``. All without unit here: the readings are logarithms.

    Murphy, Conjugate Bayesian analysis of the Gaussian distribution (2007), section 6; Gelman
    and others, Bayesian Data Analysis, section 3.3 (both from memory).

    Attributes
    ----------
    mean : float
        Where m is believed to lie.
    weight : float
        Readings that the mean is worth, above zero.
    shape, scale : float
        Of the inverse gamma; shape above 1, or v has no mean.
    """

    mean: float
    weight: float
    shape: float
    scale: float

    def learn(self, reading: float) -> NormalGuess:
        """Return the belief after one more reading; the order of readings changes nothing.

        Examples
        --------
        >>> NormalGuess(mean=0.0, weight=1.0, shape=2.0, scale=1.0).learn(2.0)
        NormalGuess(mean=1.0, weight=2.0, shape=2.5, scale=2.0)
        """
        weight = self.weight + 1.0
        off = reading - self.mean
        return NormalGuess(
            mean=self.mean + off / weight,
            weight=weight,
            shape=self.shape + 0.5,
            scale=self.scale + 0.5 * self.weight / weight * off * off,
        )

    @property
    def spread(self) -> float:
        """Standard deviation of the next reading, doubt of the mean included.

        The next reading is a Student t about ``mean``; its variance is the expected v times
        (1 + 1 / weight).
        """
        return math.sqrt(self.scale / (self.shape - 1.0) * (1.0 + 1.0 / self.weight))


def guess_of(*, mean: float, spread: float, weight: float, shape: float) -> NormalGuess:
    """Return the belief whose next reading has this mean and this standard deviation.

    Examples
    --------
    >>> round(guess_of(mean=2.0, spread=0.4, weight=2.0, shape=3.0).spread, 12)
    0.4
    """
    scale = spread * spread * (shape - 1.0) * weight / (weight + 1.0)
    return NormalGuess(mean=mean, weight=weight, shape=shape, scale=scale)
