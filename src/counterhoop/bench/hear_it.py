"""Hear a scheme before it is drilled: the drum as it is and as it will be, as sounds."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.bench.heads_on import HeadsOn, headed, usual_heads
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.errors import BadInput
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import modes
from counterhoop.heads.strike import Blow, Ear, struck
from counterhoop.heads.wav import wav_bytes
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
    raw = {
        (when, where): _sound(drum, blow)
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
        drum=plan.key, scheme=wanted.title, sounds=sounds, says=_says(on, **drums)
    )  # fmt: skip


def _sound(drum: HeadedShell, blow: Blow) -> NDArray[np.float64]:
    found = modes(drum, up_to_hz=UP_TO_HZ)
    sound = struck(drum, found, blow=blow, ear=Ear()).sound(seconds=SECONDS)
    fade = round(0.1 * len(sound))
    sound[-fade:] *= np.linspace(1.0, 0.0, fade)
    return sound


def _says(on: HeadsOn, *, before: HeadedShell, after: HeadedShell) -> tuple[str, ...]:
    two = not (before.is_open and after.is_open)
    said = [SKETCH, on.says(two=two)]
    if before.is_open or after.is_open:
        said.append(UNCHECKED)
    if before == after:
        return (*said, ALIKE)
    low = [modes(drum, up_to_hz=UP_TO_HZ, around=1)[0].hz for drum in (before, after)]
    rim = [_rim_hz(drum) for drum in (before, after)]
    said.append(f"Struck in the middle, its lowest pitch {_goes(*low)}.")
    said.append(f"Near the rim, the (1,1) by which the batter head is tuned {_goes(*rim)}.")
    return tuple(said)


def _rim_hz(drum: HeadedShell) -> float:
    """Pitch of the lowest mode with one nodal diameter that the batter head carries."""
    found = modes(drum, up_to_hz=UP_TO_HZ, around=2)
    carried = [mode for mode in found if mode.around == 1 and mode.batter_share > 0.5]
    return carried[0].hz


def _goes(before_hz: float, after_hz: float) -> str:
    """Say how a pitch moves, no finer than half a semitone.

    Examples
    --------
    >>> _goes(111.1, 133.9), _goes(220.0, 220.6)
    ('rises by about 3 semitones, from 111 to 134 Hz', 'stays where it is, at about 220 Hz')
    """
    cents = 1200.0 * math.log2(after_hz / before_hz)
    if abs(cents) < FINEST_CENTS:
        return f"stays where it is, at about {before_hz:.0f} Hz"
    steps = max(0.5, round(abs(cents) / 50.0) / 2.0)
    way = "rises" if cents > 0.0 else "falls"
    much = "half a semitone" if steps == 0.5 else f"{steps:g} semitone{'s' if steps > 1 else ''}"
    return f"{way} by about {much}, from {before_hz:.0f} to {after_hz:.0f} Hz"
