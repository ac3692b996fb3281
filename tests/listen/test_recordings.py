"""The recordings of real drums are read as they are.

Truth: what the packages say of their files (rate, length), the spectrum of each take, and the
settled pitches that were measured on them with another program.
"""

from __future__ import annotations

import numpy as np
import pytest
from get_recordings import NotHere
from recordings import DRUMS, SAME_TAKE, Recordings, Take, recordings_in

LOWEST_HZ = {
    "rack tom 1": 116.4,
    "rack tom 2": 99.7,
    "floor tom": 69.2,
    "16 in floor tom, centre": 69.2,
    "16 in floor tom, edge": 68.4,
    "12 in tom, centre": 114.3,
    "12 in tom, edge": 114.5,
}


def late_peak_hz(take: Take, near_hz: float) -> float:
    """Return the peak of the spectrum from 0.35 s on, within a sixth of a pitch."""
    late = take.samples[int(0.35 * take.rate_hz) :]
    power = np.abs(np.fft.rfft(late * np.hanning(len(late)), 1 << 19))
    hz = np.fft.rfftfreq(1 << 19, 1 / take.rate_hz)
    power[np.abs(hz / near_hz - 1.0) > 1 / 6] = 0.0
    return float(hz[np.argmax(power)])


@pytest.mark.parametrize("drum", LOWEST_HZ)
def test_every_take_of_a_drum_rings_at_its_pitch(recordings: Recordings, drum: str):
    """Late-window spectrum peaks measured elsewhere; takes of one drum differ by up to 1.6 Hz."""
    for take in recordings.takes(drum):
        assert late_peak_hz(take, LOWEST_HZ[drum]) == pytest.approx(LOWEST_HZ[drum], abs=1.6)


@pytest.mark.parametrize("drum", DRUMS)
def test_takes_are_short_loud_and_of_the_usual_rate(recordings: Recordings, drum: str):
    peaks = [float(np.abs(take.samples).max()) for take in recordings.takes(drum)]
    assert all(0.25 < peak <= 1.0 for peak in peaks)
    assert peaks[0] < peaks[-1]
    for take in recordings.takes(drum):
        assert take.rate_hz == 44_100
        assert 0.25 < len(take.samples) / take.rate_hz < 2.4


def likeness(one: Take, other: Take) -> float:
    """Return the crest of the normalised cross-correlation of two takes."""
    count = 1 << 18
    a, b = (np.fft.rfft(take.samples, count) for take in (one, other))
    crest = np.abs(np.fft.irfft(a * np.conj(b), count)).max()
    return float(crest / np.linalg.norm(one.samples) / np.linalg.norm(other.samples))


def test_no_take_stands_twice_in_the_table(recordings: Recordings):
    """Brute force: every pair of takes of a drum; and the known double is found by the same."""
    for drum in DRUMS:
        takes = recordings.takes(drum)
        for number, take in enumerate(takes):
            assert all(likeness(take, other) < 0.98 for other in takes[number + 1 :]), drum
    package, set_number, first, second = SAME_TAKE
    one, other = (recordings.take(package, set=set_number, number=n) for n in (first, second))
    assert likeness(one, other) > 0.98


def test_an_empty_folder_says_how_to_get_them(tmp_path):
    with pytest.raises(NotHere, match=r"python tests/listen/get_recordings\.py"):
        recordings_in(tmp_path)
