"""Linear programmes in few unknowns: the one solver under zones and planes to sand to."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from counterhoop.errors import CannotDo

Array = NDArray[np.float64]
FAR_MM = 1e4
"""The search begins at a corner this far away; no reading of a drum is."""
ROUNDING = 1e-11
"""A limit broken by less is not: stations a hundredth of a degree apart round so far."""
MOST_EXCHANGES = 1000
PATIENCE = 200
"""After so many exchanges the first broken limit enters, not the worst: that cannot circle."""


def lowest_corner(rows: Array, limits: Array, *, aims: Array) -> Array:
    """Return the unknowns that make ``aims[0] @ x`` least, and then ``aims[1] @ x``.

    Held by ``rows @ x <= limits``. The dual simplex method (Lemke 1954; Bland 1977 against
    circling; both from memory): from a far corner the worst broken limit enters, one of the
    holding ones leaves, until none is broken. The last corner is solved from its own limits
    alone, so that it is exact to rounding.

    Parameters
    ----------
    rows : array, shape (limits, unknowns)
    limits : array, shape (limits,)
    aims : array, shape (2, unknowns)

    Returns
    -------
    array, shape (unknowns,)

    Raises
    ------
    CannotDo
        When the limits contradict each other.

    Examples
    --------
    The least x with x >= 1 and x >= 3, and of those the least y with y >= x - 2:

    >>> rows = np.array([(-1.0, 0.0), (-1.0, 0.0), (1.0, -1.0)])
    >>> lowest_corner(rows, np.array([-1.0, -3.0, 2.0]), aims=np.eye(2)).tolist()
    [3.0, 1.0]
    """
    count, unknowns = rows.shape
    pull = np.where(aims[0] != 0.0, aims[0], aims[1])
    full = np.vstack((rows, np.diag(np.where(pull > 0.0, -1.0, 1.0))))
    held = np.append(limits, np.full(unknowns, FAR_MM))
    enough = ROUNDING * max(1.0, float(np.abs(limits).max()))
    chosen = list(range(count, count + unknowns))
    pulls = np.vstack((-aims, np.zeros(unknowns)))
    inverse, fresh = np.linalg.inv(full[chosen]), True
    for exchanges in range(MOST_EXCHANGES):
        found: Array = inverse @ held[chosen]
        over = full @ found - held
        over[chosen] = 0.0
        patient = exchanges < PATIENCE
        enters = int(over.argmax() if patient else (over > enough).argmax())
        if over[enters] <= enough:
            if fresh:
                return found
            inverse, fresh = np.linalg.inv(full[chosen]), True
            continue
        pulls[2] = full[enters]
        first, second, moves = (pulls @ inverse).tolist()
        # The aims pull on the limits that hold; equal pulls are told apart by the second aim.
        free = [
            (round(first[i] / move, 13), second[i] / move, chosen[i], i)
            for i, move in enumerate(moves)
            if move > 1e-12
        ]
        if not free:
            break
        leaves = min(free)[-1]
        chosen[leaves] = enters
        # One row is exchanged, so the inverse changes by one product (Sherman and Morrison 1950).
        change = np.array(moves)
        change[leaves] -= 1.0
        inverse = inverse - inverse[:, leaves, None] * (change / moves[leaves])
        fresh = False
    raise CannotDo(
        "no plane or circle answers to these readings; see whether two stations coincide"
    )
