"""A recording as it was read: one channel of samples, and what was noticed on the way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Sound:
    """One channel of a recording, or a window of it.

    Attributes
    ----------
    samples : ndarray of float, shape (n,)
        Full scale is 1.
    rate_hz : int
        Samples a second.
    clipped : tuple of (float, float)
        From when to when the recorder could not follow, in seconds of the recording.
    says : tuple of str
        What was noticed while reading, a sentence each.
    starts_s : float
        When the first sample was, in the recording; not nought for a window only.
    """

    samples: NDArray[np.float64]
    rate_hz: int
    clipped: tuple[tuple[float, float], ...] = ()
    says: tuple[str, ...] = ()
    starts_s: float = 0.0

    @property
    def seconds(self) -> float:
        """How long it is.

        Examples
        --------
        >>> Sound(samples=np.zeros(4410), rate_hz=44100).seconds
        0.1
        """
        return len(self.samples) / self.rate_hz

    def between(self, starts_s: float, ends_s: float) -> NDArray[np.float64]:
        """Return the samples from a time of the recording to another, as far as there are any.

        Examples
        --------
        >>> Sound(samples=np.arange(5.0), rate_hz=10, starts_s=2.0).between(2.1, 2.3)
        array([1., 2.])
        """
        first, last = (
            min(max(round((at_s - self.starts_s) * self.rate_hz), 0), len(self.samples))
            for at_s in (starts_s, ends_s)
        )
        return self.samples[first:last]
