"""Turns of the rods: what one gives at most, what it gives on this drum, and in which order."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.heads.air import Air
from counterhoop.heads.believed import MOST_N_PER_M, believed, believed_radius
from counterhoop.heads.head import Head
from counterhoop.heads.tension import OtherEnd, tension_from_pitch
from counterhoop.standards.threads import Thread

_SIXTEENTH = Fraction(1, 16)


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnGain:
    """What one turn of every rod does to the tension of a head.

    Attributes
    ----------
    n_per_m : float
        For each turn.
    thread : Thread
        Of the rods: turns do not carry to rods of another pitch.
    heard : bool
        Heard on this drum; otherwise by the film's stiffness, and then it really is less.
    says : str
        In a sentence.
    """

    n_per_m: float
    thread: Thread
    heard: bool
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnsGuide:
    """How far to turn every rod.

    Attributes
    ----------
    turns : float
        Tighter above zero.
    at_least : bool
        More will be needed: the gain was not heard on this drum.
    says : str
        In a sentence, with the thread named.
    """

    turns: float
    at_least: bool
    says: str


def turn_bound(
    head: Head, *, radius_m: float, thread: Thread, collar_m: float = 0.0
) -> TurnGain:  # fmt: skip
    """Return the most that a turn of every rod can do.

    Parameters
    ----------
    head : Head
        Of film whose thickness is known.
    radius_m : float
        Of the bearing edge.
    thread : Thread
        Of the rods.
    collar_m : float
        Length of film between edge and hoop, which gives too; 0 is the safe side.

    Raises
    ------
    BadInput
        For calf, and film of unknown thickness.

    Notes
    -----
    ``P Y / (a (1 - nu) + l (1 - nu^2))``: a stiff hoop draws the film in by the pitch P. Creases,
    the collar, hoop and shell take their share of each turn, so it is never reached.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> from counterhoop.standards.threads import find_thread
    >>> print(turn_bound(film_head(254e-6), radius_m=0.1524, thread=find_thread("12-24")).says)
    An eighth of a turn of every 12-24 UNC rod gives at most 1700 N/m; on a real drum it is less.
    """
    if head.stiffness_n_per_m is None:
        raise BadInput(
            "calf goes its own way with the weather, so that turns tell nothing" if head.calf else
            "how thick the film is is not known", where="head", given=head.says or None,
            step="Go by ear." if head.calf else "Measure it with a micrometer, or go by ear.",
        )  # fmt: skip
    believed_radius(radius_m)
    believed(collar_m, where="collar_m", least=0.0, most=radius_m, unit="m")
    nu = head.poisson
    give = radius_m * (1.0 - nu) + collar_m * (1.0 - nu**2)
    gain = thread.pitch_mm / 1000.0 * head.stiffness_n_per_m / give
    return TurnGain(
        n_per_m=gain, thread=thread, heard=False,
        says=f"An eighth of a turn of every {thread.designation} rod gives at most "
        f"{_hundreds(gain / 8.0)} N/m; on a real drum it is less.",
    )  # fmt: skip


def calibrate_turns(
    from_hz: float,
    to_hz: float,
    *,
    turns: float,
    thread: Thread,
    radius_m: float,
    depth_m: float,
    head: Head,
    end: OtherEnd = "muted",
    air: Air | None = None,
) -> TurnGain:
    """Return what a turn does on this drum, from two pitches near the rim and the turns between.

    Parameters
    ----------
    from_hz, to_hz : float
        Heard before and after.
    turns : float
        Of every rod alike, tighter above zero.
    thread, radius_m, depth_m, head, end, air
        As in ``turn_bound`` and ``tension_from_pitch``.

    Raises
    ------
    BadInput
        Where the pitch did not follow the turns, and for calf.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> from counterhoop.standards.threads import find_thread
    >>> gain = calibrate_turns(190.0, 205.0, turns=1 / 8, thread=find_thread("12-24"),
    ...                        radius_m=0.1524, depth_m=0.2032, head=film_head(254e-6))
    >>> print(gain.says)
    On this drum an eighth of a turn of every 12-24 UNC rod gives about 200 N/m.
    """
    if head.calf:
        raise BadInput(
            "calf goes its own way with the weather, so that turns tell nothing", where="head",
            step="Go by ear.",
        )  # fmt: skip
    before, after = (
        tension_from_pitch(
            hz, radius_m=radius_m, depth_m=depth_m, head=head, end=end, air=air
        ).n_per_m
        for hz in (from_hz, to_hz)
    )
    if turns == 0.0 or not math.isfinite(turns) or (after - before) / turns <= 0.0:
        raise BadInput(
            "the pitch did not follow the turns", where="turns", given=turns,
            step="Seat the head, bring all rods up alike and listen again.",
        )  # fmt: skip
    gain = (after - before) / turns
    says = (
        f"On this drum an eighth of a turn of every {thread.designation} rod gives about "
        f"{_hundreds(gain / 8.0)} N/m."
    )
    if head.stiffness_n_per_m is not None:
        bound = turn_bound(head, radius_m=radius_m, thread=thread)
        if gain > bound.n_per_m:
            says += " That is more than the film can give: were the turns counted on every rod?"
    return TurnGain(n_per_m=gain, thread=thread, heard=True, says=says)


def turns_between(
    from_n_per_m: float, to_n_per_m: float, *, gain: TurnGain, thread: Thread | None = None
) -> TurnsGuide:
    """Return how far to turn every rod; ``from_n_per_m=0`` is finger-tight.

    Parameters
    ----------
    from_n_per_m, to_n_per_m : float
        Tension as it is and as it is wished.
    gain : TurnGain
        What a turn does.
    thread : Thread, optional
        Of the rods to be turned; those of ``gain`` if left out.

    Raises
    ------
    BadInput
        For rods of another pitch than the gain was found for.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> from counterhoop.standards.threads import find_thread
    >>> gain = turn_bound(film_head(254e-6), radius_m=0.1524, thread=find_thread("12-24"))
    >>> print(turns_between(0.0, 2000.0, gain=gain).says)
    From finger-tight 1/8 of a turn on every 12-24 UNC rod as a start, at least: more will be \
needed, so listen at every sixteenth from there.
    """
    for n_per_m in (from_n_per_m, to_n_per_m):
        believed(n_per_m, where="tension", least=0.0, most=MOST_N_PER_M, unit="N/m")
    rods = thread or gain.thread
    if not math.isclose(rods.pitch_mm, gain.thread.pitch_mm, rel_tol=1e-3):
        raise BadInput(
            f"turns counted on {gain.thread.designation} rods tell nothing of these",
            where="thread", given=rods.designation, step="Count them anew.",
        )  # fmt: skip
    turns = (to_n_per_m - from_n_per_m) / gain.n_per_m
    start = "From finger-tight " if from_n_per_m == 0.0 else ""
    way = "up" if turns >= 0.0 else "down"
    moved = f"{in_turns(turns)} {'' if start else way + ' '}on every {rods.designation} rod"
    if gain.heard:
        says = f"{start}{moved}, by what was heard on this drum; then listen."
    else:
        says = (
            f"{start}{moved} as a start, at least: more will be needed, so listen at every "
            "sixteenth from there."
        )
    return TurnsGuide(turns=turns, at_least=not gain.heard, says=says[0].upper() + says[1:])


def turn_order(rods: int) -> tuple[int, ...]:
    """Return in which order the rods are turned, all by the same small part of a turn.

    Opposite pairs, each pair far from the one before; odd numbers as a star. Common practice, no
    source.

    Examples
    --------
    >>> turn_order(5), turn_order(6), turn_order(8)
    ((1, 3, 5, 2, 4), (1, 4, 2, 5, 3, 6), (1, 5, 3, 7, 2, 6, 4, 8))
    """
    if rods < 1:
        raise BadInput("a head needs rods", where="rods", given=rods)
    if rods % 2:
        step = max((rods - 1) // 2, 1)
        return tuple(step * turn % rods + 1 for turn in range(rods))
    half = rods // 2
    return tuple(rod for pair in turn_order(half) for rod in (pair, pair + half))


def in_turns(turns: float) -> str:
    """Return turns in words, in sixteenths, rounded towards nothing.

    Examples
    --------
    >>> in_turns(0.14), in_turns(1.4), in_turns(-2.0), in_turns(0.01)
    ('1/8 of a turn', '1 3/8 turns', '2 turns', 'less than 1/16 of a turn')
    """
    believed(turns, where="turns", least=-1e6, most=1e6, unit="turns")
    parts = math.floor(abs(turns) / float(_SIXTEENTH) + 1e-9) * _SIXTEENTH
    if not parts:
        return "less than 1/16 of a turn"
    whole, part = divmod(parts, 1)
    if not whole:
        return f"{part} of a turn"
    count = f"{whole} {part}" if part else f"{whole}"
    return f"{count} turn{'s' if parts > 1 else ''}"


def _hundreds(n_per_m: float) -> str:
    """A tenth coarse: two figures, no finer than 50."""
    step = 100.0 if n_per_m >= 500.0 else 50.0
    return f"{math.floor(n_per_m / step + 0.5) * step:.0f}"
