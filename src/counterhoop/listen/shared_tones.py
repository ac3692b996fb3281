"""Whether taps share one pitch, two, or more, and what is known of each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.heterodyne import Band
from counterhoop.listen.joint_fit import NOISE_CLOSER, JointFit, fit_jointly
from counterhoop.listen.partial import Partial
from counterhoop.listen.shared_poles import guess_poles

TWO_BETTER_DB, MORE_BETTER_DB = 3.0, 6.0
SURE = 2.5
DECAYS_ALIKE = 3.0
WEAK = 0.02
CHANCE = 20.0
FRONT, NOTHING_LEFT = 2.0, 1.5
HALF_DEG, ALIKE = 175.0, 0.9
Evidence = Literal["plainly", "perhaps", "no"]


def best_fit(bands: Sequence[Band], count: int, *, beside: JointFit | None = None) -> JointFit:
    """Return the best fit of ``count`` pitches, also from starts close beside a fit of one.

    These are only tried where the first one leaves what dies away and so is no noise.
    """
    hz, decay = guess_poles(bands, count=count)
    best = fit_jointly(bands, hz=hz, decay_per_s=decay)
    if beside is None or best.front < NOTHING_LEFT:
        return best
    middle, dies = float(beside.hz[0]), float(beside.decay_per_s[0])
    near = (
        fit_jointly(bands, hz=[middle - apart, middle + apart], decay_per_s=[dies, dies])
        for apart in (0.15 * dies, 0.5 * dies)
    )
    return min([best, *near], key=lambda fit: fit.left)


def two_there(one: JointFit, two: JointFit) -> Evidence:
    """Return whether there are two pitches.

    Plainly, where two leave half as much of the taps as one does. In noise, which neither
    explains, that cannot be; there it is "perhaps" where two are likelier than one by more than
    their free parameters and chance make of noise.
    """
    split, doubt = split_of(two)
    alike = float(two.decay_per_s.max() / two.decay_per_s.min()) < DECAYS_ALIKE
    if not alike or split < SURE * doubt:
        return "no"
    better = math.log(one.left / two.left)
    if 10.0 * better / math.log(10.0) >= TWO_BETTER_DB:
        return "plainly"
    freed = 2 + 2 * len(two.amplitudes)
    return "perhaps" if better * two.samples / NOISE_CLOSER > freed + CHANCE else "no"


def split_of(fit: JointFit) -> tuple[float, float]:
    """Return how far two pitches are apart in cents, and its standard doubt."""
    per_hz = 1200.0 / math.log(2.0) / fit.hz
    to = np.array([-per_hz[0], per_hz[1]])
    doubt = math.sqrt(float(to @ fit.covariance[:2, :2] @ to))
    return 1200.0 * math.log2(float(fit.hz[1] / fit.hz[0])), doubt


def mean_doubt(fit: JointFit) -> float:
    """Return the standard doubt of the mean pitch in Hz."""
    p = len(fit.hz)
    return math.sqrt(float(np.ones(p) @ fit.covariance[:p, :p] @ np.ones(p))) / p


def weak(fit: JointFit) -> bool:
    """Return whether one of the pitches is small at all taps."""
    power = np.sum(np.abs(fit.amplitudes) ** 2, axis=0)
    return float(power.min() / power.sum()) < WEAK


def more(bands: Sequence[Band], two: JointFit) -> bool:
    """Return whether more tones than two are there: only where what two leave dies away."""
    if two.front < FRONT:
        return False
    hz, decay = guess_poles(bands, count=4)
    four = fit_jointly(bands, hz=hz, decay_per_s=decay)
    power = np.sum(np.abs(four.amplitudes) ** 2, axis=0)
    real = (power > WEAK / 4.0 * power.sum()) & (
        four.decay_per_s < DECAYS_ALIKE * two.decay_per_s.min()
    )
    return 10.0 * math.log10(two.left / four.left) >= MORE_BETTER_DB and int(real.sum()) > 2


def same_all_round(amplitudes: NDArray[np.complex128], *, along_deg: Sequence[float]) -> bool:
    """Return whether one pitch starts alike at all taps, as (0,1) does.

    That of (1,1) starts the other way on the other side of the phone, so that taps which are not
    all on one half of the rim call it up both ways.

    Examples
    --------
    >>> turn = np.radians([0.0, 90.0, 180.0, 270.0])
    >>> (same_all_round(np.cos(turn - 0.7) + 0j, along_deg=np.degrees(turn)),
    ...  same_all_round(np.exp(0.3j) * np.array([1.0, 0.4, 0.8, 2.0]), along_deg=np.degrees(turn)))
    (False, True)
    """
    order = np.sort(np.asarray(along_deg, dtype=float) % 360.0)
    widest = float(np.max(np.diff(order, append=order[0] + 360.0)))
    size = float(np.sum(np.abs(amplitudes)))
    return widest < HALF_DEG and abs(complex(np.sum(amplitudes))) > ALIKE * size


def partials(fit: JointFit) -> tuple[Partial, ...]:
    """Return the shared pitches, as loud as they are in the taps on the whole."""
    p = len(fit.hz)
    size = np.sqrt(np.mean(np.abs(fit.amplitudes) ** 2, axis=0))
    doubts = np.sqrt(np.diag(fit.covariance))
    return tuple(
        Partial(
            hz=float(fit.hz[i]),
            hz_doubt=float(doubts[i]),
            decay_per_s=float(fit.decay_per_s[i]),
            decay_doubt=float(doubts[p + i]),
            level_db=20.0 * math.log10(float(size[i] / size.max())),
            amplitude=float(size[i]),
            phase_rad=0.0,
        )
        for i in range(p)
    )
