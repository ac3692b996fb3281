"""How likely each value of a feature is on what was made in a year, its ends being soft."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import BadInput
from counterhoop.evidence.reference import End, Value

Array = NDArray[np.float64]
SHARPEST_GIVE = 1e-3
"""Years; an end that is known exactly is taken as known to this."""
_STEP = 0.4
_T = np.exp(np.arange(-20.0, 14.0, _STEP))
_NEVER = 1e-9
_MOST_STATES = 4096


def not_yet_over(end: End | None, years: Array) -> Array:
    """Chance that something whose last year this is was still in use in each year."""
    if end is None:
        return np.ones_like(years)
    return _below((end.year + 0.5 - years) / max(end.give, SHARPEST_GIVE))


def begun(end: End | None, years: Array) -> Array:
    """Chance that something whose first year this is was in use in each year."""
    if end is None:
        return np.ones_like(years)
    return _below((years + 0.5 - end.year) / max(end.give, SHARPEST_GIVE))


def span_weight(value: Value, years: Array) -> Array:
    """Chance that a value was in use in each year; whole years, the first and the last counted.

    Parameters
    ----------
    value : Value
        With its own ends, each normal about its year.
    years : array, shape (n,)
        Whole years.

    Examples
    --------
    >>> badge = Value(
    ...     family="Corvane", feature="badge", name="round", begins=End(year=1950, give=1),
    ...     ends=End(year=1960, give=2), follows="", share=1, lines=(), diameters_mm=(), source="x",
    ... )
    >>> span_weight(badge, np.array([1948.0, 1950.0, 1955.0, 1960.0])).round(2).tolist()
    [0.07, 0.69, 1.0, 0.6]
    """
    return np.asarray(begun(value.begins, years) * not_yet_over(value.ends, years))


def value_chances(values: Sequence[Value], years: Array, *, unlisted: float) -> Array:
    """Chance of each value on something new in each year, and of none of them.

    The mean, over what the ends may have been, of each value's share among those in use. (The
    ratio of the chances of being in use is not that mean where three or more overlap, and it stays
    at one for the first value before anything was in use.) A value that follows another begins the
    moment that one ends: no gap, no overlap, whenever it was.

    Parameters
    ----------
    values : sequence of Value, length k
        Of one feature, one family.
    years : array, shape (n,)
        Whole years.
    unlisted : float
        Weight of what stands in no row, always in use, against one value.

    Returns
    -------
    array, shape (k + 1, n)
        Columns sum to one; the last row is what stands in no row.
    """
    ends = {value.name: value.ends for value in values}
    turns = [name for name in dict.fromkeys(value.follows for value in values) if name in ends]
    over = {name: 1.0 - not_yet_over(ends[name], years) for name in turns}
    chances = np.zeros((len(values) + 1, len(years)))
    for ended, weight in _ended_or_not(over, years):
        at = np.flatnonzero(weight > _NEVER)
        some = years[at]
        in_use = np.array(
            [
                (float(v.follows in ended) if v.follows in over else begun(v.begins, some))
                * (float(v.name not in ended) if v.name in over else not_yet_over(v.ends, some))
                * np.ones_like(some)
                for v in values
            ]
        )
        chances[:-1, at] += weight[at] * _mean_shares(
            in_use, shares=[value.share for value in values], unlisted=unlisted
        )
    chances[-1] = 1.0 - chances[:-1].sum(axis=0)
    return chances.clip(min=0.0)


def _ended_or_not(over: dict[str, Array], years: Array) -> list[tuple[frozenset[str], Array]]:
    """Return which of the values that others follow have ended, with the chance of it by year."""
    states = [(frozenset[str](), np.ones_like(years))]
    for name, gone in over.items():
        states = [
            (more, weight)
            for ended, chance in states
            for more, weight in ((ended, chance * (1.0 - gone)), (ended | {name}, chance * gone))
            if weight.max() > _NEVER
        ]
        if len(states) > _MOST_STATES:
            raise BadInput(
                "too many values follow one another while their years are hardly known",
                where=name, wanted="years known to a few, give or take",
            )  # fmt: skip
    return states


def _mean_shares(in_use: Array, *, shares: Sequence[float], unlisted: float) -> Array:
    """Mean of c_v 1_v / (unlisted + sum of c_u 1_u) over independent chances of being in use.

    With 1/z as the integral of exp(-z t) over t, the mean of a product is the product of means:
    c_v s_v times the integral of exp(-(c_v + c_0) t) times the product over the others of
    (1 - s_u + s_u exp(-c_u t)). By the trapezoidal rule in ln t, which such integrands suit.
    """
    scale = 1.0 / max(*shares, unlisted)
    c = np.array(shares)[:, None, None] * scale
    terms = 1.0 - in_use[:, :, None] + in_use[:, :, None] * np.exp(-c * _T)
    alone = terms.prod(axis=0)[None] / np.maximum(terms, 1e-300)
    alone *= np.exp(-(c + unlisted * scale) * _T) * _T * _STEP
    return np.asarray(c[:, :, 0] * in_use * alone.sum(axis=2))


def _below(deviations: Array) -> Array:
    """Return the normal distribution function."""
    return np.array([0.5 * math.erfc(-z / math.sqrt(2.0)) for z in deviations.tolist()])
