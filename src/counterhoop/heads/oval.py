"""What an oval bearing edge does to the pitch round the rim: the same as uneven rods."""

from __future__ import annotations

from counterhoop.heads.believed import believed, believed_radius
from counterhoop.heads.uneven import Doublet, doublet


def oval_doublet(
    even_hz: float, *, difference_m: float, diameter_m: float, long_deg: float = 0.0
) -> Doublet:
    """Return the (1,1) modes of an evenly tensioned head on an oval edge.

    Parameters
    ----------
    even_hz : float
        Pitch on a round edge of the same mean diameter.
    difference_m, diameter_m : float
        Longest less shortest diameter, and the mean of them.
    long_deg : float
        Where along the longest diameter ends.

    Notes
    -----
    An edge ``a (1 + e cos 2 th)`` splits (1,1) by e at first order, which is the difference over
    twice the diameter; the lower mode swings along the longest diameter. Checked against the
    Mathieu functions of an ellipse.

    Examples
    --------
    >>> pair = oval_doublet(220.0, difference_m=0.002, diameter_m=0.3048)
    >>> round(pair.split_cents, 1), pair.tight_deg
    (5.7, 90.0)
    """
    believed_radius(diameter_m / 2.0)
    believed(difference_m, where="difference_m", least=0.0, most=diameter_m / 4.0, unit="m")
    return doublet(even_hz, lean=-difference_m / diameter_m, tight_deg=long_deg)
