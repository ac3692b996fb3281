"""The words by which a piece is found: the same ones of what is written and of what is asked."""

from __future__ import annotations

import re
import unicodedata

from counterhoop.parts.piece import Piece

_WORD = re.compile(r"[^\W_]+")
_LONGEST = 40


def words_in(text: str) -> tuple[str, ...]:
    """Return the words of a text as the shelf keeps them, each once, in order.

    Small letters without accents; an s at the end is taken off, so that one lug is found among the
    lugs. A hyphen or a stroke parts two words.

    Examples
    --------
    >>> words_in("Single-ended LUGS, 7/32 brass")
    ('single', 'ended', 'lug', '7', '32', 'brass')
    >>> words_in("1½ in, laiton poli")
    ('1', '2', 'in', 'laiton', 'poli')
    """
    letters = text.casefold() if text.isascii() else _without_accents(text)
    # A call for each word would take most of the time.
    found = [
        _one(each[:_LONGEST]) if each[-1] == "s" or len(each) > _LONGEST else each
        for each in _WORD.findall(letters)
    ]
    return tuple(dict.fromkeys(found))


def words_of(piece: Piece) -> tuple[str, ...]:
    """Return the words of everything that is written on a piece but its measurements."""
    written = (
        *(piece.number, piece.kind, piece.says, piece.material, piece.plating, piece.finish),
        *piece.condition,
        *(piece.bin, piece.lot, piece.owner, piece.fitting),
    )
    return words_in("\n".join(written))


def _without_accents(text: str) -> str:
    apart = "".join(f" {sign}" if unicodedata.numeric(sign, 1) % 1 else sign for sign in text)
    plain = unicodedata.normalize("NFKD", apart).casefold()
    return "".join(sign for sign in plain if not unicodedata.combining(sign))


def _one(found: str) -> str:
    many = len(found) > 3 and found.endswith("s") and not found.endswith("ss")
    return found[:-1] if many else found
