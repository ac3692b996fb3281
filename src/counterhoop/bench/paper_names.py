"""Names of papers and folders that every system takes."""

from __future__ import annotations

import re
import unicodedata


def folder_name(place: int, key: str) -> str:
    """Return the folder of a drum: its place in the job and its name in plain letters.

    Examples
    --------
    >>> folder_name(2, "Gro\u00dfe Trommel \u266a/../x"), folder_name(3, "\u9f13")
    ('2 Groe Trommel x', '3 drum')
    """
    return f"{place} {plain_name(key) or 'drum'}"


def plain_name(text: str) -> str:
    """Return a text as a file name that every system takes: ASCII letters, figures, - . and space.

    Examples
    --------
    >>> plain_name("check sheet A4.pdf"), plain_name(" ..\\\\a:b*? ")
    ('check sheet A4.pdf', 'a b')
    """
    flat = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    kept = re.sub(r"[^A-Za-z0-9 .\-]+|\.{2,}", " ", flat)
    return " ".join(kept.split())[:60].strip(" .-")
