"""Year against serial number: the curve that never falls, and how far from it a drum may lie."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterhoop.evidence.in_use import Array
from counterhoop.evidence.reference import SerialExample

FEWEST = 4
_SCATTERS = np.geomspace(0.25, 8.0, 16)
_LOOSENESS = np.array([0.0, 0.03, 0.06, 0.12, 0.25, 0.5, 1.0, 2.0])
_ASTRAY, _ASTRAY_TIMES = 0.03, 5.0
"""How many numbers lie far off, and how many times the scatter. Common practice, no source."""
_USUAL_GIVE = 1.0
_MOST_LEFT_OUT = 150


@dataclass(frozen=True, slots=True, kw_only=True)
class SerialCurve:
    """The curve with its doubt.

    Attributes
    ----------
    numbers, years : array, shape (k,)
        Knots: rising numbers, years that do not fall.
    scatters, looseness, weights : array, shape (m,)
        What drums may lie off the curve (years), what the curve may do between two knots (share of
        the gap, squared), and the odds of each such pair.
    """

    numbers: Array
    years: Array
    scatters: Array
    looseness: Array
    weights: Array

    def centre(self, number: float) -> float:
        """Year on the curve; beyond the knots it goes on at its mean rate."""
        return _read(self.numbers, self.years, number)[0]

    def odds(self, number: float, years: Array) -> Array:
        """Odds of each whole year for a number, summing to one over the years given."""
        centre, gap_years = _read(self.numbers, self.years, number)
        below = np.zeros(len(years) + 1)
        bounds = np.append(years - 0.5, years[-1] + 0.5) - centre
        for share, times in ((1.0 - _ASTRAY, 1.0), (_ASTRAY, _ASTRAY_TIMES)):
            spread = np.sqrt((times * self.scatters) ** 2 + self.looseness * gap_years**2)
            at = bounds[:, None] / spread
            below += share * (_normal_below(at) @ self.weights)
        odds = np.diff(below) + 1e-12
        return np.asarray(odds / odds.sum())


def serial_curve(examples: Sequence[SerialExample]) -> SerialCurve:
    """Lay the curve through dated examples of one series.

    The nearest curve that does not fall (least squares, examples that are known better count more)
    gives the knots; between them a cubic that keeps their order (Fritsch and Butland 1984). How far
    off a drum may lie is learnt by leaving out each example in turn and looking for its year: on
    the curve's own scatter, and on how much the curve may bend between two examples, the most where
    they lie far apart.

    Parameters
    ----------
    examples : sequence of SerialExample
        At least ``FEWEST`` with different numbers.
    """
    ordered = sorted(examples, key=lambda one: (one.number, one.year))
    numbers, years = _knots(ordered)
    some = ordered[:: max(1, math.ceil(len(ordered) / _MOST_LEFT_OUT))]
    scatters, looseness = (
        grid.ravel() for grid in np.meshgrid(_SCATTERS, _LOOSENESS, indexing="ij")
    )
    log_odds = np.zeros(len(scatters))
    for one in some:
        rest_numbers, rest_years = _knots([other for other in ordered if other is not one])
        centre, gap_years = _read(rest_numbers, rest_years, one.number)
        found = np.zeros(len(scatters))
        for share, times in ((1.0 - _ASTRAY, 1.0), (_ASTRAY, _ASTRAY_TIMES)):
            spread = (times * scatters) ** 2 + looseness * gap_years**2 + one.give**2
            found += share * np.exp(-0.5 * (one.year - centre) ** 2 / spread) / np.sqrt(spread)
        log_odds += np.log(found + 1e-300)
    weights = np.exp(log_odds - log_odds.max())
    return SerialCurve(
        numbers=numbers, years=years, scatters=scatters, looseness=looseness,
        weights=weights / weights.sum(),
    )  # fmt: skip


def _knots(ordered: Sequence[SerialExample]) -> tuple[Array, Array]:
    """Return numbers and the years of the curve there; examples of one number count as one."""
    from scipy.optimize import isotonic_regression

    numbers = np.array([one.number for one in ordered], dtype=np.float64)
    given = np.array([one.year for one in ordered])
    known = np.array([1.0 / (one.give**2 + _USUAL_GIVE**2) for one in ordered])
    different, at = np.unique(numbers, return_inverse=True)
    weight = np.bincount(at, weights=known)
    mean = np.bincount(at, weights=known * given) / weight
    return different, np.asarray(isotonic_regression(mean, weights=weight).x)


def _read(numbers: Array, years: Array, number: float) -> tuple[float, float]:
    """Return the year on the curve and the years over which it may bend there."""
    from scipy.interpolate import PchipInterpolator

    rate = float((years[-1] - years[0]) / (numbers[-1] - numbers[0]))
    if number <= numbers[0]:
        ahead = rate * (numbers[0] - number)
        return float(years[0] - ahead), float(ahead)
    if number >= numbers[-1]:
        ahead = rate * (number - numbers[-1])
        return float(years[-1] + ahead), float(ahead)
    at = int(np.searchsorted(numbers, number))
    if numbers[at] == number:
        return float(years[at]), 0.0
    along = (number - numbers[at - 1]) / (numbers[at] - numbers[at - 1])
    gap_years = years[at] - years[at - 1]
    centre = float(PchipInterpolator(numbers, years)(number))
    return centre, float(gap_years * math.sqrt(along * (1.0 - along)))


def _normal_below(deviations: Array) -> Array:
    from scipy.special import ndtr

    return np.asarray(ndtr(deviations))
