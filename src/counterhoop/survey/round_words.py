"""What out of round means at the bench: for the head, the lug marks and the pitch."""

from __future__ import annotations

import math
from collections.abc import Sequence

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.survey.harmonics import Harmonic, hidden_from_diameters_mm, tells_odd_lobes
from counterhoop.survey.round_across import Across


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
    care_mm: float,
    ask_mm: float,
    waves: Sequence[Harmonic] = (),
) -> tuple[Finding, ...]:
    """Return what one end's diameters come to; what the head makes of them is said with its fit.

    Parameters
    ----------
    end_says : str
        Which end ("batter end").
    care_mm, ask_mm : float
        Largest less smallest diameter from which care is taken, and over which help is asked for.
    waves : sequence of Harmonic
        From radial readings, when there are any.
    """
    found = _out_of_round(across, end_says, care_mm=care_mm, ask_mm=ask_mm)
    return (found, *_odd_lobes(across, end_says, waves))


def _out_of_round(across: Across, end_says: str, *, care_mm: float, ask_mm: float) -> Finding:
    off, step = across.difference_mm, across.resolution_mm
    over_care, over_ask = off >= care_mm, off > ask_mm
    close = min(abs(off - care_mm), abs(off - ask_mm)) < across.doubt_mm
    remedy = ""
    if over_care:
        remedy = "Try the head and the hoop on it before anything else."
    if over_ask:
        remedy = "Get help from someone who rounds shells, before heads or wood are spent on it."
    says = f"{_up(end_says)} is {print_mm(off, resolution_mm=step)} out of round"
    of = "radii" if across.sees_odd_lobes else f"{across.readings} diameters"
    if over_care or close:
        largest, smallest = (
            print_mm(mm, resolution_mm=max(step, CALIPER_MM))
            for mm in (across.largest_mm, across.smallest_mm)
        )
        says += (
            f": {largest} across at {across.largest_deg:.0f} degrees, {smallest} at "
            f"{across.smallest_deg:.0f}, from {of}"
        )
    else:
        says += f", from {of}"
    if over_care:
        split = pitch_split_cents(off, mean_mm=across.mean_mm)
        marks = print_mm(lug_marks_off_mm(off), resolution_mm=CALIPER_MM)
        says += (
            f"; lug marks stepped off along the skin stray by up to {marks}, and the pitch parts "
            f"by about {split:.0f} cents"
        )
    return Finding(
        code="out-of-round",
        grade=Grade.TAKE_CARE if over_care else Grade.NOTE,
        says=says + (": too close to call, measure again." if close else "."),
        where=end_says,
        along_deg=across.largest_deg,
        measured=off,
        limit=ask_mm if over_ask else care_mm,
        doubt=across.doubt_mm,
        rule="round_ask_mm" if over_ask else "round_care_mm",
        remedy=remedy,
        too_close=close,
    )


def _odd_lobes(across: Across, end_says: str, waves: Sequence[Harmonic]) -> tuple[Finding, ...]:
    if not tells_odd_lobes(waves):
        few = across.sees_odd_lobes or bool(waves)
        return (
            Finding(
                code="odd-lobes-not-seen",
                grade=Grade.NOTE,
                says=(
                    f"So few radii of the {end_says} cannot tell three or five lobes."
                    if few
                    else f"Diameters across the {end_says}, and a tape, cannot see three or "
                    "five lobes; such a shell measures the same everywhere."
                ),
                where=end_says,
                remedy=(
                    "Read radii from a bar at 16 stations, better 21, or ride a dial between two "
                    "feet a sixth of a turn to each side: it shows three lobes threefold."
                ),
            ),
        )
    hidden = hidden_from_diameters_mm(waves)
    odd = sorted((w for w in waves if w.order > 1 and w.order % 2), key=lambda w: -w.amplitude_mm)
    doubt = 2.0 * math.hypot(*(w.doubt_mm for w in odd), 0.0)
    if hidden <= doubt:
        return ()
    lobes = odd[0] if odd[0].amplitude_mm > 2.0 * odd[0].doubt_mm else None
    shown = print_mm(hidden, resolution_mm=across.resolution_mm)
    most = f", {lobes.order} lobes most, high at {lobes.high_deg:.0f} degrees" if lobes else ""
    return (
        Finding(
            code="odd-lobes",
            grade=Grade.NOTE,
            says=f"{_up(end_says)}: odd lobes put {shown} on the radius that no caliper shows"
            f"{most}.",
            where=end_says,
            along_deg=lobes.high_deg if lobes else None,
            measured=hidden,
            doubt=doubt,
        ),
    )


def _up(text: str) -> str:
    return text[:1].upper() + text[1:]
