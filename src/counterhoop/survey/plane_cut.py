"""The linear programme behind a truing plan."""

from __future__ import annotations

from typing import Literal

import numpy as np

from counterhoop.errors import CannotDo
from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.plane_edge import rim_columns
from counterhoop.survey.plane_zone import Array
from counterhoop.survey.round_stations import shares

TIGHT = {"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10}


def cut_planes(
    edges: tuple[EdgeHeights, ...], *, least: Literal["most", "total"], lean: Array | None = None
) -> tuple[Array, ...]:
    """Return the factors of a plane under each edge, least wood above them.

    Parameters
    ----------
    edges : tuple of EdgeHeights
        One or two.
    least : {"most", "total"}
        Which is made least first; the other decides between plans that are as good.
    lean : array, shape (2,), optional
        The planes' ``cos`` and ``sin`` add up to minus this, so that the ends are parallel.

    Returns
    -------
    tuple of array, shape (3,)
    """
    from scipy.optimize import linprog

    size = 3 * len(edges) + 1
    rows, bounds_on, total = [], [], np.zeros(size)
    for number, edge in enumerate(edges):
        columns, heights = rim_columns(edge), np.asarray(edge.height_mm)
        at = slice(3 * number, 3 * number + 3)
        under, over = np.zeros((2, len(heights), size))
        under[:, at] = columns
        over[:, at], over[:, -1] = -columns, -1.0
        rows += [under, over]
        bounds_on += [heights, -heights]
        total[at] = -np.asarray(shares(edge.along_deg)) @ columns
    most = np.zeros(size)
    most[-1] = 1.0
    same = None
    if lean is not None:
        same = np.zeros((2, size))
        for number in range(len(edges)):
            same[0, 3 * number + 1] = same[1, 3 * number + 2] = 1.0
    first, second = (most, total) if least == "most" else (total, most)
    table, limits = np.vstack(rows), np.concatenate(bounds_on)
    for aim in (first, second):
        found = linprog(
            aim,
            A_ub=table,
            b_ub=limits,
            A_eq=same,
            b_eq=None if same is None else -np.asarray(lean),
            bounds=[(None, None)] * (size - 1) + [(0.0, None)],
            method="highs",
            options=TIGHT,
        )
        if found.status != 0:
            raise CannotDo(f"no plane to sand to was found: {found.message}")
        solved = np.asarray(found.x, dtype=np.float64)
        # What was reached first is held to 1e-10 while the other is made least.
        table = np.vstack((table, first))
        limits = np.append(limits, float(found.fun) + 1e-10)
    return tuple(solved[3 * n : 3 * n + 3] for n in range(len(edges)))
