"""What cannot be read says so in a sentence that somebody at a bench can act on.

Truth: what each sound was made to be; snares with wires and toms of real drums.
"""

from __future__ import annotations

import numpy as np
import pytest
from encoded import encoded
from not_drums import RATE_HZ, click, music, noise, voice
from numpy.typing import NDArray
from recordings import DRUMS, Recordings
from synthetic import in_a_row, noise_of
from test_strokes import tap

from counterhoop.listen import refuse as words
from counterhoop.listen import strokes as found
from counterhoop.listen.decode import decode
from counterhoop.listen.refuse import refuse, tone_held
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import find_strokes
from counterhoop.listen.wires import WIRES, hiss_db, wires_on

Floats = NDArray[np.float64]
SEEDS = (1, 2, 3, 4, 5)


def refused(samples: Floats) -> str:
    sound = Sound(samples=samples, rate_hz=RATE_HZ)
    return refuse(sound, find_strokes(sound))


def taps(count: int = 4, *, every_s: float = 1.2) -> Floats:
    clean, _ = in_a_row([tap()] * count, every_s=every_s)
    return clean + noise_of(len(clean), snr_db=55.0, seed=3)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_voice_music_and_a_fan_are_told_apart(seed: int):
    assert refused(voice(seed=seed)) == words.VOICE
    assert refused(music(seed=seed)) == words.MUSIC
    assert refused(noise(seed=seed)) == words.NOISE


def test_silence_and_a_tap_without_its_ring_say_so():
    assert refused(np.zeros(3 * RATE_HZ)) == words.SILENT
    assert refused(1e-6 * noise_of(3 * RATE_HZ, snr_db=0.0, seed=1)) == words.SILENT
    assert refused(tap()[: round(0.2 * RATE_HZ)]) == words.TOO_SHORT
    assert refused(taps(1)[: round(0.52 * RATE_HZ)]) == words.CUT_OFF


def test_clicks_say_so():
    assert refused(click()) == words.CLICK
    assert refused(np.tile(click(), 3)) == words.CLICKS


def test_strokes_that_are_all_clipped_say_so():
    """Through the gate, as a phone would hand them in."""
    loud = np.clip(8.0 * taps(), -1.0, 1.0)
    sound = decode(encoded(loud, kind="WAV, 16 bit", rate_hz=RATE_HZ))
    assert refuse(sound, find_strokes(sound)) == words.CLIPPED


def test_strokes_in_haste_say_so():
    assert refused(taps(7, every_s=0.2)[: round(1.6 * RATE_HZ)]) == words.TOGETHER


def test_strokes_that_are_too_soft_say_so():
    sound = Sound(samples=taps(), rate_hz=RATE_HZ)
    soft = [
        found.Stroke(number=n, starts_s=n, ends_s=n + 1, dropped=found.TOO_SOFT) for n in (1, 2)
    ]
    assert refuse(sound, soft) == words.TOO_SOFT


@pytest.mark.parametrize("drum", DRUMS)
def test_no_real_drum_is_refused(recordings: Recordings, drum: str):
    for take in recordings.takes(drum):
        padded = np.concatenate([np.zeros(RATE_HZ // 4), take.samples, np.zeros(RATE_HZ // 4)])
        assert refused(padded) == ""


def test_taps_with_a_word_between_them_are_read():
    """One sentence said before four taps: the taps count."""
    spoken = voice(seconds=1.2, seed=3)
    assert refused(np.concatenate([0.3 * spoken, taps(12)])) == ""


def test_a_tone_that_is_held_is_more_alike_than_a_voice_or_noise():
    def held(samples: Floats) -> float:
        return tone_held(Sound(samples=samples, rate_hz=RATE_HZ))

    assert held(music()) > 0.98
    # Exponential powers, as noise has: the mean of the cosine is E[x]^2 / E[x^2] = 1/2.
    assert held(noise_of(4 * RATE_HZ, snr_db=0.0, seed=2)) == pytest.approx(0.5, abs=0.05)
    assert max(held(voice(seed=seed)) for seed in SEEDS) < 0.85


@pytest.mark.parametrize("drum", DRUMS)
def test_wires_are_heard_on_snares_and_not_on_toms(recordings: Recordings, drum: str):
    told = []
    for take in recordings.takes(drum):
        sound = Sound(samples=take.samples, rate_hz=take.rate_hz)
        (stroke,) = find_strokes(sound)
        if hiss_db(sound, stroke) is not None:
            told.append(wires_on(sound, stroke))
    assert len(told) >= 3
    assert set(told) == {"wires on" in drum}


def test_noise_of_the_room_is_not_taken_for_wires():
    clean, _ = in_a_row([tap()], every_s=2.0)
    sound = Sound(samples=clean + noise_of(len(clean), snr_db=25.0, seed=8), rate_hz=RATE_HZ)
    (stroke,) = find_strokes(sound)
    assert not wires_on(sound, stroke)


def sentences() -> dict[str, str]:
    said = {
        f"{module.__name__}.{name}": text
        for module in (words, found)
        for name, text in vars(module).items()
        if name.isupper() and isinstance(text, str) and name not in {"AGAIN"}
    }
    return {**said, "wires": WIRES}


def test_every_refusal_is_its_own_sentence_with_something_to_do():
    """One or two sentences, no figure finer than seconds, and what to do next after a colon or in
    a sentence of its own; read them, they are printed where this fails."""
    said = sentences()
    assert len(said) >= 18
    assert len(set(said.values())) == len(said), said
    to_do = ("tap", "let", "switch", "lay", "find", "ask", "take", "move", "bring")
    for name, text in said.items():
        assert text[0].isupper(), (name, text)
        assert text.endswith("."), (name, text)
        assert "\n" not in text, (name, text)
        assert len(text) < 190, (name, text)
        told_apart = name.endswith(("NO_RING", "NO_DECAY"))
        assert told_apart or any(word in text.lower() for word in to_do), (name, text)
        for jargon in ("dB", "Hz", "SNR", "spectr", "onset", "signal", "sample", "None"):
            assert jargon not in text, (name, text)
