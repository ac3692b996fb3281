"""Recordings as phones and recorders write them, made with the same library that reads them."""

from __future__ import annotations

import io
from dataclasses import dataclass
from fractions import Fraction

import av
import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A container and what is in it; ``wide`` says how its encoder takes samples."""

    container: str
    coding: str
    wide: str
    bit_rate: int | None = None


KINDS = {
    "WAV, 16 bit": Kind(container="wav", coding="pcm_s16le", wide="s16"),
    "WAV, 24 bit": Kind(container="wav", coding="pcm_s24le", wide="s32"),
    "WAV, float": Kind(container="wav", coding="pcm_f32le", wide="flt"),
    "WAV, 8 bit": Kind(container="wav", coding="pcm_u8", wide="u8"),
    "FLAC": Kind(container="flac", coding="flac", wide="s16"),
    "Ogg Opus": Kind(container="ogg", coding="libopus", wide="flt", bit_rate=96_000),
    "WebM Opus": Kind(container="webm", coding="libopus", wide="flt", bit_rate=96_000),
    "MP3": Kind(container="mp3", coding="libmp3lame", wide="s16p", bit_rate=128_000),
    "M4A": Kind(container="ipod", coding="aac", wide="fltp", bit_rate=128_000),
    "AAC": Kind(container="adts", coding="aac", wide="fltp", bit_rate=128_000),
    "MOV": Kind(container="mov", coding="aac", wide="fltp", bit_rate=128_000),
    "M4A, no loss": Kind(container="ipod", coding="alac", wide="s16p"),
}


def encoded(
    samples: NDArray[np.float64],
    *,
    kind: str,
    rate_hz: int,
    film: bool = False,
    sound: bool = True,
    options: dict[str, str] | None = None,
) -> bytes:
    """Return a file; samples of shape (n,) or (n, channels), full scale 1."""
    row = KINDS[kind]
    rows = samples.reshape(len(samples), -1)
    layout = {1: "mono", 2: "stereo", 4: "quad"}[rows.shape[1]]
    file = io.BytesIO()
    with av.open(file, "w", format=row.container, options=options or {}) as container:
        picture = _picture_track(container) if film else None
        if sound:
            track = container.add_stream(row.coding, rate=rate_hz, layout=layout)
            if row.bit_rate:
                track.bit_rate = row.bit_rate * rows.shape[1]
        if picture is not None:
            for number in range(max(1, 10 * len(rows) // rate_hz)):
                frame = av.VideoFrame.from_ndarray(
                    np.full((48, 64, 3), number % 200, dtype=np.uint8), format="rgb24"
                )
                container.mux(picture.encode(frame))
            container.mux(picture.encode(None))
        if sound:
            for start in range(0, len(rows), 4096):
                container.mux(
                    track.encode(
                        _frame(rows[start : start + 4096], start, rate_hz, layout, row.wide)
                    )
                )
            container.mux(track.encode(None))
    return file.getvalue()


def _picture_track(container: av.container.OutputContainer) -> av.VideoStream:
    track = container.add_stream("mpeg4", rate=10)
    track.width, track.height, track.pix_fmt = 64, 48, "yuv420p"
    return track


def _frame(
    rows: NDArray[np.float64], start: int, rate_hz: int, layout: str, wide: str
) -> av.AudioFrame:
    kinds = {"u8": np.uint8, "s16": np.int16, "s32": np.int32, "flt": np.float32}
    kind = kinds[wide.rstrip("p")]
    if wide.startswith("flt"):
        values = rows.astype(np.float32)
    elif kind is np.uint8:
        values = np.clip(np.rint(rows * 127 + 128), 0, 255).astype(kind)
    else:
        full = float(np.iinfo(kind).max)
        values = np.clip(np.rint(rows * full), -full - 1, full).astype(kind)
    shaped = values.T if wide.endswith("p") else values.reshape(1, -1)
    frame = av.AudioFrame.from_ndarray(np.ascontiguousarray(shaped), format=wide, layout=layout)
    frame.rate, frame.pts, frame.time_base = rate_hz, start, Fraction(1, rate_hz)
    return frame
