"""Where the strokes are in a recording, and why some of them cannot be used."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One stroke on the drum.

    Attributes
    ----------
    number : int
        In the order of the recording, from 1; dropped ones count.
    starts_s, ends_s : float
        From when the stick lands to the next stroke, or to when nothing but noise is left.
    peak : float
        Its largest sample, full scale 1.
    level_db : float
        Of its loudest hundredth of a second, over full scale.
    dropped : str
        Why it is not used, a sentence; "" where it is.
    """

    number: int
    starts_s: float
    ends_s: float
    peak: float = 0.0
    level_db: float = 0.0
    dropped: str = ""
