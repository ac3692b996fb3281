"""How loud a sound is in three bands, from moment to moment."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.sound import Sound

Floats = NDArray[np.float64]
Band = Literal["low", "mid", "high"]

FRAMES_A_SECOND = 500
EDGES_HZ: dict[Band, tuple[float, float]] = {
    "low": (50.0, 350.0),
    "mid": (350.0, 1500.0),
    "high": (1500.0, 6000.0),
}
"""A drum rings in the low band and a little in the middle one; a stick is heard in all three."""
QUIET = 1e-11
_CHUNK_S = 4.0
_STEADY_FRAMES = 25
_FLOOR_SHARE, _FLOOR_FRAMES = 0.1, 25


@dataclass(frozen=True, slots=True, kw_only=True)
class Loudness:
    """Mean square in each band, a frame each 2 ms or thereabouts.

    Attributes
    ----------
    power : dict of band to ndarray, shape (frames,)
        Full scale 1; never nought.
    frame_s : float
        How long a frame is.
    floor : dict of band to float
        What is there where nothing sounds: a tenth of the recording is not louder.
    """

    power: dict[Band, Floats]
    frame_s: float
    floor: dict[Band, float]

    @property
    def frames(self) -> int:
        """How many frames there are."""
        return len(self.power["low"])

    def frame_at(self, seconds: float) -> int:
        """Return the frame that holds a time after the first sample."""
        return min(max(int(seconds / self.frame_s + 1e-9), 0), max(self.frames - 1, 0))

    def mean_db(self, band: Band, starts_s: float, ends_s: float) -> float:
        """Return the mean level of a band over a time, over full scale."""
        first = self.frame_at(starts_s)
        part = self.power[band][first : max(first + 1, self.frame_at(ends_s))]
        return float(10.0 * np.log10(part.mean())) if len(part) else float(10.0 * np.log10(QUIET))

    def over_floor_db(self, band: Band, starts_s: float, ends_s: float) -> float:
        """Return how far that is above what is there anyway."""
        return self.mean_db(band, starts_s, ends_s) - float(10.0 * np.log10(self.floor[band]))


def loudness(sound: Sound) -> Loudness:
    """Measure a sound in three bands, a few seconds at a time.

    Notes
    -----
    Butterworth band-passes of second order on each side; a band above the reach of the recording
    is cut to 0.45 of its rate.
    """
    hop = max(1, round(sound.rate_hz / FRAMES_A_SECOND))
    frames = len(sound.samples) // hop
    power = {band: _band_power(sound, edges, hop, frames) for band, edges in EDGES_HZ.items()}
    return Loudness(
        power=power,
        frame_s=hop / sound.rate_hz,
        floor={band: _floor(values) for band, values in power.items()},
    )


def _band_power(sound: Sound, edges: tuple[float, float], hop: int, frames: int) -> Floats:
    from scipy.signal import butter, sosfilt, sosfilt_zi

    low, high = edges[0], min(edges[1], 0.45 * sound.rate_hz)
    sections = butter(2, (low, high), btype="bandpass", fs=sound.rate_hz, output="sos")
    # As if the mean of the start had always been: a steady offset does not begin.
    state = sosfilt_zi(sections) * (sound.samples[: _STEADY_FRAMES * hop].mean() if frames else 0.0)
    power = np.empty(frames)
    chunk = max(1, round(_CHUNK_S * sound.rate_hz / hop))
    for first in range(0, frames, chunk):
        last = min(frames, first + chunk)
        heard, state = sosfilt(sections, sound.samples[first * hop : last * hop], zi=state)
        power[first:last] = (heard.reshape(-1, hop) ** 2).mean(axis=1)
    return np.maximum(power, QUIET)


def _floor(power: Floats) -> float:
    count = len(power) // _FLOOR_FRAMES
    if not count:
        return QUIET
    means = power[: count * _FLOOR_FRAMES].reshape(count, -1).mean(axis=1)
    return float(max(QUIET, np.quantile(means, _FLOOR_SHARE)))
