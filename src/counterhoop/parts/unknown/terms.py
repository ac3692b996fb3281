"""One reading held against all candidates, against its kinds at large, and against anything."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.parts.dimension import Dimension
from counterhoop.parts.unknown.candidate import Candidates, Column
from counterhoop.parts.unknown.density import alike, count_near, counted, reading

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NOT_OF_KIND = 0.01
"""A dimension that no candidate of a kind states is seldom one that such a part has. Common
practice, no source."""
NEIGHBOURS = 0.1
"""How often, of a part with more than two holes, two beside each other are measured where the two
farthest are meant. Common practice, no source."""
_BIN = 0.02
_LEAST_SPREAD = 0.5


@dataclass(frozen=True, slots=True)
class Terms:
    """Log densities of readings of one dimension.

    Attributes
    ----------
    fit, near : array, shape (readings, candidates)
        If it is the candidate; if it is another make's part like the candidate.
    broad : array, shape (readings,)
        If it is anything at all.
    """

    fit: Floats
    near: Floats
    broad: Floats


def terms(
    dimension: Dimension,
    value: Floats,
    *,
    doubt: float,
    candidates: Candidates,
    which: Ints,
    fits: bool = True,
    as_new: bool = False,
) -> Terms:
    """Return the log densities of readings, one row each.

    Parameters
    ----------
    dimension : Dimension
        What was, or would be, measured.
    value : array, shape (readings,)
        Readings, in the dimension's unit.
    doubt : float
        Half-width of the instrument's doubt, taken as u = a/sqrt(3) (JCGM 100:2008, 4.3.7).
    candidates : Candidates
        All of them, for what is usual of each kind.
    which : array of int
        The ones wanted.
    fits : bool
        Whether `fit` is wanted; else it is ``near`` over again, which is sooner known.
    as_new : bool
        Whether the reading is what a new one measures, as the name of a thread is: neither wear
        nor casting is in it.
    """
    everywhere = candidates.column(dimension)
    if not np.isfinite(everywhere.size).any():
        return _of_nothing(dimension, value, which)
    column = Column(everywhere.size[which], everywhere.spread[which], everywhere.worn[which])
    at = value[:, None]
    if as_new:
        cast = np.hypot(dimension.about.cast, dimension.about.cast_share * column.size)
        left = np.maximum(column.spread**2 - cast**2, 0.0)
        column = Column(column.size, np.sqrt(left), np.zeros(len(which)))
    broad = _broad(dimension, value, size=everywhere.size, share=candidates.share)
    near = np.empty((len(value), len(which)))
    stated = np.isfinite(column.size)
    shared, size = dimension.about.shared, column.size[stated]
    other = count_near(at, size=size) if _count(dimension) else alike(_positive(at), size=size)
    if fits or shared:
        fit = near.copy()
        fit[:, stated] = _stated(dimension, at, doubt=doubt, column=column, stated=stated)
        if dimension is Dimension.HOLES_APART:
            _or_neighbours(fit, at, doubt=doubt, candidates=candidates, which=which)
    else:
        fit = near
    near[:, stated] = other
    if shared:
        near[:, stated] = np.logaddexp(
            math.log(shared) + fit[:, stated], math.log1p(-shared) + other
        )
    if not stated.all():
        fit[:, ~stated] = near[:, ~stated] = broad[:, None] + math.log(NOT_OF_KIND)
        kinds = candidates.kind_of[which]
        # Kinds of which some state it and some do not: those that do say what is usual.
        held = np.unique(candidates.kind_of[np.isfinite(everywhere.size)])
        for kind in np.intersect1d(kinds[~stated], held):
            of_it = candidates.kind_of == kind
            size, share = everywhere.size[of_it], candidates.share[of_it]
            usual = _usual(dimension, value, size=size, share=share)
            unstated = ~stated & (kinds == kind)
            fit[:, unstated] = near[:, unstated] = usual[:, None]
    return Terms(fit, near, broad)


def _or_neighbours(
    fit: Floats, at: Floats, *, doubt: float, candidates: Candidates, which: Ints
) -> None:
    """Allow that the wrong two of several holes were measured."""
    beside = Dimension.HOLES_APART_2
    second = candidates.column(beside)
    column = Column(second.size[which], second.spread[which], second.worn[which])
    has = np.isfinite(column.size)
    other = _stated(beside, at, doubt=doubt, column=column, stated=has)
    fit[:, has] = np.logaddexp(math.log1p(-NEIGHBOURS) + fit[:, has], math.log(NEIGHBOURS) + other)


def _of_nothing(dimension: Dimension, value: Floats, which: Ints) -> Terms:
    """Return the same for all: nobody states it, so that it tells nothing."""
    broad = (
        count_near(value, size=np.array(4.0))
        if _count(dimension)
        else alike(_positive(value), size=np.array(20.0), width=1.0)
    )
    same = np.repeat(broad[:, None], len(which), axis=1)
    return Terms(same, same, broad)


def _count(dimension: Dimension) -> bool:
    return dimension.unit == "count"


def _positive(value: Floats) -> Floats:
    """Return readings above zero: a width of nothing has no logarithm."""
    return np.maximum(value, 1e-3)


def _stated(
    dimension: Dimension, at: Floats, *, doubt: float, column: Column, stated: NDArray[np.bool_]
) -> Floats:
    size = column.size[stated]
    if _count(dimension):
        return counted(at, size=size)
    sd = np.hypot(column.spread[stated], doubt / math.sqrt(3.0))
    return reading(at - size, sd=sd, worn=column.worn[stated], way=dimension.wear_way)


def _broad(dimension: Dimension, value: Floats, *, size: Floats, share: Floats) -> Floats:
    """Return the density over everything that the book and the shelf hold, with a wide tail."""
    stated = np.isfinite(size)
    if _count(dimension):
        return _usual(dimension, value, size=size, share=share)
    logs, weights = np.log(size[stated]), share[stated] / share[stated].sum()
    mean = float(weights @ logs)
    width = max(_LEAST_SPREAD, 1.5 * math.sqrt(float(weights @ (logs - mean) ** 2)))
    return alike(_positive(value), size=np.array(math.exp(mean)), width=width)


def _usual(dimension: Dimension, value: Floats, *, size: Floats, share: Floats) -> Floats:
    """Return the density over what these candidates state; sizes within a fiftieth are one."""
    stated = np.isfinite(size)
    whole = _count(dimension)
    key = size[stated] if whole else np.round(np.log(size[stated]) / _BIN)
    several, at = np.unique(key, return_inverse=True)
    weights = np.bincount(at, weights=share[stated])
    sizes = several if whole else np.exp(several * _BIN)
    near = count_near if whole else alike
    given = value if whole else _positive(value)
    log = near(given[:, None], size=sizes[None, :]) + np.log(weights / weights.sum())[None, :]
    return np.asarray(np.logaddexp.reduce(log, axis=1))
