"""Will a head go on: the shell over its finish against collar, rim and counterhoop.

The classes of clearance and what each way out costs are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from counterhoop.errors import BadInput

FLOATS_MM = 2.0
SNUG_MM = 1.0
SLIP_MM = 6.0
"""Tape and calipers further apart than this are a slip of one of them."""


class Fit(StrEnum):
    """Class of the clearance on the diameter: 2 mm and more, 1 to 2, 0 to 1, below 0."""

    FLOATS = "floats"
    SNUG = "snug"
    TIGHT = "tight"
    DOES_NOT_GO = "does not go"


_SAID = {
    Fit.FLOATS: "the head floats",
    Fit.SNUG: "the head sits snug",
    Fit.TIGHT: "the head is tight",
    Fit.DOES_NOT_GO: "the head does not go on",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadReadings:
    """What was measured for one head; millimetres, never a nominal size.

    Attributes
    ----------
    largest_mm, smallest_mm : float
        Diameters over the finish within the top 20 mm.
    around_mm : float
        By tape over the finish, same place.
    collar_mm : float
        Inside of the head's collar, where it goes over the shell.
    rim_mm, hoop_mm : float or None
        Outside of the head's rim and inside of the counterhoop, when measured.
    wrap_mm : float
        Thickness of the wrap; 0 without.
    overlap_measured : bool
        One diameter ran through the wrap's overlap, so ``largest_mm`` holds it already.
    doubt_mm, around_doubt_mm : float
        Half-width of a diameter's doubt and of the tape's.
    """

    largest_mm: float
    smallest_mm: float
    around_mm: float
    collar_mm: float
    rim_mm: float | None = None
    hoop_mm: float | None = None
    wrap_mm: float = 0.0
    overlap_measured: bool = False
    doubt_mm: float = 0.1
    around_doubt_mm: float = 0.5

    def __post_init__(self) -> None:
        sizes = (self.largest_mm, self.smallest_mm, self.around_mm, self.collar_mm)
        for size in (*sizes, *(size for size in (self.rim_mm, self.hoop_mm) if size is not None)):
            if not (math.isfinite(size) and size > 0):
                raise BadInput("a size must be above zero", where="head fit", given=size)
        if not 0 <= self.wrap_mm <= 5:
            raise BadInput("no wrap is so thick", where="wrap", given=self.wrap_mm, wanted="mm")
        if self.smallest_mm > self.largest_mm:
            raise BadInput("smallest above largest", where="diameters", given=self.smallest_mm)
        across_mm = self.around_mm / math.pi
        if not self.smallest_mm - SLIP_MM <= across_mm <= self.largest_mm + SLIP_MM:
            raise BadInput(
                "tape and calipers do not agree",
                where="around",
                given=f"{self.around_mm:g} mm",
                wanted=f"about {math.pi * (self.largest_mm + self.smallest_mm) / 2:.0f} mm",
                step="Measure both again at the same height.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """Collar less shell on the diameter, its doubt, its class, and whether the doubt spans two."""

    clear_mm: float
    doubt_mm: float
    fit: Fit
    too_close: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One thing that would make it go.

    Attributes
    ----------
    does : str
        What to do, in mm.
    gains_mm : float
        Clearance that it can give.
    enough : bool
        It reaches 1 mm of clearance by itself.
    costs, undone : str
        What it costs; whether it can be undone.
    refused : bool
        Not offered unless the client and the restorer both insist.
    """

    does: str
    gains_mm: float
    enough: bool
    costs: str
    undone: str
    refused: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadFit:
    """The answer, twice, with the ways out when it is tight or worse.

    Attributes
    ----------
    as_it_stands, eased_round : Clearance
        With the largest diameter, and with the same shell eased to a circle (around / pi).
    round_enough : bool
        Largest less smallest within half the clearance, as a snug fit must be.
    rim_clear_mm : float or None
        Counterhoop less rim; below 0 the hoop does not go over the head.
    ways_out : tuple of WayOut
        Those that can be undone first.
    says : tuple of str
        In words; ends with the head itself, tried by hand.
    """

    as_it_stands: Clearance
    eased_round: Clearance
    round_enough: bool
    rim_clear_mm: float | None
    ways_out: tuple[WayOut, ...]
    says: tuple[str, ...]


def fit_of(clear_mm: float) -> Fit:
    """Return the class of a clearance on the diameter.

    Examples
    --------
    >>> [fit_of(mm).value for mm in (2.0, 1.0, 0.0, -0.1)]
    ['floats', 'snug', 'tight', 'does not go']
    """
    if clear_mm >= FLOATS_MM:
        return Fit.FLOATS
    if clear_mm >= SNUG_MM:
        return Fit.SNUG
    return Fit.TIGHT if clear_mm >= 0 else Fit.DOES_NOT_GO


def head_fit(readings: HeadReadings, *, wall_mm: float | None = None) -> HeadFit:
    """Return whether a head goes on, and what would help.

    The mean diameter of any convex outline is its length / pi (Cauchy), so the largest is never
    taken below that. The overlap adds one thickness of wrap to the diameter through it.

    Parameters
    ----------
    readings : HeadReadings
        Shell, head and counterhoop in mm.
    wall_mm : float, optional
        Wood of the shell, to say how much of it sanding would take.
    """
    round_mm = readings.around_mm / math.pi
    overlap_mm = readings.wrap_mm
    unseen_mm = 0.0 if readings.overlap_measured else overlap_mm
    largest_mm = max(readings.largest_mm + unseen_mm, round_mm + overlap_mm)
    stands = _clearance(readings, largest_mm, doubt_mm=readings.doubt_mm)
    eased = _clearance(readings, round_mm + overlap_mm, doubt_mm=readings.around_doubt_mm / math.pi)
    uneven_mm = largest_mm - min(readings.smallest_mm, round_mm)
    round_enough = uneven_mm <= max(stands.clear_mm, 0.0) / 2
    rim = (
        None
        if readings.rim_mm is None or readings.hoop_mm is None
        else readings.hoop_mm - readings.rim_mm
    )
    ways = (
        _ways_out(readings, stands, largest_mm=largest_mm, wall_mm=wall_mm)
        if stands.fit in (Fit.TIGHT, Fit.DOES_NOT_GO)
        else ()
    )
    return HeadFit(
        as_it_stands=stands,
        eased_round=eased,
        round_enough=round_enough,
        rim_clear_mm=rim,
        ways_out=ways,
        says=_words(stands, eased, uneven_mm=uneven_mm, round_enough=round_enough, rim_mm=rim),
    )


def _clearance(readings: HeadReadings, across_mm: float, *, doubt_mm: float) -> Clearance:
    clear_mm = readings.collar_mm - across_mm
    doubt = math.hypot(doubt_mm, readings.doubt_mm)
    return Clearance(
        clear_mm=clear_mm,
        doubt_mm=doubt,
        fit=fit_of(clear_mm),
        too_close=fit_of(clear_mm - doubt) is not fit_of(clear_mm + doubt),
    )


def _ways_out(
    readings: HeadReadings, stands: Clearance, *, largest_mm: float, wall_mm: float | None
) -> tuple[WayOut, ...]:
    short_mm = SNUG_MM - stands.clear_mm
    wanted_mm = largest_mm + SNUG_MM
    ways = [
        WayOut(
            does=f"Another head, measured: at least {wanted_mm:.1f} mm inside its collar.",
            gains_mm=short_mm,
            enough=True,
            costs="A head; makes differ by a millimetre or more, so measure before paying.",
            undone="wholly",
        ),
        WayOut(
            does=f"An over-size head, {wanted_mm:.1f} mm or more inside its collar, with a "
            "counterhoop to suit its rim.",
            gains_mm=short_mm,
            enough=True,
            costs="A head made to order and its hoop; check ears, rods and lugs against the hoop.",
            undone="wholly",
        ),
    ]
    if readings.wrap_mm:
        most_mm = 2 * readings.wrap_mm
        ways.append(
            WayOut(
                does=f"Relieve the wrap by a band under the collar: up to {most_mm:.1f} mm on the "
                f"diameter, {short_mm:.1f} mm wanted.",
                gains_mm=most_mm,
                enough=most_mm >= short_mm,
                costs="A band of bare shell under the hoop; old wrap may be cellulose nitrate.",
                undone="not without a new wrap",
            )
        )
    wall = f" of {wall_mm:.1f} mm wall" if wall_mm is not None else ""
    ways.append(
        WayOut(
            does=f"Sand wood off the shell: {short_mm / 2:.1f} mm{wall} all round.",
            gains_mm=short_mm,
            enough=wall_mm is None or short_mm / 2 < wall_mm,
            costs="The shell's outer ply and its value.",
            undone="never",
            refused=True,
        )
    )
    return tuple(ways)


def _words(
    stands: Clearance,
    eased: Clearance,
    *,
    uneven_mm: float,
    round_enough: bool,
    rim_mm: float | None,
) -> tuple[str, ...]:
    says = [
        f"{name}, {_SAID[clearance.fit]}: {clearance.clear_mm:+.1f} mm on the diameter, "
        f"to {clearance.doubt_mm:.1f} mm."
        + (" Too close to call: measure again." if clearance.too_close else "")
        for name, clearance in (("As it stands", stands), ("Eased round", eased))
    ]
    if stands.fit is Fit.SNUG and not round_enough:
        says.append(
            f"It is {uneven_mm:.1f} mm out of round; so snug it must be within "
            f"{stands.clear_mm / 2:.1f} mm."
        )
    if rim_mm is not None and rim_mm < 0:
        says.append(f"The counterhoop is {-rim_mm:.1f} mm too small for the head's rim.")
    says.append("The last word is the head itself, tried by hand.")
    return tuple(says)
