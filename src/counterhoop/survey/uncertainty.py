"""How sure a figure is: the Guide to the Expression of Uncertainty (JCGM 100:2008, from memory)."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.errors import BadInput


def from_half_width(half_width: float) -> float:
    """Return the standard uncertainty of a value that lies anywhere within a half-width.

    JCGM 100:2008, 4.3.7: the half-width over the root of 3.

    Examples
    --------
    >>> round(from_half_width(0.5), 4)
    0.2887
    """
    _not_negative(half_width, "half_width")
    return half_width / math.sqrt(3.0)


def from_resolution(step: float) -> float:
    """Return the standard uncertainty of a reading to the nearest step (JCGM 100:2008, F.2.2.1).

    Examples
    --------
    >>> round(from_resolution(0.01), 5)
    0.00289
    """
    _not_negative(step, "step")
    return from_half_width(step / 2.0)


def doubt_between(step: float) -> float:
    """Return the half-width of the doubt of the difference of two readings to the nearest step.

    Twice its standard uncertainty, about 95 in 100 (JCGM 100:2008, 6.2.1 and eq. 10).

    Examples
    --------
    >>> round(doubt_between(0.1), 3)
    0.082
    """
    return 2.0 * math.sqrt(2.0) * from_resolution(step)


def combine(parts: Sequence[float], *, sensitivities: Sequence[float] | None = None) -> float:
    """Return the combined standard uncertainty of independent parts (JCGM 100:2008, eq. 10).

    Parameters
    ----------
    parts : sequence of float
        Standard uncertainties.
    sensitivities : sequence of float, optional
        How much the result moves for each; 1 when not given.

    Examples
    --------
    >>> combine((3.0, 4.0))
    5.0
    """
    factors = [1.0] * len(parts) if sensitivities is None else list(sensitivities)
    if len(factors) != len(parts):
        raise BadInput(
            "not one sensitivity for each part",
            where="sensitivities",
            given=len(factors),
            wanted=f"{len(parts)} of them",
        )
    for part in parts:
        _not_negative(part, "parts")
    return math.hypot(*(f * p for f, p in zip(factors, parts, strict=True)))


def effective_freedom(parts: Sequence[float], freedoms: Sequence[float]) -> float:
    """Return the effective degrees of freedom (Welch-Satterthwaite; JCGM 100:2008, eq. G.2b).

    ``math.inf`` stands for a part that is known for certain.

    Examples
    --------
    >>> round(effective_freedom((1.0, 1.0), (4.0, 4.0)), 9), effective_freedom((1.0,), (math.inf,))
    (8.0, inf)
    """
    if len(parts) != len(freedoms) or any(not f > 0.0 for f in freedoms):
        raise BadInput(
            "not one count of freedoms, greater than 0, for each part",
            where="freedoms",
            given=tuple(freedoms),
            wanted=f"{len(parts)} of them",
        )
    below = sum(p**4 / f for p, f in zip(parts, freedoms, strict=True))
    return combine(parts) ** 4 / below if below > 0.0 else math.inf


def coverage_factor(freedom: float, *, share: float = 0.95) -> float:
    """Return k: how many standard uncertainties to each side hold this share.

    Student's t with the freedoms rounded down to a whole number (JCGM 100:2008, G.4.1 and
    table G.2).

    Examples
    --------
    >>> round(coverage_factor(math.inf), 3), round(coverage_factor(10.9), 2)
    (1.96, 2.23)
    """
    from scipy.special import ndtri, stdtrit

    if not 0.0 < share < 1.0 or not freedom >= 1.0:
        raise BadInput(
            "no coverage factor",
            where="coverage",
            given=(freedom, share),
            wanted="at least 1 degree of freedom and a share between 0 and 1",
        )
    upper = (1.0 + share) / 2.0
    return float(ndtri(upper) if math.isinf(freedom) else stdtrit(math.floor(freedom), upper))


def _not_negative(value: float, where: str) -> None:
    if not value >= 0.0 or math.isinf(value):
        raise BadInput(
            "not a doubt", where=where, given=value, wanted="a number that is 0 or greater"
        )
