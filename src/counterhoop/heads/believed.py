"""What sizes, pulls and airs are believed: far beyond them a slip of unit hides."""

from __future__ import annotations

from counterhoop.errors import BadInput

LEAST_N_PER_M, MOST_N_PER_M = 0.01, 1e13
"""A head that hangs, and one that nothing moves: what is reckoned lies between."""


def believed(value: float, *, where: str, least: float, most: float, unit: str) -> float:
    """Return a value that lies between two bounds.

    Parameters
    ----------
    value : float
    where : str
        Its name, for the message.
    least, most : float
        Both are still believed.
    unit : str
        In which all three are.

    Raises
    ------
    BadInput
        For one outside them, and for what is no number at all.

    Examples
    --------
    >>> believed(0.1524, where="radius_m", least=0.02, most=2.0, unit="m")
    0.1524
    >>> believed(152.4, where="radius_m", least=0.02, most=2.0, unit="m")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: radius_m: no drum has that: found 152.4, wanted 0.02 to 2 m
    """
    if not least <= value <= most:
        raise BadInput(
            "no drum has that", where=where, given=value, wanted=f"{least:g} to {most:g} {unit}"
        )
    return value


def believed_radius(radius_m: float) -> float:
    """Return the radius of a drum or a hoop; see ``believed``."""
    return believed(radius_m, where="radius_m", least=0.02, most=2.0, unit="m")


def believed_pull(n_per_m: float, *, where: str = "tension") -> float:
    """Return the tension of a head; see ``believed``."""
    return believed(n_per_m, where=where, least=LEAST_N_PER_M, most=MOST_N_PER_M, unit="N/m")
