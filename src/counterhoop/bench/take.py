"""The scheme that a person chose for a drum, found again among those worked out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from counterhoop.scheme.layout import Layout
from counterhoop.scheme.moved import moved
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.rank import Ranked
from counterhoop.scheme.schemes import Shop
from counterhoop.shell.choice import Chosen


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A chosen scheme, moved as it is to be; ``ranked`` has it among those shown."""

    scheme: Scheme
    ranked: Ranked


def take(chosen: Chosen, ranked: Ranked, *, shop: Shop, others: tuple[Layout, ...]) -> Taken | None:
    """Take what was chosen; None when its code is not among the schemes any more.

    Raises
    ------
    BadInput
        When a row is moved that the scheme does not put on, or off the shell.
    """
    base = scheme_chosen(chosen.scheme, ranked, title=chosen.title)
    if base is None:
        return None
    scheme = moved(base, chosen.moved, shop=shop, others=others)
    if not scheme.moved:
        return Taken(scheme=base, ranked=ranked)
    scheme = replace(scheme, number=number_beside(scheme, ranked))
    return Taken(scheme=scheme, ranked=ranked.beside(scheme))


def scheme_chosen(code: str, ranked: Ranked, *, title: str = "") -> Scheme | None:
    """Return the scheme of a code, written in any case and with any spaces, before any move.

    The code is of what is done for good: schemes that differ in the rest are told apart by their
    heading, so another heading is another scheme. Where none is said, the first.
    """
    plain = _plain(code)
    found = [s for s in ranked.every if s.code == plain and not s.moved]
    if title:
        found = [s for s in found if _plain(s.title) == _plain(title)]
    return found[0] if found else None


def number_beside(scheme: Scheme, ranked: Ranked) -> int:
    """Return the number of a moved scheme: after all that were worked out, which keep theirs."""
    return sum(not one.moved for one in ranked.every) + 1


def _plain(words: str) -> str:
    return "".join(words.split()).upper()
