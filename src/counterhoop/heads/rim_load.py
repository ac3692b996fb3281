"""A pull all round the rim, as its mean and waves of so many lobes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.heads.believed import believed_radius

MOST_LOBES = 8
FEWEST_RODS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Wave:
    """Lobes of more pull with lobes of less between them.

    Attributes
    ----------
    lobes : int
        How many of each, 1 or more.
    high_n_per_m : float
        How far a lobe of more pull stands above the mean, 0 or more.
    tight_deg : float
        Where along the first of these is, 0 up to 360 over ``lobes``.
    """

    lobes: int
    high_n_per_m: float
    tight_deg: float

    def at(self, along_deg: float) -> float:
        """Return what the wave adds to the mean at a place along."""
        turn = self.lobes * math.radians(along_deg - self.tight_deg)
        return self.high_n_per_m * math.cos(turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class RimLoad:
    """Force on each metre of the rim, from the rods or in the film.

    Attributes
    ----------
    mean_n_per_m : float
        Over the whole rim.
    waves : tuple of Wave
        What is added to it, each number of lobes once.
    """

    mean_n_per_m: float
    waves: tuple[Wave, ...] = ()

    def at(self, along_deg: float) -> float:
        """Return the load at a place along."""
        return self.mean_n_per_m + math.fsum(wave.at(along_deg) for wave in self.waves)

    def wave(self, lobes: int) -> Wave:
        """Return the wave of so many lobes, of no height where there is none."""
        none = Wave(lobes=lobes, high_n_per_m=0.0, tight_deg=0.0)
        return next((wave for wave in self.waves if wave.lobes == lobes), none)

    def passed_on(self, share: Callable[[int], float]) -> RimLoad:
        """Return the load of which a share of each wave is left, by its number of lobes."""
        return RimLoad(
            mean_n_per_m=self.mean_n_per_m,
            waves=tuple(
                Wave(
                    lobes=wave.lobes,
                    high_n_per_m=share(wave.lobes) * wave.high_n_per_m,
                    tight_deg=wave.tight_deg,
                )
                for wave in self.waves
            ),
        )


def load_of_rods(
    forces_n: Sequence[float],
    *,
    along_deg: Sequence[float],
    radius_m: float,
    most_lobes: int = MOST_LOBES,
) -> RimLoad:
    """Return the load that rods put on the hoop.

    Parameters
    ----------
    forces_n, along_deg : sequence of float, shape (rods,)
        Pull of each rod and where it is.
    radius_m : float
        Of the rim.
    most_lobes : int
        Waves with more lobes than this are left out; no hoop passes them on.

    Raises
    ------
    BadInput
        With fewer than three rods, not as many places as pulls, or no pull on the whole.

    Notes
    -----
    The rods are points of force on a circle: ``f_0 = sum F / (2 pi a)``, and a wave of p lobes is
    the Fourier term ``sum F exp(i p th) / (pi a)``.

    Examples
    --------
    >>> load = load_of_rods([440, 400, 400, 400, 400, 400], radius_m=0.1524,
    ...                     along_deg=[0, 60, 120, 180, 240, 300])
    >>> round(load.mean_n_per_m, 1), round(load.wave(2).high_n_per_m, 1)
    (2548.2, 83.5)
    """
    if len(forces_n) < FEWEST_RODS or len(forces_n) != len(along_deg):
        raise BadInput(
            "cannot be laid round a rim",
            where="rods",
            given=f"{len(forces_n)} pulls at {len(along_deg)} places",
            wanted="three rods or more, with one place along for each",
        )
    believed_radius(radius_m)
    if not all(map(math.isfinite, (*forces_n, *along_deg))) or math.fsum(forces_n) <= 0.0:
        raise BadInput("do not pull a head taut", where="rods", given=list(forces_n))
    waves = []
    for lobes in range(1, most_lobes + 1):
        turns = [lobes * math.radians(place) for place in along_deg]
        even = math.fsum(pull * math.cos(turn) for pull, turn in zip(forces_n, turns, strict=True))
        odd = math.fsum(pull * math.sin(turn) for pull, turn in zip(forces_n, turns, strict=True))
        waves.append(
            Wave(
                lobes=lobes,
                high_n_per_m=math.hypot(even, odd) / (math.pi * radius_m),
                tight_deg=math.degrees(math.atan2(odd, even)) / lobes % (360.0 / lobes),
            )
        )
    mean = math.fsum(forces_n) / (2.0 * math.pi * radius_m)
    return RimLoad(mean_n_per_m=mean, waves=tuple(waves))
