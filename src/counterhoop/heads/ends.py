"""The air outside that the ends of a drum carry, each its own and between them.

An end of a cylinder carries less than a head in a wall: behind its rim there is room. What is
missing is a flow about the whole rim, which feels of each shape only its moment (the volume swept,
for m = 0); so does the other end from afar. One figure a depth tells each of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from counterhoop.heads.exterior import baffled_mass, baffled_opening_mass
from counterhoop.heads.shapes import Floats, air_moments, air_norms, head_moments
from counterhoop.sources import load_table

UNFLANGED, FLANGED = 0.6133, 0.8217
"""End corrections of a pipe in radii: H. Levine and J. Schwinger, Physical Review 73 (1948) 383;
Y. Nomura and others, Journal of the Physical Society of Japan 15 (1960) 510 (from memory)."""


def own_share(around: int, deep: float) -> float:
    """Return what share of the wall's air the lowest shape of a head at an end carries.

    Examples
    --------
    >>> round(own_share(0, 1.33), 3), round(own_share(1, 1.33), 3)
    (0.843, 0.949)
    """
    rows = _rows(around)
    return float(np.interp(deep, rows[:, 0], (rows[:, 1] + rows[:, 2]) / 2.0))


def other_share(around: int, deep: float) -> float:
    """Return what share the other end adds when both go outward, or takes when they do not.

    Parameters
    ----------
    around : int
        Nodal diameters; from 3 on it is left out, being far under a cent.
    deep : float
        From end to end, in radii.

    Notes
    -----
    From afar a head with m nodal diameters is a source of order m, whose field falls with the
    power ``2 m + 1``; so that power's root, inverted, goes in straight lines between the rows of
    the table and beyond them. At no depth a disc pumps as if in a wall and goes to and fro as if
    free.

    Examples
    --------
    >>> round(other_share(0, 1.33), 3)
    0.078
    """
    rows = _rows(around)
    half = (rows[:, 1] - rows[:, 2]) / 2.0
    if len(rows) == 1:
        return 0.0
    power = 2 * around + 1
    at, values = rows[:, 0], half ** (-1.0 / power)
    slope = (values[-1] - values[-2]) / (at[-1] - at[-2])
    beyond = max(deep - at[-1], 0.0)
    return float((np.interp(deep, at, values) + slope * beyond) ** -power)


@dataclass(frozen=True, slots=True, eq=False)
class Outside:
    """The air outside both ends, over density and radius cubed; movement counted outward.

    Attributes
    ----------
    batter, other, between : array
        That of each end, shapes (n, n) and (k, k), and what one puts on the other, (n, k); per
        integral of the squared cosine round the rim, as all masses here.
    """

    batter: Floats
    other: Floats
    between: Floats

    @property
    def mass(self) -> Floats:
        """Of both ends together, shape (n + k, n + k)."""
        return np.block([[self.batter, self.between], [self.between.T, self.other]])


@lru_cache(maxsize=256)
def outside_of(around: int, terms: int, deep: float, *, opening_terms: int = 0) -> Outside:
    """Return the air outside a cylinder with heads.

    Parameters
    ----------
    around, terms : int
        Nodal diameters; shapes of a head.
    deep : float
        From end to end, in radii.
    opening_terms : int
        0: heads at both ends. Else the other end is open and its air moves in so many shapes of
        the pipe; plane flow there misses what an unflanged pipe's end correction is shorter by
        than a flanged one's.
    """
    per_moment = float(baffled_mass(around, 1)[0, 0] / head_moments(around, 1)[0] ** 2)
    missing = (1.0 - own_share(around, deep)) * per_moment
    moments = head_moments(around, terms)
    batter = baffled_mass(around, terms) - missing * np.outer(moments, moments)
    if opening_terms:
        far = air_moments(around, opening_terms)
        if around == 0:
            missing = (FLANGED - UNFLANGED) * air_norms(0, 1)[0] / far[0] ** 2
        other = baffled_opening_mass(around, opening_terms) - missing * np.outer(far, far)
    else:
        far, other = moments, batter
    between = other_share(around, deep) * per_moment * np.outer(moments, far)
    return Outside(batter, other, between)


@cache
def _rows(around: int) -> Floats:
    """Depth, share pumping, share the same way; beyond the last nodal diameter as for that."""
    table = [row.values for row in load_table("counterhoop.heads", "ends.toml")]
    known = min(around, max(row["around"] for row in table))
    columns = ("deep", "pumping", "same_way")
    return np.asarray([[row[c] for c in columns] for row in table if row["around"] == known])
