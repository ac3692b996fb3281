"""The limit that a scheme comes nearest to: what its margin is made of."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearest:
    """One distance held against its limit.

    Attributes
    ----------
    fact : str
        What lies how far off, without a full stop.
    where : str
        The hole, lug or fitting in words.
    rule : str
        Name of the shop rule that decides.
    measured_mm, limit_mm, doubt_mm : float
        The distance, the least it may be, and the half-width of its doubt.
    """

    fact: str
    where: str
    rule: str
    measured_mm: float
    limit_mm: float
    doubt_mm: float
