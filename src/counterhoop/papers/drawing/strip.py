"""Readings round the rim as a strip: what it shows, how much it enlarges, how high it is."""

from __future__ import annotations

import math
from dataclasses import dataclass

FACTORS = (200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1)
"""Paper millimetres for one millimetre read."""
STEP_SHOWS_MM = 2.5
"""The instrument's own step is drawn no larger, so that its jitter is not taken for a shape."""
HEAD_MM = 5.6
NUMBERS_MM = 5.2
PAD_MM = 1.6
LABEL_MM = 4.6
"""Room beyond the readings, and where words stand beside the farthest of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What is read at stations round one end, ready to be drawn.

    Attributes
    ----------
    name : str
        For idents ("edge-batter").
    heading, says : str
        What it shows, and what its lines mean.
    along_deg, value_mm : tuple of float
        Where and what, as many of one as of the other.
    resolution_mm : float
        The instrument's step.
    zero_says : str
        What the zero line is ("plate").
    grows : {-1, 1}
        1 when more is drawn upward, -1 when it is drawn downward (the resonant edge).
    joined : bool
        Readings next to each other are joined by straight lines; else each stands on a stem.
    plane : (mean, cos, sin) or None
        The plane fitted to them.
    named : tuple of (int, str)
        Readings with a word beside them, by their place in ``value_mm``.
    numbered : bool
        Stations are ticked and numbered below.
    """

    name: str
    heading: str
    says: str
    along_deg: tuple[float, ...]
    value_mm: tuple[float, ...]
    resolution_mm: float
    zero_says: str
    grows: int = 1
    joined: bool = True
    plane: tuple[float, float, float] | None = None
    named: tuple[tuple[int, str], ...] = ()
    numbered: bool = True

    @property
    def zero_mm(self) -> float:
        """The value of the line that readings are drawn from: 0, or a whole mm near far ones."""
        least, most = min(self.value_mm), max(self.value_mm)
        near = max(2.0 * (most - least), 2.0)
        return 0.0 if -near <= least and most <= near else float(math.floor(least))

    @property
    def reach_mm(self) -> tuple[float, float]:
        """Lowest and highest of what is drawn, as values: readings, zero line and plane."""
        values = [*self.value_mm, self.zero_mm]
        if self.plane is not None:
            mean, cos, sin = self.plane
            values += [mean - math.hypot(cos, sin), mean + math.hypot(cos, sin)]
        return min(values), max(values)

    def stands_out(self, index: int) -> bool:
        """Whether a word beside this reading stands on the side of more."""
        return self.value_mm[index] > min(self.value_mm)

    @property
    def pads_mm(self) -> tuple[float, float]:
        """Room on paper above and below the readings."""
        sides = {self.stands_out(index) for index, _ in self.named}
        out, inward = (LABEL_MM if side in sides else PAD_MM for side in (True, False))
        return (out, inward) if self.grows > 0 else (inward, out)


def factor_for(strip: Strip, *, high_mm: float) -> float:
    """Return the largest factor of the 1-2-5 series at which the readings stay this high on paper.

    One step of the instrument stays under ``STEP_SHOWS_MM``.

    Examples
    --------
    >>> gaps = Strip(name="e", heading="", says="", zero_says="plate", resolution_mm=0.05,
    ...              along_deg=(0.0, 90.0, 180.0, 270.0), value_mm=(0.0, -0.3, 0.0, -0.2))
    >>> factor_for(gaps, high_mm=15.0), factor_for(gaps, high_mm=5.0)
    (50.0, 10.0)
    """
    least, most = strip.reach_mm
    for factor in FACTORS:
        if (most - least) * factor <= high_mm and strip.resolution_mm * factor <= STEP_SHOWS_MM:
            return factor
    return FACTORS[-1]


def say_factor(factor: float) -> str:
    """Say what a strip enlarges by, as a rule can check it.

    Examples
    --------
    >>> say_factor(20.0)
    '1 mm is 20 mm here'
    """
    return f"1 mm is {factor:g} mm here"


def readings_high_mm(strip: Strip, *, high_mm: float) -> float:
    """Return what the readings of a strip take on paper when they may take ``high_mm``."""
    least, most = strip.reach_mm
    return (most - least) * factor_for(strip, high_mm=high_mm)


def strip_high_mm(strip: Strip, *, high_mm: float) -> float:
    """Return the height on paper of a whole strip whose readings may take ``high_mm``."""
    drawn = readings_high_mm(strip, high_mm=high_mm)
    return HEAD_MM + sum(strip.pads_mm) + drawn + (NUMBERS_MM if strip.numbered else 0.0)
