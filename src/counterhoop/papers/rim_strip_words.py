"""What a strip round the rim says in words: over it, under it, and to who cannot see it."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.listen.advice import RodShare
from counterhoop.listen.advice_words import FULL, listed
from counterhoop.listen.round_rim import RimReading
from counterhoop.quantities.print_pitch import print_cents, print_pitch

NO_READING = "no pitch was read"
BOTH_RING = "both heads ring: the other one was not muted"


def heading_more(reading: RimReading) -> tuple[str, ...]:
    """Return what stands beside the heading: the mean, and how far the pitch differs.

    Examples
    --------
    >>> heading_more(RimReading(mean_hz=187.0, split_cents=20.7, split_doubt_cents=1.2))
    ('mean F#3 +20 cents (187 Hz)', 'differs by 21 cents, give or take 2')
    """
    if reading.mean_hz is None:
        return (NO_READING,)
    said = [f"mean {print_pitch(reading.mean_hz)}"]
    if reading.coupled_pair:
        said.append(BOTH_RING)
    elif reading.split_cents is not None:
        said.append(_differs(reading))
    elif reading.split_below_cents is not None:
        said.append(f"differs by less than {print_cents(reading.split_below_cents, up=True)}")
    else:
        said.append("one pitch alone was found")
    return tuple(said)


def key_words(reading: RimReading, pattern: Sequence[RodShare]) -> tuple[str, ...]:
    """Return what the marks on the strip are, those only that are on it."""
    said = []
    places = {tap.place for tap in reading.taps if not tap.says}
    if _lobed(reading):
        said.append("dot: a tap, with its doubt")
        if len(places) > 1:
            said.append("square: the phone in its second place")
        said.append("curve: the two-lobed fit")
        said.append("tight: where the head pulls hardest, with its doubt")
        if reading.mirror_deg is not None:
            said.append("or here: these taps cannot tell the two apart")
    if any(tap.says for tap in reading.taps):
        said.append("cross: a tap left out")
    if reading.mean_hz is not None:
        said.append("dotted: even enough")
    if any(one.share for one in pattern):
        said.append("arrow up: tighten, down: slacken, small: half as much")
    return tuple(said)


def says_rim(
    reading: RimReading, *, rods: Sequence[tuple[int, float]], pattern: Sequence[RodShare]
) -> str:
    """Return the whole strip in words.

    Examples
    --------
    >>> read = RimReading(mean_hz=187.0, split_cents=20.0, split_doubt_cents=1.0, axis_deg=100.0,
    ...                   axis_doubt_deg=4.0)
    >>> says_rim(read, rods=[(1, 10.0), (2, 100.0), (3, 190.0), (4, 280.0)], pattern=[])
    'Mean F#3 +20 cents (187 Hz), differs by 20 cents, give or take 1. Tight at 100 and 280 \
degrees along, give or take 4: near rods 2 and 4.'
    """
    head = ", ".join(heading_more(reading))
    said = [f"{head[0].upper()}{head[1:]}."]
    if _lobed(reading) and reading.axis_deg is not None:
        ends = [reading.axis_deg % 180.0, reading.axis_deg % 180.0 + 180.0]
        where = f"Tight at {ends[0]:.0f} and {ends[1]:.0f} degrees along"
        if reading.axis_doubt_deg is not None:
            where += f", give or take {_up(reading.axis_doubt_deg)}"
        near = sorted({_nearest(rods, end) for end in ends}) if rods else []
        said.append(f"{where}{f': near rods {listed(near)}' if len(near) > 1 else ''}.")
        if reading.mirror_deg is not None:
            other = reading.mirror_deg % 180.0
            said.append(f"Or at {other:.0f} and {other + 180.0:.0f} degrees.")
    said += turned_words(pattern)
    left_out = sorted({tap.rod for tap in reading.taps if tap.says and tap.rod})
    if left_out:
        said.append(f"Taps left out: near rod{'s' if len(left_out) > 1 else ''} "
                    f"{listed(left_out)}.")  # fmt: skip
    return " ".join(said)


def turned_words(pattern: Sequence[RodShare]) -> list[str]:
    """Return which rods are turned which way, a sentence each.

    Examples
    --------
    >>> turned_words([RodShare(rod=2, along_deg=0.0, share=1.0, cents=-10.0),
    ...               RodShare(rod=4, along_deg=90.0, share=-0.5, cents=10.0)])
    ['Tighten rod 2.', 'Slacken rod 4 half as much.']
    """
    said = []
    for way, sign in (("Tighten", 1.0), ("Slacken", -1.0)):
        for half, more in ((False, ""), (True, " half as much")):
            which = [
                one.rod
                for one in pattern
                if one.share * sign > 0.0 and (abs(one.share) < FULL) is half
            ]
            if which:
                said.append(f"{way} rod{'s' if len(which) > 1 else ''} {listed(which)}{more}.")
    return said


def _lobed(reading: RimReading) -> bool:
    return (
        reading.split_cents is not None
        and reading.axis_deg is not None
        and not reading.coupled_pair
    )


def _differs(reading: RimReading) -> str:
    split, doubt = reading.split_cents or 0.0, reading.split_doubt_cents
    more = f", give or take {_up(doubt)}" if doubt is not None else ""
    return f"differs by {print_cents(split)}{more}"


def _up(value: float) -> int:
    """Round a doubt up to a whole number, never to nothing."""
    return max(1, int(value) + (value > int(value)))


def _nearest(rods: Sequence[tuple[int, float]], along_deg: float) -> int:
    return min(rods, key=lambda rod: abs((rod[1] - along_deg + 180.0) % 360.0 - 180.0))[0]
