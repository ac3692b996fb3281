"""How long modes ring: typical figures, for drums have none that could be forecast."""

from __future__ import annotations

import math

from counterhoop.heads.mode import Mode
from counterhoop.sources import Row, load_table

MUTED_T60_S = 0.12
"""Under a folded cloth. Common practice, no source."""


def decay_per_s(mode: Mode, *, other_muted: bool = False) -> float:
    """Return how fast the amplitude of a mode typically falls.

    Parameters
    ----------
    mode : Mode
        What rings.
    other_muted : bool
        Whether a cloth lies on the head that is not struck: what share of the movement is there
        dies as fast as it does under the cloth.

    Examples
    --------
    >>> from counterhoop.heads.mode import Standing
    >>> low = Mode(around=0, circles=1, family="together", hz=150.0, batter_share=0.5,
    ...            batter_shape=(1.0,), resonant_shape=(-1.0,), standing=Standing.CHECKED)
    >>> round(math.log(1000.0) / decay_per_s(low), 2)
    2.0
    """
    own = math.log(1000.0) / typical_t60_s(mode)
    if not other_muted:
        return own
    there = 1.0 - mode.batter_share
    return mode.batter_share * own + there * math.log(1000.0) / MUTED_T60_S


def typical_t60_s(mode: Mode) -> float:
    """Return in what time a mode typically falls by 60 dB."""
    pumps = mode.around == 0 and mode.circles == 1 and mode.family == "against"
    lowest = mode.around == 0 and mode.circles == 1 and not pumps
    wanted = "lowest" if lowest else "pumping" if pumps else str(mode.around)
    found = {str(row.values["of"]): float(row.values["t60"]) for row in _rows()}
    higher = mode.circles > 1 or wanted not in found
    return found["higher" if higher else wanted]


def _rows() -> tuple[Row, ...]:
    return load_table("counterhoop.heads", "decays.toml")
