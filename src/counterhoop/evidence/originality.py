"""Which parts are the drum's first, which came later, and what cannot be told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from counterhoop.evidence.ground import Ground
from counterhoop.evidence.in_use import Array
from counterhoop.evidence.year import YearOdds
from counterhoop.survey.thread_odds import LIKELY

Origin = Literal["original", "of the period", "later", "earlier", "can't tell"]
PERIOD_YEARS = 3
"""A part made within so many years of the drum is of its period. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """Of what was seen on a part: how much of it each origin explains, by line, hand and year.

    Arrays of shape (lines, hands, n) that sum to one: the first part; another made within the
    period; another made after it; another made before (off an older drum).
    """

    original: Array
    of_the_period: Array
    later: Array
    earlier: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOrigin:
    """What a part is, in a word and in odds that sum to one."""

    part: str
    features: tuple[str, ...]
    word: Origin
    original: float
    of_the_period: float
    later: float
    earlier: float


def shares_of(part: str, fit: Array, ground: Ground) -> Shares:
    """Return how much each origin of a part explains of what was seen on it."""
    after = ground.years[None, :] - ground.years[:, None]
    masks = (abs(after) <= PERIOD_YEARS, after > PERIOD_YEARS, after < -PERIOD_YEARS)
    made = ground.made[part]
    kept = np.stack([fit * one.kept for one in made], axis=1)
    others = [np.stack([fit @ (one.other * mask).T for one in made], axis=1) for mask in masks]
    whole = kept + others[0] + others[1] + others[2]
    return Shares(
        original=kept / whole,
        of_the_period=others[0] / whole,
        later=others[1] / whole,
        earlier=others[2] / whole,
    )


def origins_of(odds: YearOdds, features: Mapping[str, tuple[str, ...]]) -> tuple[PartOrigin, ...]:
    """Return the origin of every part of which something was seen.

    Parameters
    ----------
    odds : YearOdds
        With what was seen.
    features : dict
        Features seen, by part.
    """
    found = []
    for part, fit in odds.fits.items():
        shares = shares_of(part, fit, odds.ground)
        by_word: dict[Origin, float] = {
            "original": float((odds.joint * shares.original).sum()),
            "of the period": float((odds.joint * shares.of_the_period).sum()),
            "later": float((odds.joint * shares.later).sum()),
            "earlier": float((odds.joint * shares.earlier).sum()),
        }
        word = max(by_word, key=lambda one: by_word[one])
        found.append(
            PartOrigin(
                part=part,
                features=features[part],
                word=word if by_word[word] >= LIKELY else "can't tell",
                original=by_word["original"],
                of_the_period=by_word["of the period"],
                later=by_word["later"],
                earlier=by_word["earlier"],
            )
        )
    return tuple(found)
