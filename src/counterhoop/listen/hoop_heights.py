"""What the hoop's height at the rods says of the difference between opposite ones."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.listen.advice_words import listed
from counterhoop.quantities.print_length import CALIPER_MM, print_mm

FEWEST = 3
CHECK_HOOP = (
    "Before the heights count, take the hoop off and lay it on a flat plate, first on one face "
    "and then on the other: it must not rock, and no feeler may go under it."
)
HOOP_BENT = (
    "The hoop does not lie flat on both faces, so its height at the rods tells nothing: have it "
    "straightened or use another, and then measure."
)
OTHER_WAYS = (
    "Where the heights leave a doubt, feel how hard each rod turns between finger and thumb, count "
    "turns from finger-tight, or compare them by torque, which scatters by a third."
)
LATER = "When the taps are even, and not before, even what the heights show:"
MEASURE = (
    "Measure from the film up to the top of the hoop beside each rod, with the depth rod of the "
    "caliper on the film close to the bearing edge."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class OppositeRods:
    """Two opposite rods and how much higher the hoop stands at the first.

    Attributes
    ----------
    high, low : int
        Numbers of the rods.
    by_mm : float
        Height at ``high`` less that at ``low``, 0 or more.
    turns : float or None
        What half the difference is on the thread: as far as the one is tightened and the other
        slackened. None where the thread is not known.
    """

    high: int
    low: int
    by_mm: float
    turns: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class HoopHeights:
    """What the heights say.

    Attributes
    ----------
    tilt_mm, high_deg : float
        From the lowest to the highest place of a plane through the hoop, and where it is highest.
    opposites : tuple of OppositeRods
        Pairs, for an even number of rods; the largest difference first.
    doubt_mm : float
        Two heights read alike may differ by this.
    level : bool
        No difference is more than the doubt.
    sentences : tuple of str
        What to do.
    """

    tilt_mm: float = 0.0
    high_deg: float = 0.0
    opposites: tuple[OppositeRods, ...] = ()
    doubt_mm: float = CALIPER_MM
    level: bool = False
    sentences: tuple[str, ...] = ()


def read_hoop_heights(
    heights_mm: Sequence[float],
    *,
    along_deg: Sequence[float],
    hoop_flat: bool | None,
    thread_pitch_mm: float | None = None,
    resolution_mm: float = CALIPER_MM,
) -> HoopHeights:
    """Return what the heights of the hoop over the film say.

    Parameters
    ----------
    heights_mm : sequence of float, shape (rods,)
        From the film up to the top of the hoop, in the order of the rods' numbers.
    along_deg : sequence of float, shape (rods,)
        Where the rods are.
    hoop_flat : bool or None
        Whether the hoop, off the drum, lay flat on both faces; None where nobody looked.
    thread_pitch_mm : float, optional
        Of the rods.
    resolution_mm : float
        What the heights were read to.

    Notes
    -----
    Where a flat hoop stands high it has drawn the film down less. The two-lobed part of the
    heights is left out: that is heard, and the ear is finer than a caliper.

    Examples
    --------
    >>> read = read_hoop_heights([9.6, 9.0, 9.0, 8.4, 9.0, 9.0], along_deg=range(0, 360, 60),
    ...                          hoop_flat=True, thread_pitch_mm=1.0)
    >>> [(pair.high, pair.low, round(pair.by_mm, 1)) for pair in read.opposites[:1]]
    [(1, 4, 1.2)]
    """
    if len(heights_mm) != len(along_deg) or len(heights_mm) < FEWEST:
        raise BadInput(
            "a height is wanted at every rod", where="hoop heights",
            given=f"{len(heights_mm)} heights, {len(along_deg)} rods",
        )  # fmt: skip
    if not all(math.isfinite(height) for height in heights_mm):
        raise BadInput("a height is not a number", where="hoop heights", wanted='"9.2 mm"')
    if hoop_flat is not True:
        return HoopHeights(sentences=(CHECK_HOOP if hoop_flat is None else HOOP_BENT,))
    tilt, high = _plane(heights_mm, along_deg)
    pairs = _opposites(heights_mm, thread_pitch_mm)
    off = [pair for pair in pairs if pair.by_mm > resolution_mm * 1.001]
    level = not off if pairs else tilt <= resolution_mm * 1.001
    said = (
        [_level(resolution_mm)] if level
        else [_pair_says(pair, resolution_mm) for pair in off] if pairs
        else [_tilt_says(heights_mm, tilt, along_deg, high, resolution_mm)]
    )  # fmt: skip
    return HoopHeights(
        tilt_mm=tilt,
        high_deg=high,
        opposites=pairs,
        doubt_mm=resolution_mm,
        level=level,
        sentences=(*said, OTHER_WAYS),
    )


def _plane(heights: Sequence[float], along: Sequence[float]) -> tuple[float, float]:
    import numpy as np

    turn = np.radians(np.asarray(along, dtype=float))
    columns = np.stack([np.ones_like(turn), np.cos(turn), np.sin(turn)], axis=1)
    _, across, up = np.linalg.lstsq(columns, np.asarray(heights, dtype=float), rcond=None)[0]
    size, angle = cmath.polar(complex(across, up))
    return 2.0 * size, math.degrees(angle) % 360.0


def _opposites(heights: Sequence[float], pitch_mm: float | None) -> tuple[OppositeRods, ...]:
    half, odd = divmod(len(heights), 2)
    if odd:
        return ()
    pairs = []
    for at in range(half):
        by = heights[at] - heights[at + half]
        high, low = (at, at + half) if by >= 0.0 else (at + half, at)
        turns = None if pitch_mm is None else abs(by) / 2.0 / pitch_mm
        pairs.append(OppositeRods(high=high + 1, low=low + 1, by_mm=abs(by), turns=turns))
    return tuple(sorted(pairs, key=lambda pair: -pair.by_mm))


def _level(resolution_mm: float) -> str:
    return (
        "By its height over the film the hoop is level as far as "
        f"{print_mm(resolution_mm, resolution_mm=resolution_mm)} can show."
    )


def _pair_says(pair: OppositeRods, resolution_mm: float) -> str:
    by = print_mm(pair.by_mm, resolution_mm=resolution_mm)
    says = (
        f"By its height the hoop stands {by} higher at rod {pair.high} than at rod {pair.low}: "
        f"tighten {pair.high} and slacken {pair.low} by the same, a little at a time"
    )
    if pair.turns is None:
        return f"{says}, and measure again."
    return f"{says}; half the difference is {_turns(pair.turns)} on this thread."


def _turns(turns: float) -> str:
    # Rounded down: what is turned too far is turned back, and the castings have stood it.
    eighths = math.floor(turns * 8.0 + 1e-9)
    if eighths == 0:
        return "less than 1/8 of a turn"
    if eighths >= 8:
        return "a whole turn or more"
    return f"about {_EIGHTHS[eighths]} of a turn"


_EIGHTHS = {1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}


def _tilt_says(
    heights: Sequence[float], tilt: float, along: Sequence[float], high: float, resolution: float
) -> str:
    lean = [math.cos(math.radians(at - high)) for at in along]
    up = [at + 1 for at, part in enumerate(lean) if part > 0.4]
    down = [at + 1 for at, part in enumerate(lean) if part < -0.4]
    return (
        f"By its height the hoop leans by {print_mm(tilt, resolution_mm=resolution)}: high at "
        f"{_rods(up)}, low at {_rods(down)}. Tighten the high ones and slacken the low ones, a "
        "little at a time, and measure again."
    )


def _rods(rods: Sequence[int]) -> str:
    return f"rod {listed(rods)}" if len(rods) == 1 else f"rods {listed(rods)}"
