"""Whether the snares are on: they hiss on where a head alone has long lost its high notes."""

from __future__ import annotations

from counterhoop.listen.loudness import Loudness, loudness
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

WIRES_ON_DB = -12.0
"""Between snares with wires on (-7 dB and more) and toms (-18 and less), on real drums."""
WIRES = (
    "The snares are on, or something on the drum buzzes: their hiss drowns part of the head, and "
    "the pitch is less sure. Take the snares off for a reading."
)
_WHEN_S = (0.12, 0.2)
_OVER_NOISE_DB = 6.0


def hiss_db(sound: Sound, stroke: Stroke, *, heard: Loudness | None = None) -> float | None:
    """Return how loud what is above 1.5 kHz still is a tenth of a second on, over the low band.

    Parameters
    ----------
    sound, stroke : Sound, Stroke
        The recording, and one stroke of it.
    heard : Loudness, optional
        Of the whole recording, where it is at hand.

    Returns
    -------
    float or None
        Decibels from 0.12 to 0.2 s after the start; None where the stroke is over by then, or where
        the room is louder than that.
    """
    heard = loudness(sound) if heard is None else heard
    start = stroke.starts_s - sound.starts_s
    span = (start + _WHEN_S[0], start + _WHEN_S[1])
    if stroke.ends_s - stroke.starts_s < _WHEN_S[1]:
        return None
    if heard.over_floor_db("high", *span) < _OVER_NOISE_DB:
        return None
    return heard.mean_db("high", *span) - heard.mean_db("low", *span)


def wires_on(sound: Sound, stroke: Stroke, *, heard: Loudness | None = None) -> bool:
    """Tell whether a stroke hisses on as with snares on."""
    hiss = hiss_db(sound, stroke, heard=heard)
    return hiss is not None and hiss > WIRES_ON_DB
