"""Strokes are found where they are, and those that cannot be used say why.

Truth: the times at which known sounds, and takes of real drums, were put into a recording.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from not_drums import RATE_HZ, click, noise
from numpy.typing import NDArray
from recordings import DRUMS, Recordings
from synthetic import Tone, in_a_row, noise_of, pair, rung

from counterhoop.listen import strokes as found
from counterhoop.listen.loudness import loudness
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import find_strokes

Floats = NDArray[np.float64]


def heard(samples: Floats, *, rate_hz: int = RATE_HZ) -> Sound:
    return Sound(samples=samples, rate_hz=rate_hz)


def tap(hz: float = 220.0, *, rate_hz: int = RATE_HZ, seconds: float = 1.5) -> Floats:
    over = Tone(hz=1.6 * hz, decay_per_s=8.0, amplitude=0.5)
    return 0.3 * rung(Tone(hz=hz), over, seconds=seconds, rate_hz=rate_hz)


def row(count: int = 4, *, every_s: float = 1.0, snr_db: float = 50.0, rate_hz: int = RATE_HZ):
    clean, starts = in_a_row([tap(rate_hz=rate_hz)] * count, every_s=every_s, rate_hz=rate_hz)
    rough = noise_of(len(clean), snr_db=snr_db, amplitude=0.3, seed=4, rate_hz=rate_hz)
    return heard(clean + rough, rate_hz=rate_hz), starts


@pytest.mark.parametrize("rate_hz", [8000, 44_100, 48_000, 192_000])
def test_strokes_start_at_the_sample_at_which_they_were_put(rate_hz: int):
    sound, starts = row(rate_hz=rate_hz)
    strokes = find_strokes(sound)
    assert [stroke.number for stroke in strokes] == [1, 2, 3, 4]
    assert [stroke.dropped for stroke in strokes] == [""] * 4
    for stroke, start in zip(strokes, starts, strict=True):
        assert stroke.starts_s == pytest.approx(start, abs=max(1.5 / rate_hz, 5e-5))


@pytest.mark.parametrize("snr_db", [15.0, 20.0, 30.0])
def test_a_room_that_is_not_quiet_moves_no_start_by_more_than_a_millisecond(snr_db: float):
    """The ratio is that of the strongest tone to noise below 1 kHz; the noise reaches 22 kHz."""
    sound, starts = row(8, every_s=1.6, snr_db=snr_db)
    strokes = find_strokes(sound)
    assert len(strokes) == 8
    errors = [abs(s.starts_s - start) for s, start in zip(strokes, starts, strict=True)]
    assert float(np.median(errors)) < 1e-4
    assert max(errors) < 1e-3


@pytest.mark.parametrize("drum", DRUMS)
def test_every_take_of_a_real_drum_is_one_stroke_that_is_used(recordings: Recordings, drum: str):
    """In a row with a little noise. The takes begin up to 2 ms before the stick lands."""
    takes = [take.samples for take in recordings.takes(drum)]
    clean, starts = in_a_row(takes, every_s=2.5)
    strokes = find_strokes(heard(clean + noise_of(len(clean), snr_db=55.0, seed=2)))
    assert [stroke.dropped for stroke in strokes] == [""] * len(takes)
    for stroke, start, take in zip(strokes, starts, takes, strict=True):
        assert -1e-4 < stroke.starts_s - start < 2.5e-3
        assert stroke.ends_s - stroke.starts_s < len(take) / RATE_HZ + 0.1
        assert stroke.peak == pytest.approx(float(np.abs(take).max()), abs=0.03)


@pytest.mark.parametrize("drum", DRUMS)
def test_a_take_that_was_cut_to_the_stroke_is_one_stroke(recordings: Recordings, drum: str):
    """No room is heard before or after: the beats of its pairs are no strokes."""
    for take in recordings.takes(drum):
        (stroke,) = find_strokes(heard(take.samples))
        assert stroke.starts_s < 2.5e-3
        assert stroke.dropped == ""


@pytest.mark.parametrize("apart_hz", [1.0, 3.0, 7.0])
def test_beats_are_no_strokes(apart_hz: float):
    """Two tones of one strength that start against each other: nought at first, loud later."""
    beats = pair(200.0, apart_hz=apart_hz, second=1.0, decay_per_s=2.0, phases_rad=(0.0, 3.0),
                 snr_db=200.0, seconds=2.5)  # fmt: skip
    stick = 0.5 * rung(Tone(hz=900.0, decay_per_s=60.0), seconds=2.5)
    clean, _ = in_a_row([0.3 * (beats + stick)], every_s=3.0)
    strokes = find_strokes(heard(clean + noise_of(len(clean), snr_db=60.0, seed=1)))
    assert len(strokes) == 1


def test_a_stroke_ends_before_the_next_or_when_only_noise_is_left():
    """The tap falls by 34.7 dB a second: 50 dB over noise below 1 kHz, it is gone in 1.5 to 2 s."""
    sound, starts = row(3, every_s=0.8)
    strokes = find_strokes(sound)
    assert strokes[0].ends_s == strokes[1].starts_s
    alone, _ = row(1, every_s=6.0)
    (stroke,) = find_strokes(alone)
    assert 1.2 < stroke.ends_s - stroke.starts_s < 2.0
    assert starts[0] < strokes[0].ends_s


def reasons(samples: Floats) -> list[str]:
    return [stroke.dropped for stroke in find_strokes(heard(samples))]


def quietly(samples: Floats) -> Floats:
    return samples + noise_of(len(samples), snr_db=55.0, seed=3)


def test_flams_and_strokes_in_haste_are_dropped():
    flam, _ = in_a_row([tap(), tap()], every_s=0.05)
    assert reasons(quietly(flam)) == [found.FLAM, found.FLAM]
    haste, _ = in_a_row([tap(), tap(), tap()], every_s=0.2)
    assert reasons(quietly(haste)) == [found.TOO_CLOSE, found.TOO_CLOSE, ""]


def test_a_stroke_at_the_end_of_the_recording_is_dropped():
    cut, _ = in_a_row([tap()], every_s=2.0)
    assert reasons(quietly(cut)[: round(0.5 * RATE_HZ)]) == [found.TOO_SHORT]


def test_a_click_and_a_soft_tap_are_dropped():
    assert reasons(click()) == [found.NO_RING]
    loud, _ = in_a_row([tap()], every_s=2.0)
    rough = noise_of(len(loud), snr_db=9.0, amplitude=0.3, seed=5)
    assert reasons(loud + rough) in ([found.TOO_SOFT], [])


def test_what_swells_and_stays_is_no_stroke():
    at_s = np.arange(round(1.5 * RATE_HZ)) / RATE_HZ
    held = 0.2 * np.minimum(1.0, at_s / 0.01) * np.sin(2 * np.pi * 440.0 * at_s)
    after, _ = in_a_row([held], every_s=2.0)
    assert reasons(quietly(after)) == [found.NO_DECAY]


def test_only_what_is_clipped_after_the_attack_is_dropped():
    sound, starts = row(2)
    attack = replace(sound, clipped=((starts[0] + 0.001, starts[0] + 0.004),))
    assert [stroke.dropped for stroke in find_strokes(attack)] == ["", ""]
    later = replace(sound, clipped=((starts[0] + 0.001, starts[0] + 0.04),))
    assert [stroke.dropped for stroke in find_strokes(later)] == [found.CLIPPED, ""]
    second = replace(sound, clipped=((starts[1] + 0.1, starts[1] + 0.2),))
    assert [stroke.dropped for stroke in find_strokes(second)] == ["", found.CLIPPED]


def test_a_fan_hides_no_strokes_that_are_well_above_it():
    clean, starts = in_a_row([tap()] * 4, every_s=1.2)
    fan = 0.08 * noise(seconds=len(clean) / RATE_HZ + 0.1)[: len(clean)]
    strokes = find_strokes(heard(clean + fan))
    assert [stroke.dropped for stroke in strokes] == [""] * 4
    assert [s.starts_s for s in strokes] == pytest.approx(starts, abs=5e-3)


def test_a_recorder_that_turns_itself_up_between_strokes_makes_no_new_ones():
    """Automatic gain: 20 dB up within a second after each stroke, down at once at the next."""
    sound, starts = row(4, every_s=2.0)
    at_s = np.arange(len(sound.samples)) / RATE_HZ
    since = np.min(np.where(at_s[:, None] >= starts, at_s[:, None] - starts, np.inf), axis=1)
    gain = 10.0 ** (np.clip(20.0 * np.minimum(since, 1.0), 0.0, 20.0) / 20.0)
    strokes = find_strokes(heard(gain * sound.samples / 4.0))
    assert len(strokes) == 4
    assert [s.starts_s for s in strokes] == pytest.approx(starts, abs=1e-3)


def test_a_window_of_a_recording_keeps_the_time_of_the_recording():
    sound, starts = row(3)
    cut = round(0.9 * RATE_HZ)
    window = Sound(samples=sound.samples[cut:], rate_hz=RATE_HZ, starts_s=cut / RATE_HZ)
    strokes = find_strokes(window)
    assert strokes[-1].starts_s == pytest.approx(starts[2], abs=1e-4)


@given(gain_db=st.floats(-30.0, 0.0), lead=st.integers(0, 5000), sign=st.sampled_from((-1.0, 1.0)))
def test_louder_later_or_upside_down_is_the_same(gain_db: float, lead: int, sign: float):
    """Exact law: strokes move with the sound and do not depend on its strength or sign."""
    sound, _ = row(2, every_s=0.7)
    before = find_strokes(sound)
    quiet = noise_of(lead, snr_db=50.0, amplitude=0.3, seed=9)
    samples = sign * 10.0 ** (gain_db / 20.0) * np.concatenate([quiet, sound.samples])
    after = find_strokes(heard(samples))
    assert [s.dropped for s in after] == [s.dropped for s in before]
    for one, other in zip(before, after, strict=True):
        assert other.starts_s - lead / RATE_HZ == pytest.approx(one.starts_s, abs=2e-4)


def test_levels_are_those_of_a_tone_whatever_the_length_of_a_chunk():
    """A tone of amplitude 0.5 has a mean square of 1/8; chunks must not show at their seams."""
    at_s = np.arange(10 * RATE_HZ) / RATE_HZ
    power = loudness(heard(0.5 * np.sin(2 * np.pi * 700.0 * at_s))).power["mid"]
    assert float(power[500:].mean()) == pytest.approx(0.125, rel=0.02)
    assert float(np.ptp(power[500:])) < 0.08


def test_nothing_is_found_in_nothing():
    for samples in (np.zeros(0), np.zeros(100), np.zeros(RATE_HZ), np.full(RATE_HZ, 0.1)):
        assert find_strokes(heard(samples)) == ()
