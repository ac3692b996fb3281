"""Pieces of sentences: lists, counts, a capital and a full stop."""

from __future__ import annotations

from collections.abc import Sequence


def listed(phrases: Sequence[str]) -> str:
    """Join phrases with commas and a last "and".

    Examples
    --------
    >>> listed(["the snare", "the small tom", "the large tom"])
    'the snare, the small tom and the large tom'
    """
    return phrases[0] if len(phrases) == 1 else f"{', '.join(phrases[:-1])} and {phrases[-1]}"


def counted(count: int, noun: str) -> str:
    """Put a number before a noun that takes an s.

    Examples
    --------
    >>> counted(1, "hole"), counted(8, "hole")
    ('1 hole', '8 holes')
    """
    return f"{count} {noun}{'' if count == 1 else 's'}"


def embedded(sentence: str) -> str:
    """Take the full stop off a sentence that is to stand inside another one."""
    return sentence.strip().rstrip(".")


def sentence(says: str) -> str:
    """Give words a capital and a full stop."""
    return f"{says[0].upper()}{says[1:]}."
