"""What the year rests on, and what to look at next: how much each look tells, in bits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from counterhoop.evidence.in_use import Array
from counterhoop.evidence.reference import UNLISTED
from counterhoop.evidence.seen import SURE
from counterhoop.evidence.year import YearOdds, eye, joint_of, on_drum

FETCHING_MINUTES = 5.0
"""Taking up a drum and a lamp, whatever is looked at then. Common practice, no source."""
WORTH_BITS = 0.05
"""A look that tells less is not proposed; a bit halves the years."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextFeature:
    """A feature not yet seen, and what a look at it is expected to tell of the year."""

    feature: str
    part: str
    drop_bits: float
    minutes: float
    look: str

    @property
    def rate(self) -> float:
        """Bits a minute, fetching counted."""
        return self.drop_bits / (self.minutes + FETCHING_MINUTES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Carries:
    """How much the years would change without what was seen on a part, in bits."""

    part: str
    features: tuple[str, ...]
    bits: float


def entropy_bits(p: Array) -> float:
    """Return the entropy of odds.

    Examples
    --------
    >>> entropy_bits(np.array([0.25, 0.25, 0.25, 0.25, 0.0]))
    2.0
    """
    some = p[p > 0.0]
    return float(-(some * np.log2(some)).sum())


def carried_by(odds: YearOdds, features: Mapping[str, tuple[str, ...]]) -> tuple[Carries, ...]:
    """Return what the years rest on, most first: the relative entropy against leaving it out."""
    p = odds.p
    found = []
    for part in odds.fits:
        rest = {name: fit for name, fit in odds.fits.items() if name != part}
        without = joint_of(rest, odds.ground).sum(axis=(0, 1))
        some = p > 0.0
        bits = float((p[some] * np.log2(p[some] / without[some])).sum())
        found.append(Carries(part=part, features=features[part], bits=max(0.0, bits)))
    return tuple(sorted(found, key=lambda one: -one.bits))


def next_features(odds: YearOdds, *, seen: set[str]) -> tuple[NextFeature, ...]:
    """Return the features not yet seen that are worth a look, the most telling a minute first.

    The drop is the mean over what the look may report, as likely as it is by now; that it may show
    something that stands in no row is one of them.

    Parameters
    ----------
    odds : YearOdds
        By now.
    seen : set of str
        Features that need no second look.
    """
    ground = odds.ground
    before = entropy_bits(odds.p)
    by_part: dict[str, Array] = {}
    found = []
    for name, table in ground.features.items():
        if name in seen:
            continue
        if table.part not in by_part:
            by_part[table.part] = _rest(odds, table.part)
        rest, fit = by_part[table.part], odds.fits.get(table.part, np.ones_like(ground.prior))
        drop = 0.0
        for value in (*table.names, UNLISTED):
            by_year = (rest * on_drum(table.part, fit * eye(table, value, sure=SURE), ground)).sum(
                axis=(0, 1)
            )
            mass = float(by_year.sum())
            if mass > 0.0:
                drop += mass * (before - entropy_bits(by_year / mass))
        feature = ground.reference.feature(name)
        if drop >= WORTH_BITS:
            found.append(
                NextFeature(
                    feature=name, part=table.part, drop_bits=drop, minutes=feature.minutes,
                    look=feature.look,
                )
            )  # fmt: skip
    return tuple(sorted(found, key=lambda one: (-one.rate, one.feature)))


def _rest(odds: YearOdds, part: str) -> Array:
    """Odds by line, hand and year without what was seen on this part, not brought to one."""
    if part not in odds.fits:
        return odds.joint
    return np.asarray(odds.joint / on_drum(part, odds.fits[part], odds.ground))
