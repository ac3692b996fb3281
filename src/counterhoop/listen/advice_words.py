"""The sentences of advice. Pitch never tells of one rod, so none of them speaks of one alone."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.quantities.print_pitch import print_cents

FULL, NAMED = 0.7, 0.2
"""Shares from which a rod is turned by the whole amount, and by half of it."""

LISTEN = "Then tap round again before anything more is turned."
SLACKEN_HOW = "Go below with those that are slackened and come up to it, so that no slack is left."
OPPOSITE = (
    "What opposite rods differ by changes no pitch at any tap: even it by the hoop's height at the "
    "rods, by counted turns, by torque or by the feel of the fingers."
)
ODD = (
    "With an odd number of rods the unevenness that is heard is spread over all of them: how hard "
    "any of them pulls is not known from pitch. The hoop's height at the rods, counted turns, "
    "torque and the feel of the fingers tell more."
)
ODD_THREE = (
    "Three rods are few enough for pitch to tell all that they do, but not what the film, the "
    "shell and the hoop do: compare the hoop's height at the rods before believing it."
)
HOOP_HEIGHTS = (
    "For the hoop's height, first lay the hoop on a flat plate on both faces: only a flat hoop "
    "tells anything."
)
OLD_CASTINGS = "Old castings crack: stop where a rod goes hard, and look before going on."
RESEAT = "Seat the head afresh, turned by an eighth of the way round, and listen again."
IN_STEPS = "That is not all of it: go no further than this at one go."
NO_AXIS = "Which way it is tight is lost in doubt: tap round again, softer and nearer the rods."
TOO_CLOSE = "It is too close to call: a second round of taps may say otherwise."
EVEN = "Stop here: it is as even round the rim as listening can tell."
EVEN_BUT = "It is as even round the rim as listening can tell."
STAYS = "If it is to stay at the pitch that it has, this evens it:"
NOT_READ = "Nothing is to be turned by these taps."


def pair_sentence(rods: Sequence[int], *, low: bool, amount: str, half: Sequence[int] = ()) -> str:
    """Return what to do at opposite pairs.

    Examples
    --------
    >>> pair_sentence([2, 6], low=True, amount="a hair")
    'Rods 2 and 6 read low: tighten both by a hair.'
    >>> pair_sentence([4, 8], low=False, amount="1/24 of a turn", half=[3, 7])
    'Rods 4 and 8 read sharp: slacken both by 1/24 of a turn, and rods 3 and 7 by half as much.'
    """
    which = "both" if len(rods) == 2 else "all of them"
    way, reads = ("tighten", "low") if low else ("slacken", "sharp")
    rest = f", and rods {listed(half)} by half as much" if half else ""
    return f"Rods {listed(rods)} read {reads}: {way} {which} by {amount}{rest}."


def shift_sentence(rods: Sequence[int], *, tighten: bool, amount: str, half: Sequence[int]) -> str:
    """Return what to do at opposite pairs where all rods go one way.

    Examples
    --------
    >>> shift_sentence([2, 6], tighten=False, amount="a hair", half=[1, 3, 5, 7])
    'Slacken rods 2 and 6 by a hair, and rods 1, 3, 5 and 7 by half as much.'
    """
    way = "Tighten" if tighten else "Slacken"
    rest = f", and rods {listed(half)} by half as much" if half else ""
    return f"{way} rods {listed(rods)} by {amount}{rest}."


def spread_sentence(
    *, up: Sequence[int], down: Sequence[int], amount: str, half_up: Sequence[int],
    half_down: Sequence[int],
) -> str:  # fmt: skip
    """Return what to do where rods have no opposite: everything in one sentence.

    Examples
    --------
    >>> spread_sentence(up=[2], down=[1], amount="a hair", half_up=[], half_down=[4])
    'As one pattern: tighten rod 2 and slacken rod 1 by a hair; slacken rod 4 by half as much.'
    """
    whole = _both_ways(up, down)
    rest = _both_ways(half_up, half_down)
    halves = f"; {rest} by half as much" if rest else ""
    return f"As one pattern: {whole} by {amount}{halves}."


def found(split_cents: float, cents: Sequence[tuple[int, float]]) -> str:
    """Return which way the pattern lies: the sharp rods against the flat ones.

    Parameters
    ----------
    split_cents : float
        How far the two pitches are apart.
    cents : sequence of (int, float)
        Each rod's number, and how far the pitch near it is from the middle one.

    Examples
    --------
    >>> found(21.0, [(1, 0.0), (2, -10.5), (3, 0.0), (4, 10.5), (5, 0.0), (6, -10.5), (7, 0.0),
    ...              (8, 10.5)])
    'Round the rim the pitch differs by 21 cents: sharp near rods 4 and 8, flat near rods 2 and 6.'
    """
    top = [rod for rod, at in cents if at > 0.35 * split_cents]
    low = [rod for rod, at in cents if at < -0.35 * split_cents]
    where = [
        f"{how} near rods {listed(rods)}"
        for how, rods in (("sharp", top), ("flat", low))
        if len(rods) > 1
    ]
    says = f"Round the rim the pitch differs by {split_cents:.0f} cents"
    return f"{says}: {', '.join(where)}." if where else f"{says}."


def expected(left_cents: float | None, *, split_cents: float, way: str = "both") -> str:
    """Return what should be heard afterwards.

    Examples
    --------
    >>> expected(3.0, split_cents=21.0)
    'The split should go from 21 to about 3 cents.'
    >>> expected(None, split_cents=21.0, way="down")
    'The split of 21 cents should get smaller on the same axis, and the whole drum come down.'
    """
    moved = {"up": ", and the whole drum come up",
             "down": ", and the whole drum come down"}.get(way, "")  # fmt: skip
    if left_cents is None:
        return f"The split of {split_cents:.0f} cents should get smaller on the same axis{moved}."
    return f"The split should go from {split_cents:.0f} to about {left_cents:.0f} cents{moved}."


def stop(split_cents: float) -> str:
    """Return that it is even enough.

    Examples
    --------
    >>> stop(8.2)
    'Stop here: the pitch differs by 8 cents round the rim, and that is even enough.'
    """
    return (
        f"Stop here: the pitch differs by {print_cents(split_cents)} round the rim, and that is "
        "even enough."
    )


def even_but(split_cents: float) -> str:
    """Return that it is even enough, where its pitch is not yet what it should be.

    Examples
    --------
    >>> even_but(8.2)
    'Even enough: the pitch differs by 8 cents round the rim.'
    """
    return f"Even enough: the pitch differs by {print_cents(split_cents)} round the rim."


def at_least(turns: str) -> str:
    """Return what the film's stiffness bounds.

    Examples
    --------
    >>> at_least("1/48 of a turn")
    'By the stiffness of the film all of it takes 1/48 of a turn or more: go by the ear.'
    """
    takes = "may take no more than a hair" if turns == "a hair" else f"takes {turns} or more"
    return f"By the stiffness of the film all of it {takes}: go by the ear."


def out_of_reach(split_cents: float) -> str:
    """Return that these rods cannot do it."""
    return (
        f"The pitch differs by {split_cents:.0f} cents, but the tight axis lies midway between "
        f"rods that are a quarter of the way round apart: turning them cannot even it. {RESEAT}"
    )


def partly(left_cents: float) -> str:
    """Return what rods a quarter of the way round apart leave."""
    return (
        f"Of it about {math.ceil(left_cents)} cents lie midway between the rods and stay, however "
        f"they are turned. {RESEAT}"
    )


def listed(rods: Sequence[int]) -> str:
    """Return numbers as they are said.

    Examples
    --------
    >>> listed([1, 3, 5])
    '1, 3 and 5'
    """
    names = [str(rod) for rod in sorted(rods)]
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]


def _both_ways(up: Sequence[int], down: Sequence[int]) -> str:
    parts = [
        f"{way} {'rods' if len(rods) > 1 else 'rod'} {listed(rods)}"
        for way, rods in (("tighten", up), ("slacken", down))
        if rods
    ]
    return " and ".join(parts)
