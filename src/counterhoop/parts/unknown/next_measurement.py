"""The next measurement that would tell most, its trouble counted."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.parts.dimension import Dimension, print_size, usual_doubt
from counterhoop.parts.unknown.candidate import Candidates
from counterhoop.parts.unknown.odds import Odds, weigh
from counterhoop.parts.unknown.terms import terms

Floats = NDArray[np.float64]

TO_AND_FRO_MIN = 0.5
"""Taking up the tool and writing the reading down. Common practice, no source."""
TELLS_NOTHING = 0.05
"""Bits; a measurement that tells no more is not worth taking."""
OFTEN = 0.5
"""What fewer of the likely kinds have is not asked for."""
AS_LIKELY, MAY_BE_NONE, TOO_NEAR = 4.0, 0.2, 1.5
"""What is at least a fourth as likely as the first is left beside it; when it may well be none of
these, sizes that all of them share tell something too; sizes within one and a half times the
instrument's doubt cannot be told apart on a worn part. Common practice, no source."""
_MOST = 40
_MOST_ALIKE = 60
_AROUND = np.linspace(-6.0, 6.0, 13)
_ACROSS, _MOST_COUNTED = 80, 200.0
"""Fewer of these are quicker and choose worse; more of them, up to five times as many nodes, choose
the same and change what a measurement tells by no more than a twentieth of a bit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextMeasurement:
    """One more measurement.

    Attributes
    ----------
    dimension : Dimension
        Of what.
    drop_bits, leaves_bits : float
        By how much it is expected to lower the entropy of what is left, where the part has this at
        all; and what stays.
    minutes : float
        How long it takes.
    says : str
        How to take it, and between which two it would tell.
    """

    dimension: Dimension
    drop_bits: float
    leaves_bits: float
    minutes: float
    says: str


def entropy_bits(shares: Floats) -> float:
    """Return the entropy of shares that add up to 1.

    Examples
    --------
    >>> entropy_bits(np.array([0.5, 0.25, 0.25, 0.0]))
    1.5
    """
    held = shares[shares > 0.0]
    return float(-(held * np.log2(held)).sum())


def expected_drop_bits(shares: Floats, densities: Floats, weights: Floats) -> float:
    """Return by how much a reading is expected to lower the entropy of classes.

    The mutual information of class and reading by quadrature: each class's density is made to
    integrate to 1 over the nodes first, so that the result lies between 0 and the entropy.

    Parameters
    ----------
    shares : array, shape (classes,)
        How likely each is now.
    densities : array, shape (nodes, classes)
        Of a reading, for each.
    weights : array, shape (nodes,)
        Of the nodes; 1 for a count.

    Examples
    --------
    >>> apart = np.array([[1.0, 0.0], [0.0, 1.0]])
    >>> expected_drop_bits(np.array([0.5, 0.5]), apart, np.ones(2))
    1.0
    """
    mass = densities * weights[:, None]
    total = mass.sum(axis=0)
    joint = shares[None, :] * np.divide(mass, total, out=np.zeros_like(mass), where=total > 0.0)
    alone = joint.sum(axis=1)[:, None] * joint.sum(axis=0)[None, :]
    held = joint > 0.0
    return max(0.0, float((joint[held] * np.log2(joint[held] / alone[held])).sum()))


def next_measurement(found: Odds, candidates: Candidates) -> NextMeasurement | None:
    """Return the measurement that tells most for its minutes; None when none tells anything.

    Parameters
    ----------
    found : Odds
        What is thought now.
    candidates : Candidates
        What it was found among.
    """
    offered = measurements(found, candidates)
    return offered[0] if offered and offered[0].drop_bits > TELLS_NOTHING else None


def measurements(found: Odds, candidates: Candidates) -> tuple[NextMeasurement, ...]:
    """Return every measurement not yet taken that a likely candidate states, the best first.

    Where several candidates are left, one of them surely, what differs between them by less than
    the instrument can tell is not among them.

    Best is most bits for each minute, the way to the tool and back counted with them.
    """
    now = _now(found, candidates)
    taken = {one.dimension for one in found.measured}
    offered = [
        _offer(what, now, candidates, has=has)
        for what in Dimension
        if what not in taken
        and (has := _has(what, found, candidates)) >= OFTEN
        and _can_tell(what, now, candidates)
    ]
    return tuple(sorted(offered, key=lambda one: -one.drop_bits / (one.minutes + TO_AND_FRO_MIN)))


@dataclass(frozen=True, slots=True)
class _Now:
    """The likeliest candidates, what the rest is like, and how likely each class is.

    ``shares`` holds the candidates ``which`` and none of these at its end; ``alike`` are those
    that an unknown make would resemble, by ``alike_shares``, with "anything" at its end.
    """

    which: NDArray[np.int64]
    shares: Floats
    alike: NDArray[np.int64]
    alike_shares: Floats


def _now(found: Odds, candidates: Candidates) -> _Now:
    weighed = weigh(found.measured, candidates, seen=found.seen)
    which = np.argsort(-weighed.fit, kind="stable")[: min(_MOST, len(found.ranked))]
    alike = np.argsort(-weighed.near, kind="stable")[:_MOST_ALIKE]
    shares = np.array([*(one.odds for one in found.ranked[:_MOST]), found.none])
    other = np.array([*weighed.near[alike], weighed.broad])
    other = np.exp(other - other.max())
    return _Now(which, shares / shares.sum(), alike, other / other.sum())


def _can_tell(what: Dimension, now: _Now, candidates: Candidates) -> bool:
    """Tell whether a reading could part those that are left, or one that is left from the rest."""
    *shares, none = now.shares
    left = now.which[: len(shares)][np.array(shares) >= max(shares, default=0.0) / AS_LIKELY]
    if len(left) < 2 or none >= MAY_BE_NONE:
        return True
    size = candidates.column(what).size[left]
    if not np.isfinite(size).all():
        return True
    return bool(size.max() - size.min() > TOO_NEAR * usual_doubt(what))


def _has(what: Dimension, found: Odds, candidates: Candidates) -> float:
    """Return how likely the part has this at all, by the kinds of the named candidates."""
    stated = np.isfinite(candidates.column(what).size)
    kinds = {candidates.kinds[kind] for kind in np.unique(candidates.kind_of[stated])}
    named = found.ranked[:_MOST]
    whole = sum(one.odds for one in named)
    return sum(one.odds for one in named if one.candidate.kind in kinds) / whole if whole else 0.0


def _offer(what: Dimension, now: _Now, candidates: Candidates, *, has: float) -> NextMeasurement:
    doubt = usual_doubt(what)
    nodes, weights = _nodes(what, now, candidates, doubt=doubt)
    log = terms(what, nodes, doubt=doubt, candidates=candidates, which=now.which)
    other = terms(what, nodes, doubt=doubt, candidates=candidates, which=now.alike, fits=False)
    none = np.exp(np.column_stack((other.near, other.broad))) @ now.alike_shares
    drop = has * expected_drop_bits(now.shares, np.column_stack((np.exp(log.fit), none)), weights)
    return NextMeasurement(
        dimension=what,
        drop_bits=drop,
        leaves_bits=entropy_bits(now.shares) - drop,
        minutes=what.about.minutes,
        says=_says(what, now, candidates),
    )


def _nodes(
    what: Dimension, now: _Now, candidates: Candidates, *, doubt: float
) -> tuple[Floats, Floats]:
    """Return where the densities are looked at: close about each size, wide between."""
    column = candidates.column(what)
    size = column.size[now.which]
    size = size[np.isfinite(size)]
    if what.unit == "count":
        nodes = np.arange(0.0, min(float(size.max(initial=0.0)), _MOST_COUNTED) + 30.0)
        return nodes, np.ones(len(nodes))
    sd = np.hypot(column.spread[now.which], doubt / math.sqrt(3.0)) + column.worn[now.which]
    sd = sd[np.isfinite(column.size[now.which])]
    size, at = np.unique(size.round(2), return_index=True)
    sd = sd[at]
    close = (size[:, None] + sd[:, None] * _AROUND[None, :]).ravel()
    every = column.size[np.isfinite(column.size)]
    wide = np.geomspace(float(every.min()) / 3.0, float(every.max()) * 3.0, _ACROSS)
    nodes = np.unique(np.concatenate((close[close > 0.0], wide)))
    return nodes, np.gradient(nodes)


def _says(what: Dimension, now: _Now, candidates: Candidates) -> str:
    """Say how, and name the two likeliest that it tells apart."""
    column = candidates.column(what)
    told = what.about.taken
    known = {
        int(at): float(share)
        for at, share in zip(now.which, now.shares, strict=False)
        if math.isfinite(column.size[at])
    }
    if not known:
        return told
    first, doubt = next(iter(known)), usual_doubt(what)

    def apart(at: int) -> float:
        return abs(float(column.size[at] - column.size[first]))

    far = max(known, key=lambda at: known[at] * min(apart(at), 2.0 * doubt or 1.0))
    if apart(far) == 0.0:
        return told
    return (
        f"{told} "
        + ", ".join(
            f"{candidates.each[at].name} has {print_size(what, column.size[at], doubt=doubt)}"
            for at in (first, far)
        )
        + "."
    )
