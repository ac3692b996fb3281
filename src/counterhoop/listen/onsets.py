"""When something begins in a sound: where a band gets suddenly louder, then to the sample."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.loudness import Band, Loudness
from counterhoop.listen.sound import Sound

Floats = NDArray[np.float64]

RISE_DB = 8.0
RISE_WITH_DB, HEARD_DB = 3.0, 6.0
OVER_NOISE_DB = 9.0
UNDER_LOUDEST_DB = 32.0
_AFTER: dict[Band, int] = {"low": 8, "mid": 4, "high": 2}
# Beats of a pair and ripples of one period are forgotten; the stroke before the last one is not.
_BEFORE: dict[Band, int] = {"low": 80, "mid": 60, "high": 12}
_ONE_ONSET = 12
_SOON, _SOON_AFTER = 75, 100
_SEARCH_S = (0.03, 0.012)
_START_BANDS_HZ = ((80.0, 1200.0), (400.0, 6000.0), (80.0, 20_000.0))


def onsets(sound: Sound, heard: Loudness) -> tuple[float, ...]:
    """Return when things begin, in seconds after the first sample.

    Parameters
    ----------
    sound : Sound
        The recording.
    heard : Loudness
        Of the same.

    Notes
    -----
    A frame counts where a band is ``RISE_DB`` above the loudest that it was before, for as long as
    it may ring there, and the whole is well over what is there anyway. Of neighbours the one with
    the largest rise counts. The start itself is where the record before and the record after are
    most unlike in variance (N. Maeda 1985, after H. Akaike; from memory).
    """
    if heard.frames < _ONE_ONSET:
        return ()
    rise, over, level = _rises(heard)
    loud = 10.0 * np.log10(level / level.max())
    found = (rise >= RISE_DB) & (over >= OVER_NOISE_DB) & (loud >= -UNDER_LOUDEST_DB)
    strength = np.where(found, rise, 0.0)
    starts: list[float] = []
    for frame in _crests(strength):
        start = _start(sound, frame * heard.frame_s)
        if not starts or start - starts[-1] > _ONE_ONSET * heard.frame_s:
            starts.append(start)
    return tuple(starts)


def _rises(heard: Loudness) -> tuple[Floats, Floats, Floats]:
    """Return the largest rise of any band, how far any is over what is there anyway, the level.

    A pair that beats rises in the low band: that counts only where a stick is heard with it, or
    nothing could be heard of one.
    """
    rises: dict[Band, Floats] = {}
    overs: dict[Band, Floats] = {}
    levels = np.zeros(heard.frames)
    for band, power in heard.power.items():
        after = _mean_ahead(power, _AFTER[band])
        before = _loudest_before(after, _BEFORE[band], apart=_AFTER[band])
        floor = heard.floor[band]
        rises[band] = 10.0 * np.log10((after + floor) / (before + floor))
        overs[band] = 10.0 * np.log10(after / floor)
        levels += after
    stick = np.maximum(rises["mid"], rises["high"])
    drowned = np.maximum(overs["mid"], overs["high"]) < HEARD_DB
    low = np.where((stick > RISE_WITH_DB) | drowned, rises["low"], 0.0)
    over = np.max(list(overs.values()), axis=0)
    return np.maximum(low, stick), over, levels


def _mean_ahead(power: Floats, count: int) -> Floats:
    padded = np.concatenate([power, np.full(count - 1, power[-1])])
    return np.asarray(np.convolve(padded, np.full(count, 1.0 / count), mode="valid"))


def _loudest_before(after: Floats, count: int, *, apart: int) -> Floats:
    # Before a recording that was cut to the stroke there was no more than is left soon after.
    first = after[_SOON:_SOON_AFTER].mean() if len(after) > _SOON else 0.0
    padded = np.concatenate([np.full(count + apart - 1, first), after])
    windows = np.lib.stride_tricks.sliding_window_view(padded, count)
    return np.asarray(windows[: len(after)].max(axis=1))


def _crests(strength: Floats) -> list[int]:
    """Return the frames that are larger than all others near them, in order."""
    frames = np.flatnonzero(strength)
    taken: list[int] = []
    for frame in sorted(frames, key=lambda at: (-strength[at], at)):
        if all(abs(frame - other) > _ONE_ONSET for other in taken):
            taken.append(int(frame))
    return sorted(taken)


def _start(sound: Sound, about_s: float) -> float:
    """Return the start to the sample, in the band where before and after differ most."""
    from scipy.signal import butter, sosfilt

    rate = sound.rate_hz
    early, late = _SEARCH_S
    first = round((about_s - early) * rate)
    part = sound.samples[max(0, first) : round((about_s + late) * rate)]
    if first < 0:
        # A recording that was cut to the stroke: nothing was before it.
        part = np.concatenate([np.zeros(-first), part])
    if len(part) < 16 or not np.any(part - part[0]):
        return max(0, first) / rate
    splits = []
    for edges in _START_BANDS_HZ:
        within = (edges[0], min(edges[1], 0.45 * rate))
        sections = butter(1, within, btype="bandpass", fs=rate, output="sos")
        splits.append(_split(sosfilt(sections, part - part[0])))
    return max(0, first + max(splits)[1]) / rate


def _split(part: Floats) -> tuple[float, int]:
    """Return how unlike two parts are, and the sample that begins the second of them."""
    count = np.arange(1, len(part))
    squares = np.cumsum(part**2)
    tiny = 1e-12 * float(squares[-1] / len(part)) + 1e-30
    before = np.log(squares[:-1] / count + tiny)
    after = np.log(np.maximum(squares[-1] - squares[:-1], 0.0) / count[::-1] + tiny)
    # At least a few samples on each side, or one quiet sample would pass for a record.
    edge = min(4, len(count) // 4)
    cost = (count * before + count[::-1] * after)[edge : len(count) - edge]
    at = int(np.argmin(cost)) + edge
    return float(after[at] - before[at]), at + 1
