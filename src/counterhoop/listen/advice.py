"""What may be turned at the rods after listening, and what listening cannot tell."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.heads.rank import evening_pulls
from counterhoop.heads.uneven import CENTS_PER_UNIT
from counterhoop.listen import advice_words as words
from counterhoop.listen.advice_words import FULL, NAMED
from counterhoop.listen.calibration import (
    FIRST_TURNS,
    ONE_GO_TURNS,
    Calibration,
    turn_step,
    turn_words,
)
from counterhoop.listen.hoop_heights import HoopHeights
from counterhoop.listen.round_rim import RimReading
from counterhoop.listen.shares import shares_of_split

EVEN_ENOUGH_CENTS = 10.0
"""The split at which most stop: common practice, no source."""
FEWEST_RODS = 3
Way = Literal["both", "up", "down"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RodShare:
    """One rod's part in the pattern; it means something only together with all the others.

    Attributes
    ----------
    rod : int
        Its number, from 1.
    along_deg : float
        Where it is, along the shell.
    share : float
        Its part of the correction: 1 up for the rod turned up most, -1 the same down.
    cents : float
        How far the pitch near it is from the middle one.
    turns : float or None
        How far to turn it now, up positive; None before a turn is known for this drum.
    """

    rod: int
    along_deg: float
    share: float
    cents: float
    turns: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What to do now, in sentences, and the figures behind them.

    Attributes
    ----------
    sentences : tuple of str
        In order.
    pattern : tuple of RodShare
        Every rod, by number; empty where nothing is to be turned by ear.
    expected : str
        What should be heard afterwards.
    stop : bool
        It is as even as listening can make it.
    unknown : tuple of str
        What these taps cannot tell, and what does.
    """

    sentences: tuple[str, ...] = ()
    pattern: tuple[RodShare, ...] = ()
    expected: str = ""
    stop: bool = False
    unknown: tuple[str, ...] = ()


def advise(
    reading: RimReading,
    *,
    rods: int,
    rod_deg: Sequence[float],
    calibration: Calibration | None = None,
    at_most_cents_per_turn: float | None = None,
    oval_mm: float | None = None,
    diameter_mm: float | None = None,
    film: bool = True,
    hoop: HoopHeights | None = None,
    way: Way = "both",
    even_enough_cents: float = EVEN_ENOUGH_CENTS,
) -> Advice:
    """Return what to turn, as a pattern over all rods, or why to turn nothing.

    Parameters
    ----------
    reading : RimReading
        Taps round the rim.
    rods, rod_deg : int, sequence of float
        How many there are, and where each is along the shell, in the order of their numbers.
    calibration : Calibration, optional
        What a turn does at this drum; without it no more than a sixteenth of a turn is advised.
    at_most_cents_per_turn : float, optional
        What a turn would do by the film's stiffness alone, as in ``Calibration``; it does less.
    oval_mm, diameter_mm : float, optional
        Longest less shortest diameter of the bearing edge, and the mean of them.
    film : bool
        Whether the head is of polyester film.
    hoop : HoopHeights, optional
        What the hoop's height at the rods says of what pitch cannot tell.
    way : {"both", "up", "down"}
        Whether rods may be tightened and slackened, or all go one way.
    even_enough_cents : float
        The split at which to stop.

    Notes
    -----
    Near a rod the pitch goes with the mean tension and one two-lobed pattern, and with nothing
    else. The turns are the smallest that close the pattern and leave the mean: as the cosine of
    twice the angle from the axis, alike at opposite rods.
    """
    if rods != len(rod_deg) or rods < FEWEST_RODS:
        raise BadInput(
            "every rod needs its place", where="rods", given=f"{rods} rods, {len(rod_deg)} places",
            wanted="3 rods or more, each with its place along the shell",
        )  # fmt: skip
    limit, why = _limit(even_enough_cents, oval_mm, diameter_mm, film)
    below = (*_unknown(rods, hoop),)
    said = () if hoop is None else hoop.sentences
    refusal = _refusal(reading)
    if refusal:
        return Advice(sentences=(*refusal, *said), unknown=below)
    if reading.split_cents is None:
        return _one_pitch(reading, limit=limit, said=said, unknown=below)
    split, axis = reading.split_cents, reading.axis_deg
    if split <= limit or axis is None:
        enough = _even_enough(split, reading.split_doubt_cents or 0.0, limit=limit)
        return Advice(sentences=(*enough, *why, *said), stop=split <= limit, unknown=below)
    shares, reach = _shares(split, axis, rod_deg, way)
    if reach < 0.3:
        return Advice(
            sentences=(words.out_of_reach(split), *why, *said), stop=True, unknown=below
        )  # fmt: skip
    aim = cmath.exp(2j * math.radians(axis))
    drive = _drive(shares, rod_deg)
    gain = -(drive / aim).real
    amount, turns, sure = _amount(split, gain, calibration, at_most_cents_per_turn)
    left = None
    if calibration is not None and turns is not None:
        left = abs(split * aim + calibration.cents_per_turn * turns * drive)
    pattern = tuple(
        RodShare(
            rod=at + 1, along_deg=along, share=share, cents=reading.cents_at(along) or 0.0,
            turns=None if turns is None else turns * share,
        )
        for at, (along, share) in enumerate(zip(rod_deg, shares, strict=True))
    )  # fmt: skip
    return Advice(
        sentences=(
            words.found(split, [(one.rod, one.cents) for one in pattern]),
            *_turn_sentences(pattern, amount, way),
            *sure,
            *([words.SLACKEN_HOW] if any(one.share < 0.0 for one in pattern) else []),
            words.LISTEN,
            words.OLD_CASTINGS,
            *([words.partly(split * math.sqrt(1.0 - reach**2))] if reach < 0.95 else []),
            *why,
            *said,
        ),
        pattern=pattern,
        expected=words.expected(left, split_cents=split, way=way),
        unknown=below,
    )


def _limit(
    even_enough: float, oval_mm: float | None, diameter_mm: float | None, film: bool
) -> tuple[float, list[str]]:
    shares = shares_of_split(oval_mm=oval_mm, diameter_mm=diameter_mm, film=film)
    says = shares.says()
    return max(even_enough, shares.together_cents), [says] if says else []


def _unknown(rods: int, hoop: HoopHeights | None) -> list[str]:
    which = words.ODD_THREE if rods == 3 else words.ODD if rods % 2 else words.OPPOSITE
    return [which] if hoop is not None else [which, words.HOOP_HEIGHTS]


def _refusal(reading: RimReading) -> tuple[str, ...]:
    """Return why nothing may be turned; () where something may."""
    if reading.mean_hz is None or reading.coupled_pair:
        return (*reading.ask, words.NOT_READ)
    # A mirrored axis is no hindrance: rods a quarter apart do the same for both.
    if reading.split_cents is not None and reading.quality == "poor":
        return (*reading.ask, *reading.says, words.NOT_READ)
    return ()


def _one_pitch(
    reading: RimReading, *, limit: float, said: Sequence[str], unknown: tuple[str, ...]
) -> Advice:
    even = not reading.ask and (reading.split_below_cents or math.inf) <= limit
    close = [words.EVEN] if even else [*reading.ask, words.NOT_READ]
    return Advice(sentences=(*reading.says, *close, *said), stop=even, unknown=unknown)


def _even_enough(split: float, doubt: float, *, limit: float) -> list[str]:
    if split > limit:
        return [words.NO_AXIS, words.NOT_READ]
    if split + 2.0 * doubt > limit:
        return [words.stop(split), words.TOO_CLOSE]
    return [words.stop(split)]


def _shares(
    split: float, axis: float, rod_deg: Sequence[float], way: Way
) -> tuple[list[float], float]:
    """Return each rod's share in whole and half amounts, and what part of the split it reaches."""
    lean = 2.0 * split / CENTS_PER_UNIT
    pulls = evening_pulls(lean, tight_deg=axis, along_deg=rod_deg)
    reached = abs(_drive(pulls, rod_deg)) / lean
    most = max(abs(pull) for pull in pulls)
    if most < 1e-9:
        return [0.0] * len(pulls), 0.0
    shares = [pull / most for pull in pulls]
    if way != "both":
        sign = 1.0 if way == "up" else -1.0
        shares = [(share + sign) / 2.0 for share in shares]
        crest = max(abs(share) for share in shares)
        shares = [share / crest for share in shares]
    return [_by_hand(share) for share in shares], reached


def _by_hand(share: float) -> float:
    size = 1.0 if abs(share) >= FULL else 0.5 if abs(share) >= NAMED else 0.0
    return math.copysign(size, share) if size else 0.0


def _drive(turns: Sequence[float], rod_deg: Sequence[float]) -> complex:
    """Two-lobed part of turns as an arrow at twice the angle."""
    lobes = (t * cmath.exp(2j * math.radians(at)) for t, at in zip(turns, rod_deg, strict=True))
    return 2.0 / len(turns) * sum(lobes)


def _amount(
    split: float, gain: float, calibration: Calibration | None, at_most: float | None
) -> tuple[str, float | None, list[str]]:
    if calibration is not None:
        needed = split / (calibration.cents_per_turn * gain)
        turns = turn_step(min(needed, ONE_GO_TURNS))
        return turn_words(turns), turns, [words.IN_STEPS] if needed > ONE_GO_TURNS * 1.05 else []
    least = [] if at_most is None else [words.at_least(turn_words(split / (at_most * gain)))]
    return f"a hair, {turn_words(FIRST_TURNS)} at the most", None, least


def _turn_sentences(pattern: Sequence[RodShare], amount: str, way: Way) -> list[str]:
    def rods(share: float) -> list[int]:
        return [one.rod for one in pattern if one.share == share]

    up, half_up, half_down, down = (rods(share) for share in (1.0, 0.5, -0.5, -1.0))
    if len(pattern) % 2:
        return [
            words.spread_sentence(
                up=up, down=down, amount=amount, half_up=half_up, half_down=half_down
            )
        ]
    if way != "both":
        whole, half = (up, half_up) if way == "up" else (down, half_down)
        return [words.shift_sentence(whole, tighten=way == "up", amount=amount, half=half)]
    said = []
    for whole, half, low in ((up, half_up, True), (down, half_down, False)):
        if whole:
            said.append(words.pair_sentence(whole, low=low, amount=amount, half=half))
        elif half:
            said.append(words.pair_sentence(half, low=low, amount="half as much"))
    # The half of nothing said yet would not be understood.
    return sorted(said, key=lambda sentence: "half as much" in sentence)
