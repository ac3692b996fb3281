"""Words on the shelf that a misspelt one may have been meant to be."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import Connection, func, select

from counterhoop.quantities.nearest import nearest
from counterhoop.store.shelf.reckoned import known_words
from counterhoop.store.shelf.words import words_in
from counterhoop.store.tables import word

_SHORTEST, _MOST = 4, 3000
"""Shorter words are too much alike; more words take longer to compare than one likes to wait."""


def near_words(connection: Connection, said: Iterable[str]) -> dict[str, str]:
    """Return, for each word that stands on no piece, the nearest one that does or once did.

    Words of letters only, with the right first letter.
    """
    found: dict[str, str] = {}
    for one in said:
        plain = words_in(one)
        if len(plain) != 1 or not plain[0].isalpha() or len(plain[0]) < _SHORTEST:
            continue
        if known_words(connection, list(plain)):
            continue
        length = func.length(word.c.word)
        asked = (
            select(word.c.word)
            .where(func.substr(word.c.word, 1, 1) == plain[0][0])
            .where(length.between(len(plain[0]) - 2, len(plain[0]) + 2))
            .limit(_MOST)
        )
        if near := nearest(plain[0], connection.execute(asked).scalars(), likeness=0.75):
            found[one] = near
    return found
