"""What a turn of the rods does to the split of this drum, once it has been heard."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.listen.round_rim import RimReading

FIRST_TURNS = 1.0 / 16.0
"""The most that is advised before a turn is known for this drum."""
ONE_GO_TURNS = 1.0 / 4.0
"""The most that is advised at one go: common practice, no source."""
_HAIR = Fraction(1, 64)
_STEPS = [Fraction(1, d) for d in (64, 48, 32, 24, 16, 12, 8, 6, 4)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """How far a pattern of turns closes the split.

    Attributes
    ----------
    cents_per_turn : float
        For two lobes of turns a whole turn high. In a pattern of any rods that is twice the mean
        of the turns, each times the cosine of twice its angle from the axis.
    """

    cents_per_turn: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.cents_per_turn) and self.cents_per_turn > 0.0):
            raise BadInput(
                "a turn must close the split", where="cents per turn", given=self.cents_per_turn
            )


def calibrate(
    before: RimReading, after: RimReading, *, turned: Sequence[float], along_deg: Sequence[float]
) -> Calibration:
    """Return what a turn does, from taps before and after known turns.

    Parameters
    ----------
    before, after : RimReading
        Both with their split and axis.
    turned, along_deg : sequence of float, shape (rods,)
        How far each rod was turned between them, tighter positive, in turns; where the rods are.

    Raises
    ------
    BadInput
        Where the turns have no two-lobed part, or the split did not go where they drive it.

    Notes
    -----
    A split with its axis is an arrow of that length at twice the angle; turns move it along the
    arrow of their own two-lobed part. Twice the turns do twice as much, for small ones.

    Examples
    --------
    >>> was, now = (RimReading(split_cents=cents, axis_deg=0.0) for cents in (30.0, 10.0))
    >>> calibrate(was, now, turned=[-0.02, 0, 0.02, 0] * 2, along_deg=range(0, 360, 45))
    Calibration(cents_per_turn=1000.0)
    """
    moved = _arrow(after) - _arrow(before)
    lobes = [cmath.exp(2j * math.radians(along)) for along in along_deg]
    drive = 2.0 / len(lobes) * sum(t * to for t, to in zip(turned, lobes, strict=True))
    most = max(abs(t) for t in turned)
    if abs(drive) < 0.2 * most or most == 0.0:
        raise BadInput(
            "these turns do not even anything round the rim", where="turns",
            step="Give the turns of the pattern that was advised",
        )  # fmt: skip
    gain = moved / drive
    if gain.real <= 0.0 or abs(gain.imag) > gain.real:
        raise BadInput(
            "the split did not follow the turns", where="taps after turning",
            step="Seat the head, bring all rods up again and listen afresh",
        )  # fmt: skip
    return Calibration(cents_per_turn=gain.real)


def turn_words(turns: float) -> str:
    """Return a part of a turn in words, rounded down as ``turn_step`` does.

    Examples
    --------
    >>> turn_words(0.004), turn_words(0.05), turn_words(-0.25)
    ('a hair', '1/24 of a turn', '1/4 of a turn')
    """
    step = _step(turns)
    return "a hair" if step <= _HAIR else f"{step} of a turn"


def turn_step(turns: float) -> float:
    """Return the next lower part of a turn that a hand can make; below 1/64 what was given.

    Examples
    --------
    >>> turn_step(0.05) == 1 / 24, turn_step(0.004)
    (True, 0.004)
    """
    return float(_step(turns))


def _step(turns: float) -> Fraction:
    # What is a hair less than a step only by the arithmetic still is that step.
    fits = [step for step in _STEPS if step <= abs(turns) + 1e-9]
    return fits[-1] if fits else Fraction(abs(turns))


def _arrow(reading: RimReading) -> complex:
    if reading.split_cents is None:
        return 0j
    if reading.axis_deg is None:
        raise BadInput("the tight axis is not known", where="taps", step="Tap round again")
    return cmath.rect(reading.split_cents, 2.0 * math.radians(reading.axis_deg))
