"""What out of round means at the bench: for the head, the lug marks and the pitch."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import print_mm
from counterhoop.survey.harmonics import Harmonic, hidden_from_diameters_mm
from counterhoop.survey.round_across import Across


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundLimits:
    """Largest minus smallest diameter at which to look closer (common practice, no source)."""

    care_mm: float = 3.0
    ask_mm: float = 6.0


def lug_marks_off_mm(difference_mm: float) -> float:
    """Return how far equal angles and equal steps along an oval differ at most.

    An eighth of largest minus smallest diameter: on ``R + d/4 cos 2a`` the way along is
    ``R a + d/8 sin 2a`` (derived, first order).

    Examples
    --------
    >>> lug_marks_off_mm(4.0)
    0.5
    """
    return difference_mm / 8.0


def pitch_split_cents(difference_mm: float, *, mean_mm: float) -> float:
    """Return how far apart an oval's two (1,1) pitches lie, in cents.

    The ratio is ``1 + difference / 2 mean`` for a head of even tension (Rayleigh, The Theory of
    Sound, 1894, par. 209, from memory; first order).

    Examples
    --------
    >>> round(pitch_split_cents(3.0, mean_mm=355.0), 1)
    7.3
    """
    return 1200.0 * math.log2(1.0 + difference_mm / (2.0 * mean_mm))


def round_findings(
    across: Across,
    *,
    end_says: str,
    clearance_mm: float | None = None,
    waves: Sequence[Harmonic] = (),
    limits: RoundLimits | None = None,
) -> tuple[Finding, ...]:
    """Return what one end's diameters come to.

    Parameters
    ----------
    end_says : str
        Which end ("batter end").
    clearance_mm : float, optional
        Room between the head's collar and the mean diameter, on the diameter.
    waves : sequence of Harmonic
        From radial readings, when there are any.
    limits : RoundLimits, optional
        The workshop's own.
    """
    found = [_out_of_round(across, end_says, limits or RoundLimits())]
    if clearance_mm is not None:
        found.append(_collar(across, end_says, clearance_mm))
    found.append(_odd_lobes(across, end_says, waves))
    return tuple(found)


def _out_of_round(across: Across, end_says: str, limits: RoundLimits) -> Finding:
    off = across.difference_mm
    over_care, over_ask = off >= limits.care_mm, off > limits.ask_mm
    remedy = ""
    if over_care:
        remedy = "try the head and the hoop on it before anything else"
    if over_ask:
        remedy = "get help from someone who rounds shells, before heads or wood are spent on it"
    size = print_mm(off, resolution_mm=across.resolution_mm)
    largest, smallest = (
        print_mm(d, resolution_mm=across.resolution_mm)
        for d in (across.largest_mm, across.smallest_mm)
    )
    split = pitch_split_cents(off, mean_mm=across.mean_mm)
    marks = print_mm(lug_marks_off_mm(off), resolution_mm=0.1)
    return Finding(
        code="out-of-round",
        grade=Grade.TAKE_CARE if over_care else Grade.NOTE,
        says=(
            f"{end_says} is {size} out of round: {largest} across at {across.largest_deg:.0f} "
            f"degrees, {smallest} at {across.smallest_deg:.0f}, from {across.readings} "
            f"diameters; lug marks stepped off along the skin stray by up to {marks}, and the "
            f"pitch parts by about {split:.0f} cents"
        ),
        where=end_says,
        along_deg=across.largest_deg,
        measured=off,
        limit=limits.ask_mm if over_ask else limits.care_mm,
        doubt=across.doubt_mm,
        rule="out of round (common practice, no source)",
        remedy=remedy,
        too_close=min(abs(off - limits.care_mm), abs(off - limits.ask_mm)) < across.doubt_mm,
    )


def _collar(across: Across, end_says: str, clearance_mm: float) -> Finding:
    left = clearance_mm - (across.largest_mm - across.mean_mm)
    shown = print_mm(abs(left), resolution_mm=across.resolution_mm)
    return Finding(
        code="collar-at-widest",
        grade=Grade.NOTE if left > across.doubt_mm else Grade.TAKE_CARE,
        says=(
            f"{end_says}: at its widest, {across.largest_deg:.0f} degrees, the shell leaves the "
            f"collar {shown} on the diameter"
            if left >= 0.0
            else f"{end_says}: at its widest, {across.largest_deg:.0f} degrees, the shell stands "
            f"{shown} beyond the collar; the head goes on only if it can be eased round"
        ),
        where=end_says,
        along_deg=across.largest_deg,
        measured=left,
        limit=0.0,
        doubt=across.doubt_mm,
        remedy="" if left > across.doubt_mm else "try the head itself, by hand",
        too_close=abs(left) < across.doubt_mm,
    )


def _odd_lobes(across: Across, end_says: str, waves: Sequence[Harmonic]) -> Finding:
    if not (across.sees_odd_lobes or waves):
        return Finding(
            code="odd-lobes-not-seen",
            grade=Grade.NOTE,
            says=(
                f"{end_says}: diameters across, and a tape, cannot see three or five lobes; such "
                "a shell measures the same everywhere"
            ),
            where=end_says,
            remedy=(
                "read radii from a bar at 21 or more stations, or ride a dial between two feet "
                "a sixth of a turn to each side: it shows three lobes threefold"
            ),
        )
    hidden = hidden_from_diameters_mm(waves)
    odd = sorted((w for w in waves if w.order > 1 and w.order % 2), key=lambda w: -w.amplitude_mm)
    lobes = odd[0] if odd and odd[0].amplitude_mm > 2.0 * odd[0].doubt_mm else None
    doubt = 2.0 * math.hypot(*(w.doubt_mm for w in odd), 0.0)
    shown = print_mm(hidden, resolution_mm=across.resolution_mm)
    return Finding(
        code="odd-lobes",
        grade=Grade.NOTE,
        says=f"{end_says}: odd lobes put {shown} on the radius that no caliper shows"
        + (f", {lobes.order} lobes most, high at {lobes.high_deg:.0f} degrees" if lobes else ""),
        where=end_says,
        along_deg=lobes.high_deg if lobes else None,
        measured=hidden,
        doubt=doubt,
    )
