"""Which rod each stroke was near; where the count does not come out, that is said, not guessed."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from counterhoop.errors import BadInput
from counterhoop.listen.strokes import CLIPPED, FLAM, TOO_CLOSE, TOO_CLOSE_S, TOO_SOFT, Stroke

_TAPS = frozenset({CLIPPED, FLAM, TOO_CLOSE, TOO_SOFT})
"""Left out, and yet a tap near a rod: the next one was near the next rod."""
_SEEN = frozenset({CLIPPED, TOO_SOFT})


def matched(
    strokes: Sequence[Stroke], *, count: int, rods: Sequence[int | None] | None, first_rod: int,
    back: bool = False,
) -> list[int | None]:  # fmt: skip
    """Return the rod that each stroke was near; 0 where no rods are known, None where left out.

    Parameters
    ----------
    count : int
        How many rods there are; 0 where nobody knows.
    rods, first_rod, back :
        As in ``listened``.

    Raises
    ------
    BadInput
        For a rod that is not there, and more rods than strokes.

    Examples
    --------
    A tap that was clipped was near a rod all the same, unless it was struck again; a word that
    was spoken was near none.

    >>> found = [Stroke(number=n, starts_s=n, ends_s=n + 1.0, dropped=why)
    ...          for n, why in ((1, ""), (2, CLIPPED), (3, "A voice."), (4, ""))]
    >>> matched(found, count=8, rods=None, first_rod=7)
    [7, None, None, 1]
    >>> matched(found, count=8, rods=None, first_rod=1, back=True)
    [1, None, None, 7]
    """
    if rods is not None and len(rods) > len(strokes):
        raise BadInput(
            f"rods for {len(rods)} strokes, and {len(strokes)} were found",
            where="rods",
            wanted="one for each stroke, 0 for one to leave out",
        )
    for rod in (*(rods or ()), first_rod):
        if count and rod is not None and not 0 <= rod <= count:
            raise BadInput("there is no such rod", where="rods", given=rod, wanted=f"1 to {count}")
    if rods is not None:
        given = [*rods, *[None] * (len(strokes) - len(rods))]
        return [
            None if stroke.dropped else rod or None
            for stroke, rod in zip(strokes, given, strict=True)
        ]
    found: list[int | None] = [None if stroke.dropped else 0 for stroke in strokes]
    if count:
        for turn, tap in enumerate(_rounds(strokes, count=count)):
            for place in tap:
                if not strokes[place].dropped:
                    found[place] = (first_rod - 1 + (-turn if back else turn)) % count + 1
    return found


def miscounted(strokes: Sequence[Stroke], *, count: int) -> str:
    """Return why strokes cannot be taken in order, a sentence; "" where they go round and round.

    Parameters
    ----------
    count : int
        How many rods there are.

    Examples
    --------
    >>> seven = [Stroke(number=n, starts_s=2.0 * n, ends_s=2.0 * n + 2.0) for n in range(7)]
    >>> miscounted(seven, count=8).split(":")[0]
    'There are 7 taps and 8 rods'
    >>> miscounted(seven, count=7)
    ''
    """
    rounds = len(_rounds(strokes, count=count))
    if rounds and rounds % count == 0:
        return ""
    taps = len(_taps(strokes))
    heard = "There is 1 tap" if taps == 1 else f"There are {taps} taps"
    return (
        f"{heard} and {count} rods: one was passed over, tapped twice or not heard, and nobody "
        "knows which. Say which rod each stroke was near, or tap round again, once near each rod."
    )


def struck_again(strokes: Sequence[Stroke], *, count: int) -> str:
    """Return which taps are taken to have been struck again, a sentence; "" for none.

    Examples
    --------
    >>> nine = [Stroke(number=n, starts_s=2.0 * n, ends_s=2.0 * n + 2.0,
    ...                dropped=CLIPPED if n == 5 else "") for n in range(1, 10)]
    >>> print(struck_again(nine, count=8)[:63] + "...")
    Stroke 5 cannot be used, and is taken to have been struck again...
    """
    taps, taken = _taps(strokes), _rounds(strokes, count=count)
    again = [strokes[tap[0]].number for tap in taps if tap not in taken]
    if not again or len(taken) % count:
        return ""
    if len(again) == 1:
        which = f"Stroke {again[0]} cannot be used, and is"
    else:
        which = f"Strokes {', '.join(map(str, again))} cannot be used, and each is"
    return (
        f"{which} taken to have been struck again, since as many good ones were heard as there are "
        "rods: change the rods if it was not so."
    )


def _rounds(strokes: Sequence[Stroke], *, count: int) -> list[list[int]]:
    """Return the taps that go round in order: all, or those of use where only these come out even.

    Whoever sees that a tap was too loud or too soft strikes it again: then there is one too many
    of all, and none too many of the others. A stick that bounced goes unseen, and keeps its rod.
    """
    taps = _taps(strokes)
    used = [tap for tap in taps if not {strokes[place].dropped for place in tap} <= _SEEN]
    return used if len(taps) % count and used and not len(used) % count else taps


def _taps(strokes: Sequence[Stroke]) -> list[list[int]]:
    """Return the places of the strokes of each tap: a stick that bounces is one tap."""
    near = [at for at, one in enumerate(strokes) if not one.dropped or one.dropped in _TAPS]
    taps = [near[:1]] if near else []
    for before, at in pairwise(near):
        if strokes[at].starts_s - strokes[before].starts_s < TOO_CLOSE_S:
            taps[-1].append(at)
        else:
            taps.append([at])
    return taps
