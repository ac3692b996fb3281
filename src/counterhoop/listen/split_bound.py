"""How small a split would still have shown in taps that ring at one pitch."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from counterhoop.listen.heterodyne import Band
from counterhoop.listen.joint_fit import JointFit, fit_jointly


def split_below(one: JointFit, bands: Sequence[Band], *, along_deg: Sequence[float]) -> float:
    """Return the split in cents that would just have shown.

    Two pitches a known way apart are put in the place of the one, without noise; what one pitch
    leaves of them rises with the square of the way, and must reach what it leaves of the taps.
    The axis is taken a twelfth of a turn from the first tap, the phone 20 degrees off it.
    """
    hz, decay = float(one.hz[0]), float(one.decay_per_s[0])
    apart = 0.15 * decay
    lean = math.tan(math.radians(20.0))
    made = []
    for band, along, amplitude in zip(bands, along_deg, one.amplitudes[:, 0], strict=True):
        turn = math.radians(along - along_deg[0] - 30.0)
        shapes = np.array([lean * math.sin(turn), math.cos(turn)])
        t = band.times_s
        tones = [np.exp(2j * np.pi * (hz + way * apart - band.centre_hz) * t - decay * t)
                 for way in (-0.5, 0.5)]  # fmt: skip
        both = abs(amplitude) / np.linalg.norm(shapes) * (shapes @ np.array(tones))
        made.append(replace(band, values=both))
    seen = fit_jointly(made, hz=[hz], decay_per_s=[decay])
    least = apart * math.sqrt(one.left / max(seen.left, 1e-15))
    return 1200.0 * math.log2(1.0 + least / hz)
