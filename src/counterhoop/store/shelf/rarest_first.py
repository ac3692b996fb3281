"""In which turn the things that a search asks for are looked through, and when that is enough."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection

from counterhoop.store.shelf.ask_the_shelf import (
    Hit,
    fit_all,
    how_many,
    lays_side_by_side,
    look_outward,
    look_through,
    rank,
)
from counterhoop.store.shelf.question import Asked, Had, Wanted

ENOUGH = (5000, 40_000)
"""How far is counted to see what is rare, and how far to see what is looked through next."""


def rarest_first(
    connection: Connection, *, words: Sequence[int], asked: Sequence[Asked], had: Had, limit: int
) -> list[Hit]:
    """Return the best pieces, the rarest of what is asked looked through first.

    All pieces on which the rarest measurement was taken are held against the others; then those
    that have the next rarest and not this one; and so on, until there are enough that nothing that
    comes later can go before. A word that is rarer than what is left ends it: all have it.

    Parameters
    ----------
    connection : sqlalchemy.Connection
    words : sequence of int
        Numbers of words that all have.
    asked : sequence of Asked
        Measurements that rule none of them out.
    had : Had
        Which may be had at all.
    limit : int
        How many at most.
    """
    known: dict[Wanted, int] = {}
    rarity = _rarity(connection, [*words, *asked], enough=ENOUGH[0], known=known)
    are_many = min(rarity.values(), default=0) == ENOUGH[0]
    found = _nearest_of_many(
        connection, words=words, asked=asked, had=had, limit=limit, are_many=are_many
    )
    if len(found) == limit:
        return found
    found, done, left = [], list[Asked](), [*asked]
    while left:
        rarity = _rarity(connection, [*words, *left], enough=ENOUGH[-1], known=known)
        left.sort(key=lambda one: rarity[one])
        if any(rarity[one] < rarity[left[0]] for one in words):
            break
        first, *left = left
        if left and rarity[first] >= ENOUGH[0]:
            # Of so many, enough have all that is left: the others need not be held against it.
            # What was counted to its end is few enough to be laid side by side.
            few = [one for one in (first, *left) if one in known]
            among = fit_all(connection, few) if len(few) > 1 else None
            full = look_through(
                connection, first, words=words, also=left, not_taken=done, had=had, limit=limit,
                all_taken=True, among=among,
            )  # fmt: skip
            if len(full) == limit:
                return sorted([*found, *full], key=rank)[:limit]
        if left:
            found += look_through(
                connection, first, words=words, also=left, not_taken=done, had=had, limit=limit
            )
        else:
            found += look_outward(
                connection, first, words=words, not_taken=done, had=had, limit=limit
            )
        found = sorted(found, key=rank)[:limit]
        if len(found) == limit and len(found[-1].fits) > len(left):
            return found
        done.append(first)
    if words or not asked:
        rarity = _rarity(connection, words, enough=ENOUGH[0], known=known)
        word = min(words, key=lambda one: rarity[one], default=None)
        found += look_through(
            connection, word, words=words, also=left, not_taken=done, had=had, limit=limit
        )
    return sorted(found, key=rank)[:limit]


def _rarity(
    connection: Connection, among: Sequence[Wanted], *, enough: int, known: dict[Wanted, int]
) -> dict[Wanted, int]:
    """Return how common each thing is, none counted much further than the rarest before it.

    So the rarest is told from all others, unless it is as common as what is enough. What was
    counted to its end is kept in ``known``. One thing alone is not counted.
    """
    # Where sets of pieces are laid side by side it pays to know the next rarest too.
    further = 2 if lays_side_by_side(connection) else 1
    rarity: dict[Wanted, int] = dict.fromkeys(among, 0)
    if len(rarity) < 2:
        return rarity
    # Those that are known first: what is more common than these need not be counted out.
    for one in sorted(rarity, key=lambda one: one not in known):
        count = known.get(one)
        if count is None:
            count = how_many(connection, one, enough=enough)
            if count < enough:
                known[one] = count
        rarity[one] = count
        enough = min(enough, further * count + 1)
    return rarity


def _nearest_of_many(
    connection: Connection, *, words: Sequence[int], asked: Sequence[Asked], had: Had, limit: int,
    are_many: bool,
) -> list[Hit]:  # fmt: skip
    """Return the best pieces where all but one of the measurements are counts: these are not off.

    The pieces that the counts fit are then in the order of the one measurement alone.
    """
    counts = [one for one in asked if one.doubt_nm == 0 and one.doubts == (0,)]
    others = [one for one in asked if one not in counts]
    if not are_many or not counts or len(others) != 1:
        return []
    return look_outward(
        connection, others[0], words=words, counts=counts, not_taken=(), had=had, limit=limit
    )
