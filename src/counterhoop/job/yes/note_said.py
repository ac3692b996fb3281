"""A change note in words, apart from what it is made of: the first page reads the answers to it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteSaid:
    """A change note in words, as it is printed and as it is kept with the answer to it.

    Attributes
    ----------
    found, work : tuple of str
        What was found; what is done for it.
    agreed, was_code : str
        The yes that stood before, and its code.
    differs : tuple of (str, str)
        How, and in what.
    holes : tuple of int
        Those that are numbered in its picture.
    price, day : str
        A sentence each; empty where there is nothing to say.
    cuts : bool
        As in ``ChangeNote``.
    """

    found: tuple[str, ...] = ()
    work: tuple[str, ...] = ()
    agreed: str = ""
    was_code: str = ""
    differs: tuple[tuple[str, str], ...] = ()
    holes: tuple[int, ...] = ()
    price: str = ""
    day: str = ""
    cuts: bool = True
