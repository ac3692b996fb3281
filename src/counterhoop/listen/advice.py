"""What may be turned at the rods after listening, and what listening cannot tell."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.listen import advice_words as words
from counterhoop.listen.advice_words import FULL, NAMED
from counterhoop.listen.calibration import (
    FIRST_TURNS,
    ONE_GO_TURNS,
    Calibration,
    turn_step,
    turn_words,
)
from counterhoop.listen.hoop_heights import LATER, HoopHeights
from counterhoop.listen.pitch_said import PitchSaid
from counterhoop.listen.round_rim import RimReading
from counterhoop.listen.shares import shares_of_split

EVEN_ENOUGH_CENTS = 10.0
"""The split at which most stop: common practice, no source."""
FEWEST_RODS = 3
MIRROR_SHARE = 0.2
"""Of the split: so much may two axes differ at rods that stand a little beside their quarters."""
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
        What to do now, in order, or why to do nothing.
    staying : tuple of str
        Where ``sentences`` bring the whole head to another pitch: what evens it at the one that
        it has. The first of them says so.
    later : tuple of str
        What waits until the taps are even; the first says until when.
    because : tuple of str
        What is behind the turns: where it is sharp and flat, and what the rods have no part in.
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
    staying: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    because: tuple[str, ...] = ()
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
    no_hoop: str = words.HOOP_HEIGHTS,
    pitch: PitchSaid | None = None,
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
    no_hoop : str
        What is said where no heights were read at this sitting.
    pitch : PitchSaid, optional
        How its pitch stands to what is wanted of it.
    way : {"both", "up", "down"}
        Whether rods may be tightened and slackened, or all go one way.
    even_enough_cents : float
        The split at which to stop.

    Notes
    -----
    Near a rod the pitch goes with the mean tension and one two-lobed pattern, and with nothing
    else. The turns go as the cosine of twice the angle from the axis, alike at opposite rods: for
    rods evenly spaced they are the smallest that close the pattern and leave the mean.
    """
    if rods != len(rod_deg) or rods < FEWEST_RODS:
        raise BadInput(
            "every rod needs its place", where="rods", given=f"{rods} rods, {len(rod_deg)} places",
            wanted="3 rods or more, each with its place along the shell",
        )  # fmt: skip
    limit, why = _limit(even_enough_cents, oval_mm, diameter_mm, film)
    below = (*_unknown(rods, hoop, no_hoop),)
    said = () if hoop is None else hoop.sentences
    pitch = pitch or PitchSaid()
    over, aside = _listed(pitch.limit), _listed(pitch.says)
    refusal = _refusal(reading, limit=limit)
    if refusal:
        return Advice(sentences=(*refusal, *said), unknown=below)
    if reading.split_cents is None:
        return _one_pitch(reading, limit=limit, pitch=pitch, said=said, unknown=below)
    split, axis = reading.split_cents, reading.axis_deg
    if split <= limit or axis is None:
        doubt = reading.split_doubt_cents or 0.0
        aside = aside if split <= limit else []
        enough = _even_enough(split, doubt, limit=limit, turns=pitch.turns)
        return Advice(
            sentences=(*over, *enough, *aside, *said), because=why, stop=split <= limit,
            unknown=below,
        )  # fmt: skip
    if _mirror_matters(reading, rod_deg):
        return Advice(sentences=(*over, *reading.ask, words.NOT_READ, *said), unknown=below)
    way = "down" if pitch.slack else way
    shares, reach = _shares(axis, rod_deg, way)
    if reach < 0.3:
        return Advice(
            sentences=(*over, words.out_of_reach(split), *aside, *said), because=why, stop=True,
            unknown=below,
        )  # fmt: skip
    drive = _drive(shares, rod_deg)
    aim = _arrow(split, axis)
    # What turns can do is their part along the split; across it they would only turn the axis.
    whole = -(aim / drive).real
    amount, turns, more = _amount(whole, calibration, at_most_cents_per_turn)
    left = None
    if calibration is not None and turns is not None:
        left = abs(aim + calibration.cents_per_turn * turns * drive)
    pattern = tuple(
        RodShare(
            rod=at + 1, along_deg=along, share=share, cents=reading.cents_at(along) or 0.0,
            turns=None if turns is None else turns * share,
        )
        for at, (along, share) in enumerate(zip(rod_deg, shares, strict=True))
    )  # fmt: skip
    expected = words.expected(left, split_cents=split, way=way)
    evening = (
        *_turn_sentences(pattern, amount, way),
        *more,
        *([words.SLACKEN_HOW] if any(one.share < 0.0 for one in pattern) else []),
        words.LISTEN,
        *([words.partly(split * math.sqrt(1.0 - reach**2))] if reach < 0.95 else []),
    )
    first = pitch.first
    return Advice(
        sentences=(
            *over,
            *((*aside, words.OLD_CASTINGS) if first else (*evening, words.OLD_CASTINGS, *aside)),
        ),
        staying=(words.STAYS, *evening, expected) if first else (),
        later=(LATER, *said) if said else (),
        because=(words.found(split, [(one.rod, one.cents) for one in pattern]), *why),
        pattern=pattern,
        expected="" if first else expected,
        unknown=below,
    )


def _limit(
    even_enough: float, oval_mm: float | None, diameter_mm: float | None, film: bool
) -> tuple[float, tuple[str, ...]]:
    shares = shares_of_split(oval_mm=oval_mm, diameter_mm=diameter_mm, film=film)
    says = shares.says()
    return max(even_enough, shares.together_cents), (says,) if says else ()


def _unknown(rods: int, hoop: HoopHeights | None, no_hoop: str) -> list[str]:
    which = words.ODD_THREE if rods == 3 else words.ODD if rods % 2 else words.OPPOSITE
    return [which] if hoop is not None else [which, no_hoop]


def _refusal(reading: RimReading, *, limit: float) -> tuple[str, ...]:
    """Return why nothing may be turned; () where something may, or is even enough."""
    if reading.mean_hz is None or reading.coupled_pair:
        return (*reading.ask, words.NOT_READ)
    split, doubt = reading.split_cents, reading.split_doubt_cents or 0.0
    if split is None or reading.quality != "poor":
        return ()
    # Where a split is small enough, which way it lies may be lost.
    if not reading.ask and split + 2.0 * doubt <= limit:
        return ()
    return (*reading.ask, *reading.says, words.NOT_READ)


def _mirror_matters(reading: RimReading, rod_deg: Sequence[float]) -> bool:
    """Tell whether the two axes that the taps cannot tell apart ask for other turns.

    Four rods a quarter of the way round apart do the same for both; more rods, of which only some
    were heard, do not.
    """
    split = reading.split_cents
    if reading.mirror_deg is None or split is None:
        return False
    mirrored = replace(reading, axis_deg=reading.mirror_deg)
    heard = ((reading.cents_at(along), mirrored.cents_at(along)) for along in rod_deg)
    return any(abs((one or 0.0) - (other or 0.0)) > MIRROR_SHARE * split for one, other in heard)


def _listed(sentence: str) -> list[str]:
    return [sentence] if sentence else []


def _one_pitch(
    reading: RimReading, *, limit: float, pitch: PitchSaid, said: Sequence[str],
    unknown: tuple[str, ...],
) -> Advice:  # fmt: skip
    even = not reading.ask and (reading.split_below_cents or math.inf) <= limit
    close = [*reading.ask, words.NOT_READ]
    if even:
        close = [words.EVEN_BUT if pitch.turns else words.EVEN, *_listed(pitch.says)]
    over = _listed(pitch.limit) if even else []
    return Advice(sentences=(*over, *reading.says, *close, *said), stop=even, unknown=unknown)


def _even_enough(split: float, doubt: float, *, limit: float, turns: bool) -> list[str]:
    if split > limit:
        return [words.NO_AXIS, words.NOT_READ]
    stop = words.even_but(split) if turns else words.stop(split)
    return [stop, words.TOO_CLOSE] if split + 2.0 * doubt > limit else [stop]


def _shares(axis: float, rod_deg: Sequence[float], way: Way) -> tuple[list[float], float]:
    """Return each rod's share in whole and half amounts, and what part of the split it reaches."""
    lobes = [-math.cos(2.0 * math.radians(along - axis)) for along in rod_deg]
    mean = sum(lobes) / len(lobes)
    shares = [lobe - mean for lobe in lobes]
    half, odd = divmod(len(shares), 2)
    if not odd:
        # Opposite rods answer alike, so they are turned alike where they stand a little aside.
        other_way_round = shares[half:] + shares[:half]
        shares = [(a + b) / 2.0 for a, b in zip(shares, other_way_round, strict=True)]
    most = max(abs(share) for share in shares)
    if most < 1e-6:
        return [0.0] * len(shares), 0.0
    drive = _drive(shares, rod_deg)
    reached = -(drive / _arrow(1.0, axis)).real / abs(drive)
    shares = [share / most for share in shares]
    if way != "both":
        sign = 1.0 if way == "up" else -1.0
        shares = [share + sign for share in shares]
        crest = max(abs(share) for share in shares)
        shares = [share / crest for share in shares]
    return [_by_hand(share) for share in shares], reached


def _arrow(cents: float, axis_deg: float) -> complex:
    """A split with its axis: as long as it is, at twice the angle."""
    return cmath.rect(cents, 2.0 * math.radians(axis_deg))


def _by_hand(share: float) -> float:
    size = 1.0 if abs(share) >= FULL else 0.5 if abs(share) >= NAMED else 0.0
    return math.copysign(size, share) if size else 0.0


def _drive(turns: Sequence[float], rod_deg: Sequence[float]) -> complex:
    """Two-lobed part of turns as an arrow at twice the angle."""
    lobes = (t * cmath.exp(2j * math.radians(at)) for t, at in zip(turns, rod_deg, strict=True))
    return 2.0 / len(turns) * sum(lobes)


def _amount(
    whole: float, calibration: Calibration | None, at_most: float | None
) -> tuple[str, float | None, list[str]]:
    """Return how far to turn, in words and, where a turn is known, in turns.

    ``whole`` is the cents by which the pattern, a whole turn high, must move the split.
    """
    if calibration is not None:
        needed = whole / calibration.cents_per_turn
        turns = turn_step(min(needed, ONE_GO_TURNS))
        return turn_words(turns), turns, [words.IN_STEPS] if needed > ONE_GO_TURNS * 1.05 else []
    least = [] if at_most is None else [words.at_least(turn_words(whole / at_most))]
    return f"a hair, at most {turn_words(FIRST_TURNS)}", None, least


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
