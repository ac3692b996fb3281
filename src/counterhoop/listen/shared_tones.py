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
ALIKE = 0.8
"""Of all taps together; an onset found a third of a millisecond astray costs 0.1 at 220 Hz."""
Complexes = NDArray[np.complex128]
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
    """Return whether more tones than two are there: only where what two leave dies away.

    A tone counts where it is apart from its neighbour by more than both can be in doubt: a glide
    that is not quite exponential is explained by one that dies a little faster in the same place.
    """
    if two.front < FRONT:
        return False
    hz, decay = guess_poles(bands, count=4)
    four = fit_jointly(bands, hz=hz, decay_per_s=decay)
    power = np.sum(np.abs(four.amplitudes) ** 2, axis=0)
    real = np.flatnonzero(
        (power > WEAK / 4.0 * power.sum())
        & (four.decay_per_s < DECAYS_ALIKE * two.decay_per_s.min())
    )
    doubt = np.sqrt(np.diag(four.covariance)[real])
    apart = np.diff(four.hz[real]) > SURE * np.hypot(doubt[1:], doubt[:-1])
    return 10.0 * math.log10(two.left / four.left) >= MORE_BETTER_DB and int(apart.sum()) >= 2


def turns_round(amplitudes: Complexes, *, along_deg: Sequence[float], place: Sequence[int]) -> bool:
    """Return whether one pitch turns round the rim as (1,1) does.

    Parameters
    ----------
    amplitudes : ndarray of complex, shape (k,)
        Of it in each tap, at the start.
    along_deg, place : sequence of float, int
        Where each tap was, and from which place of the phone it was heard.

    Notes
    -----
    On one half of the rim (1,1) starts one way, on the other half the other way, wherever the
    phone lies; how hard each tap was does not matter. (0,1) starts alike at all taps, and another
    drum that rings along as chance will have it.

    Examples
    --------
    >>> turn = np.radians([0.0, 90.0, 180.0, 270.0])
    >>> [turns_round(np.asarray(heard), along_deg=np.degrees(turn), place=[0] * 4)
    ...  for heard in (np.cos(turn - 0.7) + 0j, np.exp(0.3j) * np.array([1.0, 0.4, 0.8, 2.0]))]
    [True, False]
    """
    turn, where = np.radians(np.asarray(along_deg, dtype=float)), np.asarray(place)
    halves = np.sign(np.cos(turn - np.radians(np.arange(0.0, 180.0, 3.0))[:, None]))
    turning = size = 0.0
    for at in np.unique(where):
        here = amplitudes[where == at]
        turning += float(np.abs(halves[:, where == at] @ here).max())
        size += float(np.sum(np.abs(here)))
    return turning > ALIKE * size


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
