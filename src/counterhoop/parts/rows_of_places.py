"""A strip-down place by place, places of one row together where the same comes off."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from itertools import groupby
from typing import TypeAlias

from counterhoop.parts.ticked import Counted

At: TypeAlias = tuple[str, tuple[Counted, ...]]
"""A place, and what comes off there."""


def rows_of_places(counted: Iterable[Counted]) -> tuple[tuple[At, ...], ...]:
    """Return the places in their order; neighbours that differ by their number only, together.

    Examples
    --------
    >>> from counterhoop.parts.comes_apart import Sort
    >>> from counterhoop.parts.strip_down import Expected
    >>> lug = Sort(piece="lug", kind="lug")
    >>> lines = [Counted(expected=Expected(place=p, sort=lug, count=1))
    ...          for p in ("batter lug 1", "batter lug 2", "resonant lug 1")]
    >>> [[place for place, _ in row] for row in rows_of_places(lines)]
    [['batter lug 1', 'batter lug 2'], ['resonant lug 1']]
    """
    places: dict[str, list[Counted]] = {}
    for one in counted:
        places.setdefault(one.expected.place, []).append(one)
    found = [(place, tuple(lines)) for place, lines in places.items()]
    return tuple(tuple(row) for _, row in groupby(found, key=_alike))


def _alike(at: At) -> Hashable:
    place, lines = at
    word, _, number = place.rpartition(" ")
    named = word if number.isdecimal() else place
    comes_off = tuple((o.expected.sort, o.expected.count, o.expected.lost) for o in lines)
    return named, comes_off
