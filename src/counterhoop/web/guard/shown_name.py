"""A name that somebody typed, fit to be shown and never used for a place on the disk."""

from __future__ import annotations

import unicodedata

LONGEST = 80
# Controls, surrogates, unassigned, and formats: the last turn the reading direction round, so that
# "gpj.exe" shows as "exe.jpg".
UNSEEN = {"Cc", "Cf", "Cs", "Cn", "Co", "Zl", "Zp"}


def shown_name(written: str, *, otherwise: str, longest: int = LONGEST) -> str:
    r"""Return the last part of a name, in one line, without characters that hide or turn round.

    Examples
    --------
    >>> shown_name("..\\..\\snare bed\r\n.jpg", otherwise="file")
    'snare bed .jpg'
    >>> shown_name("../..", otherwise="file")
    'file'
    """
    normal = unicodedata.normalize("NFC", written.replace("\\", "/"))
    spaced = "".join(
        " " if character.isspace() else character
        for character in normal
        if character.isspace() or unicodedata.category(character) not in UNSEEN
    )
    last = " ".join(spaced.rsplit("/", 1)[-1].split())[:longest].strip()
    return last if last.strip(". ") else otherwise
