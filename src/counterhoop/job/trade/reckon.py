"""The sums of a value on the scale of ln(price): which sales count, what they say, how widely."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from counterhoop.job.trade.likeness import Kernel, kernels
from counterhoop.job.trade.weighted import Array, effective_number, weighted_median

HELD = 0.8
"""Share of drums whose price is to lie in the span."""
HALF_LIFE_DAYS = 730.0
"""A sale of two years ago counts half. Common practice, no source."""
ENOUGH_EFFECTIVE = 3.0
ENOUGH_ALIKE = 1.0
"""Below these, sales are few and a feature is let go: sales of equal weight, and the sum of
weights, in which the same drum sold today counts 1. Common practice, no source."""
LEAST_ALIKE = 0.3
"""Below this sum, after all was let go, nothing is like it. Common practice, no source."""
USUAL_SPREAD = 0.25
USUAL_TIMES = 4.0
"""Spread of ln(price) of drums that one calls alike, and how many sales that belief weighs.
Common practice, no source."""
MEDIAN_COSTS = math.pi / 2.0
"""Variance of a median over that of a mean, of normal readings, many of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """What sales say of one drum; all on the scale of ln(price).

    Attributes
    ----------
    centre, half : float
        Middle, and half-width of the span before it is held against the shop's own sales.
    weights : array, shape (n,)
    effective, alike : float
    let_go : tuple of Kernel
    """

    centre: float
    half: float
    weights: Array
    effective: float
    alike: float
    let_go: tuple[Kernel, ...]


def freshness(days: Array) -> Array:
    """Return what sales count by their age in days, 1 for today's."""
    return np.asarray(0.5 ** (np.abs(days) / HALF_LIFE_DAYS))


def reckon(factors: Mapping[str, Array], logs: Array, fresh: Array) -> Reckoned | None:
    """Weigh sales for one drum; None when nothing is like it.

    Features are let go one by one, in the order of the table, until enough sales are left; each
    that is let go widens the span by what drums that differ in it are usually apart.

    Parameters
    ----------
    factors : mapping of array, shape (n,)
        Likeness by feature.
    logs : array, shape (n,)
        ln(price).
    fresh : array, shape (n,)
        What each sale counts by its age; 0 leaves it out.
    """
    order = sorted((one for one in kernels() if one.let_go), key=lambda one: one.let_go)
    for many in range(len(order) + 1):
        gone = {one.feature for one in order[:many]}
        weights = np.array(fresh, dtype=float)
        for feature, alike in factors.items():
            if feature not in gone:
                weights = weights * alike
        total = float(weights.sum())
        if total <= 0.0:
            return None
        effective = effective_number(weights)
        if effective >= ENOUGH_EFFECTIVE and total >= ENOUGH_ALIKE:
            break
    if total < LEAST_ALIKE:
        return None
    let_go = tuple(order[:many])
    return Reckoned(
        centre=weighted_median(logs, weights),
        half=_half_width(logs, weights, effective=effective, let_go=let_go),
        weights=weights,
        effective=effective,
        alike=total,
        let_go=let_go,
    )


def _half_width(
    logs: Array, weights: Array, *, effective: float, let_go: tuple[Kernel, ...]
) -> float:
    """Half-width of the span for one more drum: the usual spread and the seen one, pooled.

    The usual spread stands as ``USUAL_TIMES`` degrees of freedom in a scaled inverse chi-square
    law, so one or two sales give a span too. Source: Gelman et al., Bayesian Data Analysis,
    section 3.2 (from memory).
    """
    from scipy.special import stdtrit

    shares = weights / weights.sum()
    mean = float(shares @ logs)
    seen = effective * float(shares @ (logs - mean) ** 2)
    freedom = USUAL_TIMES + max(0.0, effective - 1.0)
    variance = (USUAL_TIMES * USUAL_SPREAD**2 + seen) / freedom
    variance *= 1.0 + MEDIAN_COSTS / effective
    variance += sum(one.apart**2 for one in let_go)
    return float(stdtrit(freedom, 0.5 + HELD / 2.0)) * math.sqrt(variance)
