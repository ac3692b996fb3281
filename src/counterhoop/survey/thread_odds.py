"""Odds in the words of the bench."""

from __future__ import annotations

from typing import Literal

Odds = Literal["almost sure", "likely", "could be"]
ALMOST_SURE = 0.95
LIKELY = 0.6


def odds_words(odds: float) -> Odds:
    """Say how far a candidate is to be believed. The bounds are common practice, no source.

    Parameters
    ----------
    odds : float
        From 0 to 1.

    Examples
    --------
    >>> odds_words(0.99), odds_words(0.8), odds_words(0.3)
    ('almost sure', 'likely', 'could be')
    """
    if odds >= ALMOST_SURE:
        return "almost sure"
    return "likely" if odds >= LIKELY else "could be"
