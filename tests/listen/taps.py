"""Taps round the rim as sounds with known truth, ready to be read."""

from __future__ import annotations

from collections.abc import Sequence

from synthetic import STEADY, Rim, Slide, Tone

from counterhoop.listen.round_rim import Tap
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

RATE_HZ = 8000
EVERY_S = 1.6
COMPANY = (Tone(hz=118.0, amplitude=0.3, decay_per_s=8.0), Tone(hz=306.0, amplitude=0.6))
"""About where (0,1) and (2,1) are when (1,1) is at 220 Hz."""


def rods(count: int) -> list[float]:
    """Even places along the shell."""
    return [number * 360.0 / count for number in range(count)]


def taps_at(
    along_deg: Sequence[float], starts_s: Sequence[float], *, every_s: float = EVERY_S
) -> list[Tap]:
    strokes = (
        Stroke(number=at + 1, starts_s=start, ends_s=start + every_s - 0.02)
        for at, start in enumerate(starts_s)
    )
    return [
        Tap(rod=at + 1, along_deg=along, stroke=stroke)
        for at, (along, stroke) in enumerate(zip(along_deg, strokes, strict=True))
    ]


def tapped(
    rim: Rim, along_deg: Sequence[float], *, snr_db: float = 30.0, slide: Slide = STEADY,
    seed: int = 1, loudness: float = 1.0, rate_hz: int = RATE_HZ,
) -> tuple[Sound, list[Tap]]:  # fmt: skip
    samples, starts = rim.recorded(
        along_deg, every_s=EVERY_S, snr_db=snr_db, slide=slide, seed=seed, rate_hz=rate_hz
    )
    return Sound(samples=loudness * samples, rate_hz=rate_hz), taps_at(along_deg, starts)


def apart_deg(first: float, second: float) -> float:
    """How far two axes are apart; one is the same after half a turn."""
    return float(abs((first - second + 90.0) % 180.0 - 90.0))
