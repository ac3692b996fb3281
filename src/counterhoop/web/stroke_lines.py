"""The strokes of a recording as a page lists them, each with the rod that it is taken for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.bench.tune.heard import Heard, StrokeHeard
from counterhoop.quantities.print_pitch import print_pitch
from counterhoop.web.kept_readings import HEADS, STAGES
from counterhoop.web.taps_form import LEFT_OUT, TapsForm

SURE = {
    "good": "",
    "fair": ", fairly sure",
    "poor": ", not sure",
    "none": ", not sure at all",
}
LEAST_GLIDE_CENTS = 10.0
"""What comes down by less is no news at the bench (a choice of this program)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeLine:
    """One stroke.

    Attributes
    ----------
    number : int
        In the order of the recording.
    at : str
        When it is, in seconds.
    rod : str
        The rod that it is taken for, as its choice has it.
    choices : tuple of (str, str)
        Empty where it cannot be used, whatever one chooses.
    says : tuple of str
        What was heard, or why it is not used.
    """

    number: int
    at: str
    rod: str
    choices: tuple[tuple[str, str], ...]
    says: tuple[str, ...]


def stroke_lines(
    heard: Heard, strokes: Sequence[StrokeHeard] | None = None
) -> tuple[StrokeLine, ...]:  # fmt: skip
    """Return the strokes of a recording, or of the same taps from another place of the phone."""
    choices = (
        (LEFT_OUT, "left out"),
        *((str(rod.number), f"rod {rod.number}") for rod in heard.rods),
    )
    return tuple(
        StrokeLine(
            number=one.number,
            at=f"{one.starts_s:.1f} s",
            rod=str(one.rod),
            choices=choices if heard.rods and (not one.dropped or _by_hand(one)) else (),
            says=_says(one),
        )
        for one in (heard.strokes if strokes is None else strokes)
    )


def _by_hand(one: StrokeHeard) -> bool:
    from counterhoop.bench.tune.listened import LEFT_OUT as BY_HAND

    return one.dropped == BY_HAND


def _says(one: StrokeHeard) -> tuple[str, ...]:
    if one.dropped:
        return (one.dropped,)
    if one.hz is None:
        return one.says or ("No pitch is sure.",)
    glide = (
        f"; it came down {one.glide_cents:.0f} cents"
        if one.glide_cents >= LEAST_GLIDE_CENTS
        else ""
    )
    return (f"{print_pitch(one.hz)}{SURE[one.quality]}{glide}.", *one.says)


def title_of(taps: TapsForm) -> str:
    """Return what a recording is of, such as "batter head, before"."""
    told = taps.told
    return f"{HEADS[told.head]}, {STAGES[told.stage]}"
