"""A recording in any usual wrapping becomes the same sound.

Truth: tones of known pitch, written by PyAV's encoders and by an independent writer (libsndfile),
and what was put into the sound by hand: offsets, flat tops, silent channels.
"""

from __future__ import annotations

import io
import tracemalloc

import numpy as np
import pytest
import soundfile
from encoded import KINDS, encoded
from numpy.typing import NDArray
from synthetic import Tone, rung

from counterhoop.errors import CannotDo
from counterhoop.listen import decode as gate
from counterhoop.listen.decode import decode
from counterhoop.listen.sound import Sound

HZ = 210.37
RATES = (8000, 16_000, 22_050, 44_100, 48_000, 96_000, 192_000)
TAKES = {"Ogg Opus": (48_000,), "WebM Opus": (16_000, 48_000), "MP3": RATES[:5]}
LOSSY = ("M4A", "AAC", "MOV")


def tap(rate_hz: int, *, seconds: float = 1.0, hz: float = HZ) -> NDArray[np.float64]:
    """Return a tap that swells in 5 ms: packing with loss makes other pitches of a step."""
    sound = 0.5 * rung(Tone(hz=hz, decay_per_s=2.0), seconds=seconds, rate_hz=rate_hz)
    return sound * -np.expm1(-np.arange(len(sound)) / rate_hz / 5e-3)


def peak_hz(sound: Sound) -> float:
    """Return the crest of a long spectrum, by the parabola through three logarithms."""
    count = 1 << 19
    power = np.abs(np.fft.rfft(sound.samples, count))
    at = int(np.argmax(power))
    a, b, c = np.log(power[at - 1 : at + 2])
    return float((at + (a - c) / 2.0 / (a - 2.0 * b + c)) * sound.rate_hz / count)


def wrapped() -> list[tuple[str, int, int]]:
    found = []
    for number, kind in enumerate(KINDS):
        rates = TAKES.get(kind, RATES[:6] if kind in LOSSY else RATES)
        # Every rate once with one channel or two, turn about.
        found += [(kind, rate, 1 + (number + turn) % 2) for turn, rate in enumerate(rates)]
    return found


@pytest.mark.parametrize(("kind", "rate_hz", "channels"), wrapped())
def test_a_tap_has_its_pitch_in_every_wrapping(kind: str, rate_hz: int, channels: int):
    """0.01 Hz is a twelfth of a cent here; the tap rings 1 s, so that the codec is what errs."""
    sound = tap(rate_hz)
    given = sound if channels == 1 else np.stack([0.4 * sound, sound], axis=1)
    read = decode(encoded(given, kind=kind, rate_hz=rate_hz))
    bare = Sound(samples=sound, rate_hz=rate_hz)
    assert peak_hz(read) == pytest.approx(peak_hz(bare), abs=0.01)
    assert read.seconds == pytest.approx(1.0, abs=0.2)
    assert read.clipped == ()
    assert read.says == (
        () if channels == 1 else ("The right channel is used: it is the louder one.",)
    )


@pytest.mark.parametrize(
    ("format", "subtype"),
    [("OGG", "VORBIS"), ("OGG", "OPUS"), ("FLAC", "PCM_24"), ("MP3", "MPEG_LAYER_III")],
)
def test_files_of_another_writer_are_read(format: str, subtype: str):
    file = io.BytesIO()
    soundfile.write(file, tap(48_000), 48_000, format=format, subtype=subtype)
    assert peak_hz(decode(file.getvalue())) == pytest.approx(
        peak_hz(Sound(samples=tap(48_000), rate_hz=48_000)), abs=0.01
    )


def test_the_sound_of_a_film_is_read():
    film = encoded(tap(48_000), kind="MOV", rate_hz=48_000, film=True)
    assert peak_hz(decode(film)) == pytest.approx(HZ, abs=0.02)


@pytest.mark.parametrize("kind", ["WAV, 16 bit", "WAV, 24 bit", "FLAC", "M4A, no loss"])
def test_samples_come_through_lossless_wrappings_as_they_are(kind: str):
    """To half a step of 16 bits; the mean of the tap, which is taken off, is put back."""
    sound = tap(44_100)
    read = decode(encoded(sound, kind=kind, rate_hz=44_100))
    np.testing.assert_allclose(read.samples + sound.mean(), sound, atol=1.0 / 32_767)


def test_channels_that_are_alike_are_averaged_and_others_are_not_mixed():
    sound = tap(44_100)
    noise = 0.01 * np.random.default_rng(1).standard_normal((len(sound), 2))
    alike = decode(encoded(sound[:, None] + noise, kind="WAV, 24 bit", rate_hz=44_100))
    assert alike.says == ("All 2 channels are alike: their mean is used.",)
    left = float(np.std(alike.samples - sound + sound.mean()))
    assert left == pytest.approx(0.01 / np.sqrt(2.0), rel=0.05)
    # Two microphones on either side of a still line hear a mode with opposite signs.
    against = np.stack([sound, -0.9 * sound], axis=1)
    read = decode(encoded(against, kind="WAV, 16 bit", rate_hz=44_100))
    assert float(np.std(read.samples)) == pytest.approx(float(np.std(sound)), rel=1e-3)


def test_a_silent_channel_is_left_out_and_the_loudest_of_four_is_used():
    sound = tap(44_100)
    silent = np.stack([np.zeros_like(sound), sound], axis=1)
    assert decode(encoded(silent, kind="FLAC", rate_hz=44_100)).says == (
        "The right channel is used: it is the louder one.",
    )
    four = np.stack([0.1 * sound, 0.2 * sound, 0.8 * sound, 0.0 * sound], axis=1)
    read = decode(encoded(four, kind="WAV, 16 bit", rate_hz=44_100))
    assert read.says == ("Channel 3 of 4 is used: it is the loudest.",)


def test_a_steady_offset_is_taken_off_and_said():
    read = decode(encoded(0.5 * tap(44_100) + 0.2, kind="WAV, 16 bit", rate_hz=44_100))
    assert float(read.samples.mean()) == pytest.approx(0.0, abs=1e-9)
    assert read.says == ("The recorder adds a steady offset: it is taken off.",)


@pytest.mark.parametrize("top", [1.0, 0.6])
@pytest.mark.parametrize("kind", ["WAV, 16 bit", "WAV, float", "FLAC"])
def test_flat_tops_are_found_where_they_were_cut(top: float, kind: str):
    """Cut by hand at full scale and, as a limiter does, below it: within the first 0.2 s only."""
    loud = rung(Tone(hz=100.0, decay_per_s=4.0), seconds=2.0)
    cut = np.clip(2.0 * top * loud, -top, top)
    # exp(-4 t) = 1/2 at 0.173 s: nothing after that is cut.
    sound = decode(encoded(cut, kind=kind, rate_hz=44_100))
    assert len(sound.clipped) == 1
    start, end = sound.clipped[0]
    assert start < 0.005
    assert 0.15 < end < 0.18
    assert "could not follow" in sound.says[-1]


@pytest.mark.parametrize("kind", ["M4A", "Ogg Opus"])
def test_what_was_cut_before_it_was_packed_with_loss_is_found(kind: str):
    whole = 1.8 * tap(48_000, hz=100.0)
    cut = np.clip(4.0 * whole, -1.0, 1.0)
    assert decode(encoded(cut, kind=kind, rate_hz=48_000)).clipped
    assert decode(encoded(whole, kind=kind, rate_hz=48_000)).clipped == ()


def test_floats_beyond_full_scale_are_whole_until_they_are_cut():
    """A recorder that writes floats has no top at 1, yet what came before it may have had one."""
    whole = 5.0 * tap(44_100)
    read = decode(encoded(whole, kind="WAV, float", rate_hz=44_100))
    assert read.clipped == ()
    assert float(np.abs(read.samples).max()) == pytest.approx(float(np.abs(whole).max()), rel=1e-3)
    assert decode(encoded(np.clip(whole, -2.0, 2.0), kind="WAV, float", rate_hz=44_100)).clipped


@pytest.mark.parametrize("hz", [60.0, 200.0, 1000.0])
@pytest.mark.parametrize("rate_hz", [8000, 44_100, 192_000])
@pytest.mark.parametrize("kind", ["WAV, 16 bit", "WAV, 8 bit"])
def test_a_loud_whole_tap_is_not_called_clipped(hz: float, rate_hz: int, kind: str):
    whole = 0.999 * rung(Tone(hz=hz, decay_per_s=2.0), seconds=0.5, rate_hz=rate_hz)
    assert decode(encoded(whole, kind=kind, rate_hz=rate_hz)).clipped == ()


@pytest.mark.parametrize("kind", ["WAV, 16 bit", "FLAC", "MP3"])
def test_what_is_left_of_a_cut_file_is_used_and_said(kind: str):
    whole = encoded(tap(44_100, seconds=4.0), kind=kind, rate_hz=44_100)
    read = decode(whole[: len(whole) // 2])
    assert 0.5 < read.seconds < 3.5
    assert peak_hz(read) == pytest.approx(HZ, abs=0.05)
    assert "cut short" in read.says[-1] or "damaged" in read.says[-1]
    assert decode(whole).says == ()


def test_a_long_recording_is_kept_at_a_lower_rate_with_its_pitch(monkeypatch):
    """The same rule with a smaller store: 3 s at 192 kHz do not fit, a fourth of them does."""
    monkeypatch.setattr(gate, "MOST_SAMPLES", 150_000)
    sound = tap(192_000, seconds=3.0)
    read = decode(encoded(sound, kind="WAV, 16 bit", rate_hz=192_000))
    assert read.rate_hz == 48_000
    assert read.says == ("It is long, and kept at 48000 samples a second.",)
    assert len(read.samples) == 144_000
    np.testing.assert_allclose(
        read.samples[200:-200], sound[::4][200:-200] - sound.mean(), atol=1e-3
    )


def test_no_more_than_the_sound_itself_is_held():
    """Memory that Python and numpy ask for, at 60 s: the samples kept, and a few blocks."""
    data = encoded(0.1 * np.ones(60 * 48_000), kind="FLAC", rate_hz=48_000)
    tracemalloc.start()
    read = decode(data)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < read.samples.nbytes + 8e6


def test_progress_runs_from_none_to_all_and_stop_is_heard():
    data = encoded(tap(48_000, seconds=20.0), kind="WAV, 24 bit", rate_hz=48_000)
    told: list[float] = []
    decode(data, on_progress=told.append)
    assert told == sorted(told)
    assert 0.0 < told[0] < 0.2
    assert told[-1] == pytest.approx(1.0, abs=0.01)
    with pytest.raises(CannotDo, match="stopped"):
        decode(data, stop=lambda: True)
