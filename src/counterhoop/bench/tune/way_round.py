"""Which way round the rods were tapped: no sound tells, unless it is known where the phone lay.

Taps in the opposite order are the mirror image of a drum that is just as likely.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from counterhoop.bench.tune.rods_at import RodAt
from counterhoop.development.flat import End
from counterhoop.listen.round_rim import RimReading

SAY_SO = (
    "If you went the other way round, say so before anything is turned: the sound cannot tell, and "
    "this would be the mirror image."
)
LAY_ELSEWHERE = (
    "The place you gave for the phone fits only if you went the other way round: make sure of the "
    "way before anything is turned."
)
SURE_DEG = 10.0
"""An axis that is less sure tells nothing of the phone."""
ELSEWHERE_DEG, THERE_DEG = 40.0, 25.0
"""Whoever names the rod nearest to a phone is off by half the way between two at the most."""


def order_said(
    tapped: Sequence[int], *, along_deg: Mapping[int, float], head: End, even: bool = False
) -> str:  # fmt: skip
    """Return in which order the rods are taken to have been tapped; "" for fewer than three.

    Parameters
    ----------
    tapped : sequence of int
        The rod of each stroke of use, in order.
    along_deg : mapping of int to float
        Where each rod is along the shell.
    head : End
        Which head lay uppermost: along runs anticlockwise as one looks down on the batter head.
    even : bool
        No tight axis was found: its mirror image is the same.

    Examples
    --------
    >>> at = {1: 0.0, 2: 90.0, 3: 180.0, 4: 270.0}
    >>> order_said([1, 2, 3, 4], along_deg=at, head="batter").partition(".")[0]
    'Taken as tapped at rod 1, then rod 2 and so on: anticlockwise as you look down on that head'
    >>> order_said([2, 1, 4], along_deg=at, head="resonant").partition(".")[0]
    'Taken as tapped at rod 2, then rod 1 and so on: anticlockwise as you look down on that head'
    >>> order_said([1, 2, 4, 3], along_deg=at, head="batter").partition(".")[0]
    'Taken as tapped at the rods that are set stroke by stroke'
    """
    if len(set(tapped)) < 3:
        return ""
    say_so = "" if even else f" {SAY_SO}"
    # From one rod to the next that was heard: across the middle it is neither way.
    turns = [(along_deg[to] - along_deg[at]) % 360.0 for at, to in pairwise(tapped) if to != at]
    on, back = (sum(turn < 180.0 for turn in turns), sum(turn > 180.0 for turn in turns))
    if on and back:
        return f"Taken as tapped at the rods that are set stroke by stroke.{say_so}"
    way = "anticlockwise" if bool(on) == (head == "batter") else "clockwise"
    second = next(rod for rod in tapped if rod != tapped[0])
    return (
        f"Taken as tapped at rod {tapped[0]}, then rod {second} and so on: {way} as you look down "
        f"on that head.{say_so}"
    )


def way_doubted(
    rim: RimReading, *, first_rod: int, rods: Sequence[RodAt], phone_deg: Sequence[float | None]
) -> str:  # fmt: skip
    """Return that the taps seem to have gone the other way round, where that can be told.

    Parameters
    ----------
    rim : RimReading
        As read in the order that was said.
    first_rod : int
        The rod that was tapped first: it stays where it is, whichever way one goes round.
    rods : sequence of RodAt
    phone_deg : sequence of float or None
        Where each place of the phone was said to be.

    Notes
    -----
    A tap at ``t`` heard at ``p`` calls up ``cos(t - a) cos(p - a)`` of the higher pitch and
    ``sin(t - a) sin(p - a)`` of the lower one, with the tight axis at ``a`` (as in
    ``listen.rim_axis``). So the taps tell ``p``, but for half a turn; in the opposite order they
    tell its mirror image.
    """
    first_deg = next(rod.along_deg for rod in rods if rod.number == first_rod)
    other_way = False
    for place, told in enumerate(phone_deg):
        heard_deg = _phone_heard(rim, place)
        if told is None or heard_deg is None:
            continue
        beside = abs(_within_half(told - heard_deg))
        mirrored = abs(_within_half(told - (2.0 * first_deg - heard_deg)))
        if beside <= ELSEWHERE_DEG or mirrored >= THERE_DEG:
            return ""
        other_way = True
    return LAY_ELSEWHERE if other_way else ""


def _phone_heard(rim: RimReading, place: int) -> float | None:
    """Return where the phone lay by the taps, 0 to 180; None where they do not tell."""
    axis, doubt = rim.axis_deg, rim.axis_doubt_deg
    taps = [tap for tap in rim.taps if tap.place == place and not tap.says]
    if axis is None or doubt is None or doubt > SURE_DEG or rim.mirror_deg is not None or not taps:
        return None
    turn = np.radians([tap.along_deg - axis for tap in taps])
    high = np.array([tap.high for tap in taps]) * np.sin(turn)
    low = np.array([tap.low for tap in taps]) * np.cos(turn)
    power = float(np.vdot(high, high).real)
    if not power > 0.0:
        return None
    ratio = complex(np.vdot(high, low)) / power
    return (axis + math.degrees(math.copysign(math.atan(abs(ratio)), ratio.real))) % 180.0


def _within_half(turn_deg: float) -> float:
    return (turn_deg + 90.0) % 180.0 - 90.0
