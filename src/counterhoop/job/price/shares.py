"""Whole coins shared out so that they add up."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from counterhoop.errors import BadInput


def share_out(total: int, quotas: Sequence[Fraction]) -> tuple[int, ...]:
    """Return whole numbers that add up to ``total``, each as near its quota as they can be.

    Each gets its quota rounded down; what is left goes, one each, to the largest remainders,
    the first of equals first. No share is a whole coin away from its quota, and none that is
    whole already moves. Source: the method of largest remainders (Hamilton's).

    Parameters
    ----------
    total : int
    quotas : sequence of Fraction
        Exact shares; their sum is less than one away from ``total``.

    Raises
    ------
    BadInput
        When the total is no rounding of the sum of the quotas.

    Examples
    --------
    >>> share_out(59, [Fraction(198, 10)] * 3)
    (20, 20, 19)
    """
    if abs(total - sum(quotas, start=Fraction(0))) >= 1:
        raise BadInput("the shares are those of another sum", given=total)
    floors = [quota.__floor__() for quota in quotas]
    largest = sorted(range(len(quotas)), key=lambda at: floors[at] - quotas[at])
    first = set(largest[: total - sum(floors)])
    return tuple(floor + (at in first) for at, floor in enumerate(floors))
