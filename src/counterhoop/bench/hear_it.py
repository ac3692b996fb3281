"""Hear a scheme before it is drilled: the drum as it is and as it will be, as sounds."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.bench.heads_on import HeadsOn, headed, usual_heads
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.errors import BadInput
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Mode
from counterhoop.heads.modes import modes
from counterhoop.heads.strike import Blow, Ear, struck
from counterhoop.heads.wav import wav_bytes
from counterhoop.quantities.print_pitch import EAR_CENTS, cents, print_hz, print_note
from counterhoop.scheme.plan import Scheme

UP_TO_HZ = 900.0
SECONDS = 2.5
LOUDEST = 0.8
STROKES = {
    "in the middle": Blow(out=0.0, impulse_n_s=0.05),
    "near the rim": Blow(out=0.8, impulse_n_s=0.1),
}
SKETCH = (
    "A sketch: pitches are the model's, with even heads on a round shell. How long each rings is"
    " typical of such drums and no forecast; hoops, wires, dampers and the room are not in it."
)
UNCHECKED = (
    "For a drum with an open end the model has no published check: trust how far it moves more"
    " than where it lies."
)
ALIKE = "Neither depth nor heads change, so the model hears no difference."
SHARED = 0.9
"""With less of its movement in the batter head a mode is felt in both."""
FINEST_CENTS = 25.0
"""A change of less is not said: the model is no finer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """One stroke.

    Attributes
    ----------
    when : str
        "before", "after", or "before and after" where the model hears no difference.
    where : str
        Where the head is struck.
    file_name : str
        What to save it as.
    wav : bytes
        The sound. All of one drum are equally amplified, so that they can be compared.
    """

    when: str
    where: str
    file_name: str
    wav: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class HearIt:
    """A scheme in sounds, with what must be said beside them.

    Attributes
    ----------
    drum, scheme : str
        The drum's name; the scheme's title.
    sounds : tuple of Heard
        Before and after, in the middle and near the rim.
    says : tuple of str
        First that it is a sketch, then what was put on and what changes.
    """

    drum: str
    scheme: str
    sounds: tuple[Heard, ...]
    says: tuple[str, ...]


def hear_it(
    plan: DrumPlan, *, scheme: Scheme | None = None, heads: HeadsOn | None = None
) -> HearIt:
    """Play a scheme before and after.

    Parameters
    ----------
    plan : DrumPlan
        A drum of a planned job.
    scheme : Scheme, optional
        One of its schemes; the chosen one where none is named.
    heads : HeadsOn, optional
        Heads and tensions, the same before and after; what such a drum usually wears where none
        are given.

    Raises
    ------
    BadInput
        When the drum has no scheme.
    """
    wanted = scheme or plan.chosen
    if wanted is None:
        raise BadInput(
            "no scheme to hear",
            where=plan.key,
            wanted="a drum of which something is wished",
            step="write a wish for it, or plan it again",
        )
    on = heads or usual_heads(plan.wanted.drum.kind)
    drums = {"before": headed(plan.found, on), "after": headed(wanted.layout, on)}
    alike = drums["before"] == drums["after"]
    shown = {"before and after": drums["after"]} if alike else drums
    found = {when: modes(drum, up_to_hz=UP_TO_HZ) for when, drum in shown.items()}
    raw = {
        (when, where): _sound(drum, found[when], blow)
        for when, drum in shown.items()
        for where, blow in STROKES.items()
    }
    full = max(float(np.abs(sound).max()) for sound in raw.values()) / LOUDEST
    sounds = tuple(
        Heard(
            when=when,
            where=where,
            file_name=f"{plan.key} {when} {where}.wav".replace(" ", "-"),
            wav=wav_bytes(sound / full),
        )
        for (when, where), sound in raw.items()
    )
    return HearIt(
        drum=plan.key,
        scheme=wanted.title,
        sounds=sounds,
        says=_says(on, shown.values(), found.values()),
    )


def _sound(drum: HeadedShell, found: tuple[Mode, ...], blow: Blow) -> NDArray[np.float64]:
    sound = struck(drum, found, blow=blow, ear=Ear()).sound(seconds=SECONDS)
    fade = round(0.1 * len(sound))
    sound[-fade:] *= np.linspace(1.0, 0.0, fade)
    return sound


def _says(
    on: HeadsOn, drums: Collection[HeadedShell], found: Collection[tuple[Mode, ...]]
) -> tuple[str, ...]:
    ends_open = [drum.is_open for drum in drums]
    said = [SKETCH, on.says(two=not all(ends_open))]
    if any(ends_open):
        said.append(UNCHECKED)
    low = [min(mode.hz for mode in ways if mode.around == 0) for ways in found]
    if len(low) == 1:
        return (*said, ALIKE)
    said.append(f"Struck in the middle, its lowest pitch {_goes(*low)}.")
    before, after = (_carried(ways) for ways in found)
    if after.batter_share < SHARED:
        said.append(_shares_it([mode.hz for mode in list(found)[-1] if mode.around == 1][:2]))
    else:
        moves = _goes(before.hz, after.hz)
        said.append(f"Near the rim, the (1,1) by which the batter head is tuned {moves}.")
    return tuple(said)


def _carried(ways: tuple[Mode, ...]) -> Mode:
    """The lowest mode with one nodal diameter that the batter head carries more than the other."""
    carried = [mode for mode in ways if mode.around == 1 and mode.batter_share > 0.5]
    return min(carried, key=lambda mode: mode.hz)


def _shares_it(pair: list[float]) -> str:
    """Say that two heads so nearly alike have no (1,1) each.

    Examples
    --------
    >>> _shares_it([274.6, 285.5]).split(": ")[1][:65]
    'it sounds as two pitches about 70 cents apart, near C#4 (275 Hz),'
    """
    apart = 10.0 * round(cents(pair[1], above_hz=pair[0]) / 10.0)
    return (
        "Near the rim, heads so nearly alike share their (1,1): it sounds as two pitches about"
        f" {apart:.0f} cents apart, near {_pitch(pair[0])}, however even they are. Mute the other"
        " head to tune."
    )


def _goes(before_hz: float, after_hz: float) -> str:
    """Say how a pitch moves, no finer than half a semitone.

    Examples
    --------
    >>> _goes(111.1, 133.9)
    'rises by about 3 semitones, from A2 (111 Hz) to C3 (134 Hz)'
    >>> _goes(220.0, 220.6)
    'stays where it is, at about A3 (220 Hz)'
    """
    moved = cents(after_hz, above_hz=before_hz)
    if abs(moved) < FINEST_CENTS:
        return f"stays where it is, at about {_pitch(before_hz)}"
    steps = max(0.5, round(abs(moved) / 50.0) / 2.0)
    way = "rises" if moved > 0.0 else "falls"
    much = "half a semitone" if steps == 0.5 else f"{steps:g} semitone{'s' if steps > 1 else ''}"
    return f"{way} by about {much}, from {_pitch(before_hz)} to {_pitch(after_hz)}"


def _pitch(hz: float) -> str:
    note = print_note(hz, resolution_cents=100.0)
    return f"{note} ({print_hz(hz, resolution_cents=EAR_CENTS)})"
