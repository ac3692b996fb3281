"""A first guess of the tones that several strokes share, without any guess to start from."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.heterodyne import Band

SLOWEST, FASTEST = 0.2, 150.0


def guess_poles(
    bands: Sequence[Band], *, count: int, since_s: float = 0.15
) -> tuple[list[float], list[float]]:
    """Return pitches and decays of ``count`` tones, rising.

    Parameters
    ----------
    bands : sequence of Band
        Strokes about one centre.
    count : int
        How many tones to look for.
    since_s : float
        After the start of each stroke, when most of the glide is over; earlier where a stroke is
        too short for that.

    Notes
    -----
    The strokes are cut into overlapping rows, all rows are set side by side, and the tones are
    what turns their common directions from one sample to the next (ESPRIT: R. Roy and T. Kailath,
    IEEE Trans. ASSP 37 (1989) 984, from memory).
    """
    late = [cut.values if len(cut.values) >= 24 else band.values[len(band.values) // 4 :]
            for band in bands for cut in [band.after(since_s)]]  # fmt: skip
    rows = max(count + 2, min(len(values) for values in late) // 3)
    hankels = [
        np.lib.stride_tricks.sliding_window_view(values / (np.linalg.norm(values) + 1e-300), rows).T
        for values in late
        if len(values) > rows
    ]
    stacked: NDArray[np.complex128] = np.concatenate(hankels, axis=1)
    # Not by a product that a library splits over threads; see ``joint_fit``.
    alike = np.einsum("ij,kj->ik", stacked, stacked.conj())
    base = np.linalg.eigh(alike)[1][:, ::-1][:, :count]
    turns = np.linalg.eigvals(np.linalg.lstsq(base[:-1], base[1:], rcond=None)[0])
    order = np.argsort(np.angle(turns))
    rate, centre = bands[0].rate_hz, bands[0].centre_hz
    hz = [float(centre + np.angle(turns[i]) * rate / (2.0 * np.pi)) for i in order]
    decay = [float(np.clip(-np.log(abs(turns[i])) * rate, SLOWEST, FASTEST)) for i in order]
    return hz, decay
