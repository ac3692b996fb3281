"""How one reading speaks for or against a candidate, in words and figures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.parts.dimension import Dimension, Measured, print_size
from counterhoop.parts.unknown.candidate import Candidate

_FITS, _EDGE = 1.5, 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Penalty:
    """One reading against one candidate.

    Attributes
    ----------
    dimension : Dimension
        Which.
    by : float
        Reading less the size when new, in the dimension's unit.
    sigmas : float
        That, in standard deviations of what casting and instrument explain; on the side to which
        wear moves it, of what wear explains as well.
    says : str
        In words, with the figures as fine as the instrument gave them.
    """

    dimension: Dimension
    by: float
    sigmas: float
    says: str


def penalties_of(candidate: Candidate, measured: Sequence[Measured]) -> tuple[Penalty, ...]:
    """Return every reading of a dimension that the candidate states, the worst first."""
    found = [_penalty(candidate, one) for one in measured if one.dimension in candidate.dims]
    return tuple(sorted(found, key=lambda penalty: -abs(penalty.sigmas)))


def _penalty(candidate: Candidate, one: Measured) -> Penalty:
    what, size = one.dimension, candidate.dims[one.dimension]
    by = one.value - size
    if what.unit == "count":
        says = f"{what}: {one}, as it has" if by == 0 else f"{what}: {one}, it has {size:.0f}"
        return Penalty(dimension=what, by=by, sigmas=by and math.copysign(_EDGE, by), says=says)
    worn = candidate.worn.get(what, 0.0) if by * what.wear_way > 0 else 0.0
    explained = math.hypot(candidate.spread.get(what, 0.0), one.doubt / math.sqrt(3.0), worn)
    sigmas = by / explained
    held = candidate.as_read.get(what, size)
    like, off = print_size(what, held, doubt=one.doubt), _apart(one, held)
    way = f"{off} {'more' if one.value > held else 'less'} than its {like}"
    if abs(one.value - held) <= 1.001 * one.doubt:
        told = f"fits its {like}"
    elif abs(sigmas) <= _FITS:
        told = f"{way}, as wear would leave it" if worn else f"{way}, which is usual"
    elif abs(sigmas) <= _EDGE:
        told = f"{way}, which is seldom"
    elif (beside := _neighbours(candidate, one)) is not None:
        told = f"so far its neighbouring holes are apart; the two farthest are {like}"
        by, sigmas = beside
    else:
        told = f"{way}, too far off for one of its make"
    return Penalty(dimension=what, by=by, sigmas=sigmas, says=f"{what} {one}: {told}")


def _apart(one: Measured, held: float) -> str:
    """Return how far two printed sizes are apart, so that the figures in a sentence add up."""
    shown = (print_size(one.dimension, size, doubt=one.doubt) for size in (one.value, held))
    first, second = (float(text.split()[0]) for text in shown)
    return print_size(one.dimension, abs(first - second), doubt=one.doubt)


def _neighbours(candidate: Candidate, one: Measured) -> tuple[float, float] | None:
    """Return how a reading fits two holes beside each other, if it does."""
    beside = Dimension.HOLES_APART_2
    if one.dimension is not Dimension.HOLES_APART or beside not in candidate.dims:
        return None
    by = one.value - candidate.dims[beside]
    sigmas = by / math.hypot(candidate.spread.get(beside, 0.0), one.doubt / math.sqrt(3.0))
    return (by, sigmas) if abs(sigmas) <= _EDGE else None
