"""Which methods only look. Everything else counts as writing, whatever it is called."""

from __future__ import annotations

SAFE = frozenset({"GET", "HEAD"})


def is_safe(method: str) -> bool:
    """Tell whether a request by this method may look but not touch.

    Examples
    --------
    >>> is_safe("GET"), is_safe("get"), is_safe("PROPFIND")
    (True, False, False)
    """
    return method in SAFE
