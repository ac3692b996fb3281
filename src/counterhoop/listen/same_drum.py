"""Strokes that swell before they die away, because two pitches beat, told from what is no drum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import NO_DECAY, Stroke

ALIKE = 0.6
_SINCE_S, _UNTIL_S = 0.06, 0.46
_BAND_HZ, _STEP_HZ = (60.0, 800.0), 1.0


def with_beats(sound: Sound, strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """Return the strokes, those that swell taken in again where others rang alike.

    Parameters
    ----------
    sound : Sound
        The recording.
    strokes : sequence of Stroke
        Every one that was found in it.

    Notes
    -----
    Near a rod between the two axes of an uneven head both its pitches start against each other,
    so that the sound grows at first. Its spectrum is that of the strokes around it, which no word
    and no music has. Where there are as many of them as of others nothing is taken in.
    """
    doubtful = [stroke for stroke in strokes if stroke.dropped == NO_DECAY]
    used = [stroke for stroke in strokes if not stroke.dropped]
    if not doubtful or len(used) <= len(doubtful):
        return tuple(strokes)
    shapes = [_shape(sound, stroke) for stroke in used]
    again = {
        stroke.number
        for stroke in doubtful
        if max(float(_shape(sound, stroke) @ shape) for shape in shapes) > ALIKE
    }
    return tuple(
        replace(stroke, dropped="") if stroke.number in again else stroke for stroke in strokes
    )


def _shape(sound: Sound, stroke: Stroke) -> NDArray[np.float64]:
    """Return the spectrum of a stroke once the stick is off, of length 1."""
    part = sound.between(stroke.starts_s + _SINCE_S, stroke.starts_s + _UNTIL_S)
    size = round(sound.rate_hz / _STEP_HZ)
    spectrum = np.abs(np.fft.rfft(part * np.hanning(len(part)), n=size))
    first, last = (round(hz / _STEP_HZ) for hz in _BAND_HZ)
    kept = spectrum[first : last + 1]
    return np.asarray(kept / (np.linalg.norm(kept) + 1e-30))
