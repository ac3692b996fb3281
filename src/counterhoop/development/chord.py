"""Along the skin and straight across: what a tape reads and what dividers step."""

from __future__ import annotations

import math

from counterhoop.errors import BadInput


def chord_mm(arc_mm: float, *, radius_mm: float) -> float:
    """Straight distance between two places that lie ``arc_mm`` apart along the skin.

    Parameters
    ----------
    arc_mm : float
        Along the skin, 0 to once round.
    radius_mm : float
        Of that skin.

    Returns
    -------
    float
        ``2 R sin(arc / 2R)``; exact for a round shell, for places at one height (Euclid,
        Elements III).

    Raises
    ------
    BadInput
        For a radius that is not positive, or an arc below 0 or longer than once round.

    Examples
    --------
    Six lugs on a shell of 302.6 over finish.

    >>> round(chord_mm(158.44, radius_mm=151.3), 2)
    151.3
    """
    _radius(radius_mm)
    if not 0.0 <= arc_mm <= 2.0 * math.pi * radius_mm * (1.0 + 1e-12):
        raise BadInput(
            "the way along the skin is not on this shell",
            where="arc_mm",
            given=arc_mm,
            wanted=f"0 to {2.0 * math.pi * radius_mm:.1f} mm, once round",
        )
    return 2.0 * radius_mm * math.sin(arc_mm / (2.0 * radius_mm))


def arc_mm(chord_mm: float, *, radius_mm: float) -> float:
    """Way along the skin, the shorter one, that dividers opened to ``chord_mm`` step.

    Parameters
    ----------
    chord_mm : float
        Straight across, 0 to the diameter.
    radius_mm : float
        Of the skin that the dividers stand on.

    Returns
    -------
    float
        ``2 R asin(chord / 2R)``, at most half way round.

    Raises
    ------
    BadInput
        For a radius that is not positive, or a chord below 0 or longer than the diameter.

    Examples
    --------
    Dividers set to the distance along, by mistake, step too far:

    >>> round(arc_mm(158.44, radius_mm=151.3), 2)
    166.75
    """
    _radius(radius_mm)
    share = chord_mm / (2.0 * radius_mm)
    if not 0.0 <= share <= 1.0 + 1e-12:
        raise BadInput(
            "no two places on this shell are that far apart straight across",
            where="chord_mm",
            given=chord_mm,
            wanted=f"0 to the diameter of {2.0 * radius_mm:.1f} mm",
        )
    return 2.0 * radius_mm * math.asin(min(share, 1.0))


def _radius(radius_mm: float) -> None:
    if not radius_mm > 0.0:
        raise BadInput("a shell has a radius", where="radius_mm", given=radius_mm, wanted="over 0")
