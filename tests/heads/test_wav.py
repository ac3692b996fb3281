"""WAV bytes, read back by readers of others: Python's own and soundfile's."""

from __future__ import annotations

import io
import wave

import numpy as np
import soundfile
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.heads.wav import wav_bytes


@given(
    st.lists(st.floats(-1.0, 1.0), min_size=1, max_size=200),
    st.sampled_from([8000, 44_100, 48_000]),
)
def test_what_is_written_is_read_to_half_a_step(samples, rate_hz):
    content = wav_bytes(samples, rate_hz=rate_hz)
    with wave.open(io.BytesIO(content)) as read:
        assert (read.getnchannels(), read.getsampwidth()) == (1, 2)
        assert (read.getframerate(), read.getnframes()) == (rate_hz, len(samples))
        steps = np.frombuffer(read.readframes(len(samples)), dtype="<i2")
    np.testing.assert_allclose(steps / 32_767, samples, atol=0.5001 / 32_767)
    again, rate = soundfile.read(io.BytesIO(content), dtype="int16")
    assert rate == rate_hz
    np.testing.assert_array_equal(again, steps)


def test_what_is_too_loud_is_cut_off():
    read, _ = soundfile.read(io.BytesIO(wav_bytes([0.0, 3.0, -2.0])), dtype="int16")
    assert list(read) == [0, 32_767, -32_767]
