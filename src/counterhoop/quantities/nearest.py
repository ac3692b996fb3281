"""The known word that a misspelt one was probably meant to be."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(word: str, known: Iterable[str], *, likeness: float = 0.6) -> str | None:
    """Return the known word nearest in spelling, or None when nothing is near.

    Parameters
    ----------
    word : str
        What was written; capitals do not matter.
    known : iterable of str
        The words that would have been understood. The first of equals wins.
    likeness : float
        From 0 (anything) to 1 (the same letters); the ratio of Ratcliff and Obershelp 1988.

    Examples
    --------
    >>> nearest("battr", ["batter", "resonant"])
    'batter'
    >>> nearest("xylophone", ["batter", "resonant"]) is None
    True
    """
    by_lower: dict[str, str] = {}
    for name in known:
        by_lower.setdefault(name.lower(), name)
    found = get_close_matches(word.strip().lower(), by_lower, n=1, cutoff=likeness)
    return by_lower[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str], *, likeness: float = 0.6) -> str:
    """Return 'Did you mean "batter"?' for a near miss, or an empty string.

    Examples
    --------
    >>> did_you_mean("vnet", ["vent", "badge"])
    'Did you mean "vent"?'
    """
    near = nearest(word, known, likeness=likeness)
    return f'Did you mean "{near}"?' if near else ""
