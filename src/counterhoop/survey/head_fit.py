"""Will a head go on: the shell over its finish against collar, rim and counterhoop.

The classes of clearance are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from counterhoop.errors import BadInput


class Fit(StrEnum):
    """Class of the clearance on the diameter; "does not go" below 0, the rest by the rules."""

    FLOATS = "floats"
    SNUG = "snug"
    TIGHT = "tight"
    DOES_NOT_GO = "does not go"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadReadings:
    """What was measured for one head; millimetres, never a nominal size.

    Attributes
    ----------
    around_mm : float
        By tape over the finish within the top 20 mm.
    collar_mm : float
        Inside of the head's collar, where it goes over the shell.
    largest_mm, smallest_mm : float or None
        Diameters at the same place; both None when only a tape was read.
    rim_mm, hoop_mm : float or None
        Outside of the head's rim and inside of the counterhoop, when measured.
    wrap_mm : float
        Thickness of the wrap; 0 without.
    butt : bool
        The wrap meets itself and lies nowhere double.
    overlap_measured : bool
        One diameter ran through the wrap's overlap, so ``largest_mm`` holds it already.
    doubt_mm, around_doubt_mm, head_doubt_mm : float
        Half-width of the doubt of a diameter, of the tape, of collar, rim and hoop.
    """

    around_mm: float
    collar_mm: float
    largest_mm: float | None = None
    smallest_mm: float | None = None
    rim_mm: float | None = None
    hoop_mm: float | None = None
    wrap_mm: float = 0.0
    butt: bool = False
    overlap_measured: bool = False
    doubt_mm: float = 0.1
    around_doubt_mm: float = 0.5
    head_doubt_mm: float = 0.1

    def __post_init__(self) -> None:
        sizes = (self.around_mm, self.collar_mm)
        more = (self.largest_mm, self.smallest_mm, self.rim_mm, self.hoop_mm)
        for size in (*sizes, *(size for size in more if size is not None)):
            if not (math.isfinite(size) and size > 0):
                raise BadInput("a size must be above zero", where="head fit", given=size)
        if not 0 <= self.wrap_mm <= 5:
            raise BadInput("no wrap is so thick", where="wrap", given=self.wrap_mm, wanted="mm")
        if (self.largest_mm is None) is not (self.smallest_mm is None):
            raise BadInput("one diameter alone", where="diameters", wanted="largest and smallest")
        if (self.smallest_mm or 0.0) > (self.largest_mm or 0.0):
            raise BadInput("smallest above largest", where="diameters", given=self.smallest_mm)

    @property
    def overlap_mm(self) -> float:
        """What the overlap adds to the diameter through it: one wrap more."""
        return 0.0 if self.butt else self.wrap_mm

    @property
    def unseen_mm(self) -> float:
        """What of the overlap no reading holds."""
        return 0.0 if self.overlap_measured else self.overlap_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """Collar less shell on the diameter, its doubt, its class, and whether the doubt spans two."""

    clear_mm: float
    doubt_mm: float
    fit: Fit
    too_close: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadFit:
    """The answer, twice.

    Attributes
    ----------
    readings : HeadReadings
        What it rests on.
    floats_mm, snug_mm : float
        Clearances from which a head floats and sits snug.
    largest_mm, round_mm : float or None, float
        Diameters held against the collar: the largest, and the same shell eased to a circle.
    as_it_stands : Clearance or None
        With the largest diameter; None when only a tape was read.
    eased_round : Clearance
        With the circle (around / pi); the wrap's overlap still stands out.
    uneven_mm : float or None
        Largest less smallest diameter.
    rim_clear_mm, rim_doubt_mm : float or None, float
        Counterhoop less rim; below 0 the hoop does not go over the head.
    """

    readings: HeadReadings
    floats_mm: float
    snug_mm: float
    largest_mm: float | None
    round_mm: float
    as_it_stands: Clearance | None
    eased_round: Clearance
    uneven_mm: float | None
    rim_clear_mm: float | None
    rim_doubt_mm: float

    @property
    def known(self) -> Clearance:
        """As it stands where that is known, else eased round."""
        return self.as_it_stands or self.eased_round

    @property
    def goes(self) -> bool:
        """Whether it goes on at all, eased round by hand if need be."""
        return max(self.known.clear_mm, self.eased_round.clear_mm) >= 0.0

    @property
    def round_enough(self) -> bool:
        """Whether a head that sits snug finds the shell round within half its clearance."""
        stands = self.as_it_stands
        if stands is None or self.uneven_mm is None or stands.fit is not Fit.SNUG:
            return True
        return self.uneven_mm <= stands.clear_mm / 2.0 + 1e-6

    @property
    def wanted_mm(self) -> float:
        """Clearance at which nothing is left to say: snug and round enough for it, or floating."""
        return max(self.snug_mm, min(2.0 * (self.uneven_mm or 0.0), self.floats_mm))


def fit_class(clear_mm: float, *, floats_mm: float, snug_mm: float) -> Fit:
    """Return the class of a clearance on the diameter.

    Examples
    --------
    >>> [fit_class(mm, floats_mm=2.0, snug_mm=1.0).value for mm in (2.0, 1.0, 0.0, -0.1)]
    ['floats', 'snug', 'tight', 'does not go']
    """
    if clear_mm < 0:
        return Fit.DOES_NOT_GO
    if clear_mm >= floats_mm:
        return Fit.FLOATS
    return Fit.SNUG if clear_mm >= snug_mm else Fit.TIGHT


def head_fit(readings: HeadReadings, *, floats_mm: float, snug_mm: float) -> HeadFit:
    """Return whether a head goes on, as it stands and eased round.

    The mean diameter of any convex outline is its length / pi (Cauchy), so the largest is never
    taken below that. The overlap adds one thickness of wrap to the diameter through it.

    Parameters
    ----------
    readings : HeadReadings
        Shell, head and counterhoop in mm.
    floats_mm, snug_mm : float
        The workshop's limits of the classes.
    """
    tape_mm = readings.around_mm / math.pi
    largest = None
    if readings.largest_mm is not None:
        largest = max(readings.largest_mm, tape_mm) + readings.unseen_mm
    round_mm = tape_mm + readings.overlap_mm

    def clearance(across_mm: float, doubt_mm: float) -> Clearance:
        # A millionth: what only rounding takes away moves nothing into another class.
        clear = round(readings.collar_mm - across_mm, 6)
        doubt = math.hypot(doubt_mm, readings.head_doubt_mm)
        fit, low, high = (
            fit_class(c, floats_mm=floats_mm, snug_mm=snug_mm)
            for c in (clear, clear - doubt, clear + doubt)
        )
        return Clearance(clear_mm=clear, doubt_mm=doubt, fit=fit, too_close=low is not high)

    rim = None
    if readings.rim_mm is not None and readings.hoop_mm is not None:
        rim = readings.hoop_mm - readings.rim_mm
    uneven = None
    if largest is not None and readings.smallest_mm is not None:
        uneven = largest - min(readings.smallest_mm, tape_mm)
    return HeadFit(
        readings=readings,
        floats_mm=floats_mm,
        snug_mm=snug_mm,
        largest_mm=largest,
        round_mm=round_mm,
        as_it_stands=None if largest is None else clearance(largest, readings.doubt_mm),
        eased_round=clearance(round_mm, readings.around_doubt_mm / math.pi),
        uneven_mm=uneven,
        rim_clear_mm=rim,
        rim_doubt_mm=math.hypot(readings.head_doubt_mm, readings.head_doubt_mm),
    )
