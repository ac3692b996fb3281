"""One line of text that both databases, a page and a paper can hold."""

from __future__ import annotations

import unicodedata

from counterhoop.errors import BadInput

LONGEST = 200


def plain_text(text: str, *, where: str, may_be_empty: bool = False) -> str:
    r"""Return a text that is one line of readable signs, or say what is wrong with it.

    Examples
    --------
    >>> plain_text("small tom", where="name")
    'small tom'
    >>> plain_text("two\nlines", where="name")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: name: a sign that cannot be printed: found 'two\nlines', wanted ...
    """
    if not may_be_empty and not text.strip():
        what = "nothing is written"
    elif len(text) > LONGEST:
        what = "too long"
    elif not (text.isascii() and text.isprintable()) and any(
        unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") for sign in text
    ):
        what = "a sign that cannot be printed"
    else:
        return text
    raise BadInput(what, where=where, given=text, wanted=f"one line of at most {LONGEST} signs")


def name_shown(text: str) -> str:
    r"""Return the name that a person's machine gave a file, with what cannot be printed left out.

    The name is shown and nothing else: no file is ever called by it.

    Examples
    --------
    >>> name_shown("../../badge\x00 front.jpg")
    '../../badge front.jpg'
    """
    signs = (sign for sign in text if unicodedata.category(sign) not in ("Cc", "Cs", "Zl", "Zp"))
    return "".join(signs)[:LONGEST].strip() or "without a name"
