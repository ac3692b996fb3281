"""What is said of taps round the rim, and what is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from counterhoop.listen.round_rim import TapReading
from counterhoop.quantities.print_pitch import print_cents

TOO_SHORT = "It does not ring long enough before the next one."
LOWEST_ONLY = (
    "No pitch that turns round the rim is heard, only the lowest tone of the drum or another drum "
    "that rings along: tap nearer to the rods, lay the phone beside the rim, and take other drums "
    "away."
)
FAINT = (
    "The pitch near the rods is faint: tap nearer to them, lay the phone beside the rim, and tap "
    "round again from both places."
)
MORE_LINES = (
    "More than two pitches lie close together: mute the other head with a folded cloth, take the "
    "snares off, and tap round again before anything is turned."
)
BETWEEN_RODS = (
    "Taps on two lines across the head cannot tell the tight axis from its mirror image: tap "
    "midway between two rods as well, or say where the phone lay."
)


def too_few(count: int) -> str:
    """Return what to do where too few taps can be used.

    Examples
    --------
    >>> too_few(1)
    'No reading: 1 tap can be used. Tap near every rod, softly, and let each ring for 2 seconds.'
    """
    used = {0: "no tap", 1: "1 tap"}.get(count, f"{count} taps")
    return (
        f"No reading: {used} can be used. Tap near every rod, softly, and let each ring for "
        "2 seconds."
    )


def nothing_rings(near_hz: float | None) -> str:
    """Return what to do where no pitch stands out."""
    where = "" if near_hz is None else f" near {near_hz:.0f} Hz"
    return (
        f"No reading: no pitch rings on{where} in these taps. Lay the phone beside the drum, a "
        "hand above the head and off its centre, and tap again in a quiet room."
    )


def second_place(place: int) -> str:
    """Return what to do where the phone may lie on a still line."""
    again = "another" if place else "a second"
    return (
        "Only one pitch is heard where the phone lay, and a second may lie still there: move it "
        f"an eighth of the way round (45 degrees), leave it, and tap round {again} time."
    )


def mute(split_cents: float) -> str:
    """Return what to do where two heads sound and not an uneven one."""
    return (
        f"Both heads sound together: the same two pitches, {print_cents(split_cents)} apart, in "
        "one proportion all round. Mute the other head with a folded cloth and tap round "
        "again; turn nothing by this."
    )


def one_pitch(below_cents: float | None) -> str:
    """Return what one pitch at all taps means; without a bound, from one place of the phone.

    Examples
    --------
    >>> one_pitch(3.2)
    'All taps ring at one pitch: two more than 4 cents apart would have shown.'
    """
    if below_cents is None:
        return "From where the phone lay all taps ring at one pitch, which proves nothing yet."
    return (
        f"All taps ring at one pitch: two more than {print_cents(below_cents, up=True)} apart "
        "would have shown."
    )


def noticed(
    taps: Sequence[TapReading], *, unsure: bool = False, astray: bool = False
) -> Iterator[str]:
    """Yield what else was noticed, a sentence each."""
    left_out = [tap for tap in taps if tap.says]
    if left_out:
        names = ", ".join(str(tap.rod) for tap in left_out)
        which = "tap near rod" if len(left_out) == 1 else "taps near rods"
        yield f"The {which} {names} could not be used; the others make up for it."
    if astray:
        yield (
            "The taps do not turn round the rim as they should: was a rod passed over or tapped "
            "twice, the phone moved, or a tap far from its rod?"
        )
    elif unsure:
        yield "The two pitches are so close that the tight axis is lost in doubt."
