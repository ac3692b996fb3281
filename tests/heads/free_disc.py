"""A head in free air without a shell: the flow past a thin disc, in closed form.

The jump of the potential goes in ``r^m sqrt(1 - r^2) P_n^(m,1/2)(1 - 2 r^2)``, whose Hankel
transform is ``c_n k^(-3/2) J_(m + 2n + 3/2)(k)`` with ``c_n = sqrt(2) Gamma(n + 3/2) / n!``; the
energy of the flow is then diagonal (P. A. Martin, Journal of Engineering Mathematics 33 (1998)
421, from memory).
"""

from __future__ import annotations

import math

import numpy as np
from scipy.special import eval_jacobi, gamma

JUMPS = 60


def free_mass(around, shape, *, jumps=JUMPS):
    """Return air carried on both sides over density and radius cubed, for ``shape(r)``.

    Per integral of the squared cosine round the rim.
    """
    places, weights = np.polynomial.legendre.leggauss(400)
    r, weight = (places + 1.0) / 2.0, weights / 2.0
    total = 0.0
    for n in range(jumps):
        jump = r**around * np.sqrt(1.0 - r**2) * eval_jacobi(n, around, 0.5, 1.0 - 2.0 * r**2)
        met = float(np.sum(weight * jump * shape(r) * r))
        c = math.sqrt(2.0) * gamma(n + 1.5) / math.factorial(n)
        total += met**2 / (c**2 / (4.0 * (around + 2 * n + 1.5)))
    return total
