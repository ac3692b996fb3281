"""Tape, caliper and radii of one end held against each other, and which of them is likely wrong."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_mm
from counterhoop.survey.round_across import Diameters
from counterhoop.survey.slips import any_of, slip_between, slips_of

ZERO_DOUBT_MM = 0.5
"""Half-width of the doubt of a radius from bar to skin, by rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Witness:
    """A girth that radii make, to decide between tape and caliper; half-width of its doubt."""

    girth_mm: float
    doubt_mm: float

    def backs(self, girth_mm: float, *, doubt_mm: float) -> bool:
        """Whether it agrees with another girth."""
        return abs(self.girth_mm - girth_mm) <= self.doubt_mm + doubt_mm


def witness_of(radius_mm: float, *, resolution_mm: float) -> Witness:
    """Return the girth that a mean radius makes (derived; what is out of round adds 0.1 mm).

    Examples
    --------
    >>> round(witness_of(178.0, resolution_mm=0.01).girth_mm, 1)
    1118.4
    """
    return Witness(
        girth_mm=2.0 * math.pi * radius_mm,
        doubt_mm=2.0 * math.pi * (ZERO_DOUBT_MM + resolution_mm / 2.0),
    )


def girth_against_diameters(
    girth_mm: float,
    diameters: Diameters,
    *,
    girth_doubt_mm: float,
    oval_mm: float,
    end_says: str = "",
    witness: Witness | None = None,
) -> Finding | None:
    """Hold a tape's girth against pi times the mean diameter; None when they agree.

    One diameter that stands out is suspected before the tape; where no single slip explains it,
    radii decide which of the two they agree with.

    Parameters
    ----------
    girth_mm : float
        From the tape, corrected for its thickness, on the same skin.
    girth_doubt_mm : float
        Half-width of its doubt.
    oval_mm : float
        Largest minus smallest diameter still thought real; with few directions it moves the mean
        diameter by up to half of that over the square of their number.
    end_says : str
        Which end ("batter end").
    witness : Witness, optional
        What radii make of the girth.
    """
    sizes = diameters.diameter_mm
    allowed = (
        girth_doubt_mm
        + math.pi * diameters.resolution_mm
        + math.pi * oval_mm / (2.0 * len(sizes) ** 2)
    )
    made = math.pi * sum(sizes) / len(sizes)
    off = girth_mm - made
    if abs(off) <= allowed:
        return None
    girth = [
        f"the girth, {slip.says}"
        for slip in slips_of(girth_mm)
        if abs(slip.right_mm - made) <= allowed
    ]
    across = _one_diameter(girth_mm, diameters, allowed=allowed, oval_mm=oval_mm)
    across += _every_diameter(girth_mm, sizes, allowed=allowed)
    suspects = across if across and max(sizes) - min(sizes) > oval_mm else [*girth, *across]
    if witness is not None:
        tape = witness.backs(girth_mm, doubt_mm=girth_doubt_mm)
        caliper = witness.backs(made, doubt_mm=allowed - girth_doubt_mm)
        if caliper and not tape:
            suspects = girth or ["the girth, as the radii agree with the diameters"]
        elif tape and not caliper:
            suspects = across or ["the diameters, as the radii agree with the girth"]
    where = f"{end_says}, girth and diameters" if end_says else "girth and diameters"
    says = (
        f"The girth and the diameters{f' of the {end_says}' if end_says else ''} disagree by "
        f"{print_mm(abs(off), resolution_mm=TAPE_MM)} on the girth"
    )
    again = suspects[0].split(",")[0] if len(suspects) == 1 else "girth and diameters"
    return Finding(
        code="readings-disagree",
        grade=Grade.TAKE_CARE,
        says=f"{says}; most likely {any_of(suspects)}." if suspects else f"{says}.",
        where=where,
        measured=off,
        limit=0.0,
        doubt=allowed,
        rule="girth is pi times the mean diameter",
        remedy=f"Measure {again} again, on the same skin and at the same height.",
    )


def _one_diameter(
    girth_mm: float, diameters: Diameters, *, allowed: float, oval_mm: float
) -> list[str]:
    """Return the diameters that alone explain it, and after whose mending all lie calmly."""
    sizes = diameters.diameter_mm
    spread = max(sizes) - min(sizes)
    found: list[tuple[float, str]] = []
    for number, (angle, size) in enumerate(zip(diameters.along_deg, sizes, strict=True)):
        others = [*sizes[:number], *sizes[number + 1 :]]
        for slip in slips_of(size):
            mended = [*others, slip.right_mm]
            calm = max(mended) - min(mended)
            left = girth_mm - math.pi * sum(mended) / len(mended)
            # A reading that is off by a slip widens the spread by most of that slip.
            calmer = calm <= max(oval_mm, spread - abs(size - slip.right_mm) / 2.0)
            if abs(left) <= allowed and calm < spread and calmer:
                found.append((calm, f"the diameter at {angle:.0f} degrees, {slip.says}"))
    # Of several the ones after which all lie calmest: the others lean on the shell's oval.
    least = min((calm for calm, _ in found), default=0.0)
    return [says for calm, says in found if calm <= least + oval_mm / 2.0]


def _every_diameter(girth_mm: float, sizes: Sequence[float], *, allowed: float) -> list[str]:
    mean = sum(sizes) / len(sizes)
    return [
        f"every diameter, {slip.says}"
        for slip in slips_of(mean)
        if abs(math.pi * slip.right_mm - girth_mm) <= allowed
    ]


def radii_against_girth(
    witness: Witness,
    *,
    girth_mm: float,
    girth_doubt_mm: float,
    end_says: str,
    diameters_read: bool,
    by_dial: bool = True,
) -> Finding | None:
    """Say that all radii are off by one and the same length; None when they make the girth.

    Parameters
    ----------
    by_dial : bool
        Then it is the radius at which the dial stood at 0, else where the bar or card began.
    diameters_read : bool
        Diameters do not then hang on it, only the four circles' radii.
    """
    if witness.backs(girth_mm, doubt_mm=girth_doubt_mm):
        return None
    off = (witness.girth_mm - girth_mm) / (2.0 * math.pi)
    radius = witness.girth_mm / (2.0 * math.pi)
    doubt = (witness.doubt_mm + girth_doubt_mm) / (2.0 * math.pi)
    slip = slip_between(radius, girth_mm / (2.0 * math.pi), within_mm=doubt)
    shown = print_mm(abs(off), resolution_mm=CALIPER_MM)
    blamed = (
        "the radius at which the dial stood at 0"
        if by_dial
        else "the mark on the bar or card that they were read from"
    )
    return Finding(
        code="radii-off-girth",
        grade=Grade.NOTE if diameters_read else Grade.TAKE_CARE,
        says=(
            f"The radii of the {end_says} are {shown} too {'large' if off > 0.0 else 'small'} for "
            f"its girth, all alike: most likely {blamed}"
            + (f", {slip}." if slip else ".")
            + " How round it is does not hang on that"
            + ("." if diameters_read else "; its diameters do.")
        ),
        where=f"{end_says}, radii",
        measured=off,
        limit=0.0,
        doubt=doubt,
        rule="girth is twice pi times the mean radius",
        remedy="Measure from the bar to the skin again"
        + (" where the dial says 0." if by_dial else "."),
    )
