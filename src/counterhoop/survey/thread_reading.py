"""What was read off an unknown screw: outside diameter, pitch and flanks, each with its doubt."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.errors import BadInput

STEP = "Measure again with the caliper on the crests."


@dataclass(frozen=True, slots=True, kw_only=True)
class PitchReading:
    """Length over a number of threads, or a gauge's blade (then ``threads`` is 1).

    Attributes
    ----------
    length_mm, doubt_mm : float
        The length and the half-width of its doubt.
    threads : int
        Over how many threads: from one crest to the eleventh is ten.
    by_gauge : bool
        A blade cannot be counted wrong.
    """

    length_mm: float
    doubt_mm: float = 0.1
    threads: int = 10
    by_gauge: bool = False

    def __post_init__(self) -> None:
        _need_size(self.length_mm, where="length over threads")
        _need_size(self.doubt_mm, where="doubt of the length")
        if self.threads < 1:
            raise BadInput("count the threads", where="threads", given=self.threads, wanted="10")

    @property
    def pitch_mm(self) -> float:
        """Pitch as read."""
        return self.length_mm / self.threads


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadReading:
    """Readings off one external thread.

    Attributes
    ----------
    outside_mm, outside_doubt_mm : float
        Over the crests, and the half-width of its doubt.
    pitch : PitchReading or None
        None when it was not read.
    angle_deg, angle_doubt_deg : float
        Between the flanks, when it was seen against a gauge; None when not.

    Raises
    ------
    BadInput
        For a size that is not above zero or flanks that no thread has.
    """

    outside_mm: float
    outside_doubt_mm: float = 0.02
    pitch: PitchReading | None = None
    angle_deg: float | None = None
    angle_doubt_deg: float = 2.0

    def __post_init__(self) -> None:
        _need_size(self.outside_mm, where="outside diameter")
        _need_size(self.outside_doubt_mm, where="doubt of the outside diameter")
        _need_size(self.angle_doubt_deg, where="doubt of the flanks")
        if self.angle_deg is not None and not 20 <= self.angle_deg <= 100:
            raise BadInput(
                "no screw has such flanks",
                where="flank angle",
                given=self.angle_deg,
                wanted="the whole angle between them, such as 60, 55 or 47.5",
            )


def _need_size(value: float, *, where: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise BadInput("must be above zero", where=where, given=value, step=STEP)
