"""Recordings of a tom that the program's own model taps, so that what is in them is known."""

from __future__ import annotations

import numpy as np

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.heads.modes import modes
from counterhoop.heads.strike import EVEN, Blow, Ear, Lobes, muted, struck
from counterhoop.heads.wav import wav_bytes

RATE_HZ = 22_050
EVERY_S = 2.0


def tapped(
    tune: DrumToTune, *, lobes: Lobes = EVEN, rods: tuple[int, ...] = (1, 2, 3, 4, 5, 6),
    phone_deg: float = 205.0, n_per_m: float = 1800.0, hiss: float = 0.0005,
) -> bytes:  # fmt: skip
    """Return a recording of soft taps near these rods, a cloth on the other head."""
    shell = muted(tune.then(batter_n_per_m=n_per_m))
    found = modes(shell, up_to_hz=600.0)
    sound = np.zeros(round((len(rods) * EVERY_S + 0.5) * RATE_HZ))
    places = tune.rods("batter")
    assert places is not None
    at = {rod.number: rod.along_deg for rod in places.rods}
    for number, rod in enumerate(rods):
        blow = Blow(out=0.85, along_deg=at[rod], impulse_n_s=0.02)
        stroke = struck(
            shell, found, blow=blow, ear=Ear(out=0.6, along_deg=phone_deg), lobes=lobes,
            other_muted=True,
        )  # fmt: skip
        rings = stroke.sound(seconds=EVERY_S, rate_hz=RATE_HZ)
        first = round((0.3 + EVERY_S * number) * RATE_HZ)
        sound[first : first + len(rings)] += rings[: len(sound) - first]
    by_chance = np.random.default_rng(5)
    noise = hiss * by_chance.standard_normal(len(sound))
    return wav_bytes(0.5 * sound / np.abs(sound).max() + noise, rate_hz=RATE_HZ)
