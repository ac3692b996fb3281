"""Sound as a WAV file: one channel, 16 bits."""

from __future__ import annotations

import struct

import numpy as np
from numpy.typing import ArrayLike

FULL = 32_767


def wav_bytes(samples: ArrayLike, *, rate_hz: int = 44_100) -> bytes:
    """Return a WAV file; what is louder than full scale is cut off, as a phone cuts it off.

    Parameters
    ----------
    samples : array_like, shape (n,)
        Full scale is -1 to 1.
    rate_hz : int
        Samples a second.

    Notes
    -----
    RIFF with one ``fmt`` chunk of plain PCM and one ``data`` chunk: Microsoft and IBM,
    Multimedia Programming Interface and Data Specifications 1.0 (1991) (from memory).

    Examples
    --------
    >>> len(wav_bytes([0.0, 0.5]))
    48
    """
    cut = np.clip(np.asarray(samples, dtype=np.float64), -1.0, 1.0)
    data = np.rint(cut * FULL).astype("<i2").tobytes()
    form = struct.pack("<4sIHHIIHH", b"fmt ", 16, 1, 1, rate_hz, 2 * rate_hz, 2, 16)
    chunks = b"WAVE" + form + struct.pack("<4sI", b"data", len(data)) + data
    return struct.pack("<4sI", b"RIFF", len(chunks)) + chunks
