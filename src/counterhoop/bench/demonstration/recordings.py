"""Recordings of the worked job's drums, made by the program's own model when they are wanted.

No drum was struck for them. They hold what a phone on a stand hears, and what goes wrong: a tap
that was too loud for it, and a head that nobody muted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from counterhoop.bench.demo import open_demo
from counterhoop.bench.open_job import OpenJob
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_between
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import modes
from counterhoop.heads.strike import EVEN, Blow, Ear, Lobes, muted, struck
from counterhoop.heads.wav import wav_bytes
from counterhoop.scheme.schemes import as_found

RATE_HZ = 44_100
EVERY_S, LEAD_S, RING_S = 1.8, 0.4, 2.2
UP_TO_HZ = 800.0
HISS = 0.001
"""Spread of the noise, of full scale."""
PHONE = Ear(out=0.6, along_deg=135.0)
TAPPED_OUT = 0.85
SOFT_N_S = 0.03
TOO_HARD_N_S = 0.2
FULL_PA = 30.0
"""What the phone takes at most."""
UNEVEN = Lobes(split_cents=34.0, axis_deg=97.0)
NEARLY_EVEN = Lobes(split_cents=4.0, axis_deg=61.0)
AT_RODS, SHORT = "low tom", "small tom"
KIT_N_PER_M = {"small tom": 2050.0, "large tom": 1500.0, "low tom": 1300.0, "floor tom": 1250.0}
MADE = "Made by the program's own model; no drum was recorded."


@dataclass(frozen=True, slots=True, kw_only=True)
class Tapped:
    """One tap: the rod it was near, where that is along, and when it comes."""

    rod: int
    along_deg: float
    starts_s: float
    too_loud: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Recording:
    """A recording of the worked job.

    Attributes
    ----------
    name : str
        File name.
    drum : str
        Which drum.
    says : str
        How it was taken.
    taps : tuple of Tapped
        In order.
    lobes : Lobes
        What was put in: the split of (1,1) and its tight axis.
    drum_struck : HeadedShell
        Its heads and tensions.
    wav : bytes
        The sound.
    """

    name: str
    drum: str
    says: str
    taps: tuple[Tapped, ...]
    lobes: Lobes
    drum_struck: HeadedShell
    wav: bytes


def recordings() -> tuple[Recording, ...]:
    """Make every recording of the worked job; the same bytes each time."""
    opened = open_demo()
    tune, short = _as_found(opened, AT_RODS), _as_found(opened, SHORT)
    low, alike = (one.before(batter_n_per_m=KIT_N_PER_M[one.key]) for one in (tune, short))
    # It came with one head and gets a second: here one like the first, just as tight.
    alike = replace(alike, resonant=alike.batter, resonant_n_per_m=alike.batter_n_per_m)
    once = _rods(tune)
    again = [*once[:5], *once[4:]]
    cloth = "soft taps near the rods in order, a folded cloth on the other head"
    return (
        _recording(
            "low-tom-rim-before.wav", AT_RODS, low, again, lobes=UNEVEN, cloth=True,
            says=f"Before evening: {cloth}. Rod 5 was struck too hard, and then again.", chance=1,
            too_hard=4,
        ),
        _recording(
            "low-tom-rim-after.wav", AT_RODS, low, once, lobes=NEARLY_EVEN, cloth=True,
            says=f"After evening: {cloth}.", chance=2,
        ),
        _recording(
            "small-tom-rim-not-muted.wav", SHORT, alike, _rods(short), lobes=EVEN, cloth=False,
            says="With a second head on, like the first and as tight: soft taps near the rods in"
            " order, nothing on the other head.", chance=3,
        ),
        *(
            one_tap(opened, drum, batter_n_per_m=tight, chance=number)
            for number, (drum, tight) in enumerate(KIT_N_PER_M.items(), 4)
        ),
    )  # fmt: skip


def one_tap(opened: OpenJob, drum: str, *, batter_n_per_m: float, chance: int) -> Recording:
    """Make the recording of one soft tap near a drum's first rod; the same bytes each time."""
    tune = _as_found(opened, drum)
    on = tune.before(batter_n_per_m=batter_n_per_m)
    how = "." if on.is_open else ", a folded cloth on the other head."
    return _recording(
        f"{drum.replace(' ', '-')}-one-tap.wav", drum, on, _rods(tune)[:1], lobes=EVEN,
        chance=chance, cloth=not on.is_open, says=f"One soft tap near rod 1{how}",
    )  # fmt: skip


def _as_found(opened: OpenJob, drum: str) -> DrumToTune:
    wanted = next(wanted for wanted in opened.job.drums if wanted.drum.key == drum)
    found = as_found(wanted.drum, shop=opened.shop)
    return drum_between(wanted, found=found, then=found)


def _rods(tune: DrumToTune) -> list[tuple[int, float]]:
    rods = tune.rods("batter")
    return [(rod.number, rod.along_deg) for rod in rods.rods] if rods else []


def _recording(
    name: str,
    drum: str,
    shell: HeadedShell,
    rods: Sequence[tuple[int, float]],
    *,
    lobes: Lobes,
    cloth: bool,
    says: str,
    chance: int,
    too_hard: int | None = None,
) -> Recording:
    by_chance = np.random.default_rng(chance)
    taps = tuple(
        Tapped(
            rod=rod,
            along_deg=along_deg,
            starts_s=LEAD_S + EVERY_S * number,
            too_loud=number == too_hard,
        )
        for number, (rod, along_deg) in enumerate(rods)
    )
    sound = _heard(shell, taps, lobes=lobes, cloth=cloth, by_chance=by_chance)
    return Recording(
        name=name,
        drum=drum,
        says=f"{says} {MADE}",
        taps=taps,
        lobes=lobes,
        drum_struck=shell,
        wav=wav_bytes(sound, rate_hz=RATE_HZ),
    )


def _heard(
    shell: HeadedShell,
    taps: Sequence[Tapped],
    *,
    lobes: Lobes,
    cloth: bool,
    by_chance: np.random.Generator,
) -> NDArray[np.float64]:
    rung = muted(shell) if cloth else shell
    found = modes(rung, up_to_hz=UP_TO_HZ)
    last_s = taps[-1].starts_s
    sound = HISS * by_chance.standard_normal(round((last_s + RING_S) * RATE_HZ))
    for tap in taps:
        # Nobody taps twice alike, nor twice in the same place.
        strength, aside = by_chance.uniform(0.8, 1.25), by_chance.uniform(-3.0, 3.0)
        blow = Blow(
            out=TAPPED_OUT,
            along_deg=tap.along_deg + aside,
            impulse_n_s=TOO_HARD_N_S if tap.too_loud else SOFT_N_S * strength,
        )
        stroke = struck(rung, found, blow=blow, ear=PHONE, lobes=lobes, other_muted=cloth)
        ringing = stroke.sound(seconds=RING_S, rate_hz=RATE_HZ) / FULL_PA
        first = round(tap.starts_s * RATE_HZ)
        sound[first : first + len(ringing)] += ringing
    return sound
