"""What anybody may fetch who reaches the door: the style sheet and the fonts, no more."""

from __future__ import annotations

PUBLIC = ("/static/",)


def is_public(path: str, public: tuple[str, ...]) -> bool:
    """Tell whether a path lies in a public folder; the beginnings end with a slash.

    Examples
    --------
    >>> is_public("/static/paper.css", PUBLIC), is_public("/statics", PUBLIC)
    (True, False)
    """
    return any(path.startswith(start) for start in public)
