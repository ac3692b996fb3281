"""The modes that a drum of that pitch should have, to lay beneath what was heard."""

from __future__ import annotations

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.heard import Heard
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.beside import tension_beside
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Mode
from counterhoop.heads.modes import modes
from counterhoop.heads.strike import muted
from counterhoop.heads.tension import tension_from_pitch

UP_TO_HZ = 800.0
SEEN_SHARE = 0.1
"""Modes that the struck head hardly takes part in are not heard there."""


def modes_beneath(heard: Heard, tune: DrumToTune) -> tuple[Mode, ...]:
    """Return the modes of the drum at the tension that its pitch near the rim says.

    Parameters
    ----------
    heard : Heard
        Of taps round the rim; the pitch of strokes elsewhere does not say the tension.
    tune : DrumToTune
        That drum.

    Returns
    -------
    tuple of Mode
        Up to 800 Hz, by rising pitch, those in which the struck head moves; empty where the
        tension is not known. The other head is taken to have the same pitch, under a cloth where
        it was muted.
    """
    tune = tune.at(heard.stage)
    two, radius_m, depth_m = tune.heads_then > 1, tune.radius_m, tune.depth_m
    far: End = "resonant" if heard.head == "batter" else "batter"
    struck, other = tune.taken(heard.head).head, tune.taken(far).head
    if heard.rim is None or heard.hz is None or struck is None or (two and other is None):
        return ()
    try:
        n_per_m = tension_from_pitch(
            heard.hz,
            radius_m=radius_m,
            depth_m=depth_m,
            head=struck,
            end="muted" if two else "open",
        ).n_per_m
        beside = (
            tension_beside(
                n_per_m, head=struck, other=other, cents=0.0, radius_m=radius_m, depth_m=depth_m
            )
            if two and other is not None
            else None
        )
    except BadInput:
        return ()
    drum = HeadedShell(
        radius_m=radius_m,
        depth_m=depth_m,
        batter=struck,
        batter_n_per_m=n_per_m,
        resonant=other if two else None,
        resonant_n_per_m=beside,
    )
    found = modes(muted(drum) if two and heard.muted else drum, up_to_hz=UP_TO_HZ)
    return tuple(mode for mode in found if mode.batter_share > SEEN_SHARE)
