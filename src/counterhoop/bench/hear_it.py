"""Hear a scheme before it is drilled: the drum as it is and as it will be, as sounds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.tune.drum_to_tune import ENDS, DrumToTune, drum_to_tune
from counterhoop.bench.tune.settled import USUAL_N_PER_M, settled_n_per_m
from counterhoop.errors import BadInput
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Mode
from counterhoop.heads.modes import batter_lug_mode, lowest, modes, resonant_lug_mode
from counterhoop.heads.strike import Blow, Ear, struck
from counterhoop.heads.tension import print_tension
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


def hear_it(plan: DrumPlan, *, scheme: Scheme | None = None) -> HearIt:
    """Play a scheme before and after, with the heads that are written down for the drum.

    They are the same before and after, and as tight: by the pitches settled for them, else as
    drums usually are. A head of which nothing is written is what such a drum usually wears.

    Parameters
    ----------
    plan : DrumPlan
        A drum of a planned job.
    scheme : Scheme, optional
        One of its schemes; the chosen one where none is named.

    Raises
    ------
    BadInput
        When the drum has no scheme, and for calf that nobody weighed.
    """
    wanted = scheme or plan.chosen
    if wanted is None:
        raise BadInput(
            "no scheme to hear",
            where=plan.key,
            wanted="a drum of which something is wished",
            step="write a wish for it, or plan it again",
        )
    tune = drum_to_tune(plan, scheme=wanted)
    batter, resonant = (settled_n_per_m(tune, end) or USUAL_N_PER_M for end in ENDS)
    drums = {
        "before": tune.before(batter_n_per_m=batter, resonant_n_per_m=resonant),
        "after": tune.then(batter_n_per_m=batter, resonant_n_per_m=resonant),
    }
    alike = drums["before"] == drums["after"]
    shown = {"before and after": drums["after"]} if alike else drums
    found = {when: modes(drum, up_to_hz=_up_to_hz(drum)) for when, drum in shown.items()}
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
        says=_says(tune, tuple(shown.values())),
    )


def _sound(drum: HeadedShell, found: tuple[Mode, ...], blow: Blow) -> NDArray[np.float64]:
    sound = struck(drum, found, blow=blow, ear=Ear()).sound(seconds=SECONDS)
    fade = round(0.1 * len(sound))
    sound[-fade:] *= np.linspace(1.0, 0.0, fade)
    return sound


def _up_to_hz(drum: HeadedShell) -> float:
    """Far enough for a very small drum too."""
    return max(UP_TO_HZ, 2.0 * lowest(drum, 0).hz)


def _says(tune: DrumToTune, drums: Sequence[HeadedShell]) -> tuple[str, ...]:
    said = [SKETCH, _worn(tune, drums)]
    if any(drum.is_open for drum in drums):
        said.append(UNCHECKED)
    if len(drums) == 1:
        return (*said, ALIKE)
    low = [lowest(drum, 0).hz for drum in drums]
    said.append(f"Struck in the middle, its lowest pitch {_goes(*low)}.")
    before, after = (batter_lug_mode(drum) for drum in drums)
    shared = [
        drum
        for drum, mode in zip(drums, (before, after), strict=True)
        if mode.batter_share < SHARED
    ]
    if shared:
        said.append(_shares_it(shared[-1]))
    else:
        moves = _goes(before.hz, after.hz)
        said.append(f"The pitch near the rods, by which the batter head is tuned, {moves}.")
    return tuple(said)


def _worn(tune: DrumToTune, drums: Sequence[HeadedShell]) -> str:
    """Say which heads are on, how tight, and what of it nobody wrote down."""
    drum = min(drums, key=lambda one: one.is_open)
    said = []
    for end, n_per_m in zip(ENDS, (drum.batter_n_per_m, drum.resonant_n_per_m), strict=True):
        if n_per_m is not None:
            which = "Batter head" if end == "batter" else "the other"
            usual = ", as is usual," if tune.taken(end).assumed else ""
            by = ", by the pitch settled for it" if settled_n_per_m(tune, end) else ""
            said.append(f"{which}: {tune.head(end).says}{usual} at {print_tension(n_per_m)}{by}")
    return f"{'; '.join(said)}."


def _shares_it(drum: HeadedShell) -> str:
    """Say that two heads so nearly alike have no pitch of their own near the rods."""
    low_hz, high_hz = sorted(mode(drum).hz for mode in (batter_lug_mode, resonant_lug_mode))
    apart = 10.0 * round(cents(high_hz, above_hz=low_hz) / 10.0)
    return (
        "Heads so nearly alike share the pitch near the rods: it sounds as two pitches about"
        f" {apart:.0f} cents apart, near {_pitch(low_hz)}, however even they are. Mute the other"
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
