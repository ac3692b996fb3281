"""Least squares over the whole band: pitch, decay and glide together, with what is doubted of each.

The amplitudes and phases enter linearly and are solved for at every step (variable projection:
G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10 (1973); the slopes as L. Kaufman, BIT 15
(1975) shortens them; both from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterhoop.listen.glide import CARRIED_SHARE, Course, ahead_s
from counterhoop.listen.heterodyne import Band

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
# How far tau may stray from 1 / (2 decay) before the sound must prove it: a factor e^0.5, 1 sd.
TAU_SPREAD = 0.5
# How far a drum's pitch may start from where it settles before the sound must prove it, 1 sd.
SHARE_SPREAD = 0.15
LEAST_DECAY, MOST_DECAY = 0.05, 200.0
_STEPS, _TRIES, _ENOUGH = 30, 8, 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Tones with one common glide, fitted to a band.

    Attributes
    ----------
    hz, hz_doubt, decay_per_s, decay_doubt : tuple of float
        Of each tone, with standard uncertainties from what the fit leaves over.
    share, tau_s, share_doubt : float
        The common glide. Its doubt minds when what is left over was loud: a tone that dies fast
        beside these is left over just where the glide is heard.
    amplitudes : tuple of complex
        Carried back to the start of the stroke.
    left : float
        Mean square of what is left over.
    explained_db : float
        How far that is below the mean square of the band, as long as the tones are within 20 dB
        of their strongest.
    """

    hz: tuple[float, ...]
    hz_doubt: tuple[float, ...]
    decay_per_s: tuple[float, ...]
    decay_doubt: tuple[float, ...]
    share: float
    share_doubt: float
    tau_s: float
    amplitudes: tuple[complex, ...]
    left: float
    explained_db: float

    def course(self, which: int) -> Course:
        """Return how one of the tones runs."""
        return Course(
            hz=self.hz[which],
            decay_per_s=self.decay_per_s[which],
            share=self.share,
            tau_s=self.tau_s,
        )


def refine(
    band: Band, *, tones: Sequence[Course], glide_free: bool = True, steps: int = _STEPS
) -> Fit | None:
    """Fit tones to a band, from where a search put them.

    Parameters
    ----------
    band : Band
        Of more samples than there are unknowns.
    tones : sequence of Course
        Where to begin; the glide of the first is that of all.
    glide_free : bool, optional
        False keeps that glide as it is.

    Returns
    -------
    Fit or None
        None where the band is too short or the tones cannot be told from each other.
    """
    sums = _Sums(band, count=len(tones), glide_free=glide_free)
    if sums.spare <= 0:
        return None
    first = tones[0]
    at = np.array(
        [
            *(tone.hz for tone in tones),
            *(tone.decay_per_s for tone in tones),
            first.share,
            math.log(first.tau_s),
        ]
    )
    try:
        return sums.settle(at, steps)
    except np.linalg.LinAlgError:
        return None


class _Sums:
    """The sums of squares of one band."""

    def __init__(self, band: Band, *, count: int, glide_free: bool) -> None:
        self.band, self.count, self.glide_free = band, count, glide_free
        self.times = band.times_s
        self.spare = 2 * len(self.times) - 4 * count - 2

    def tones(self, at: Floats) -> Complexes:
        hz, decay = at[: self.count], at[self.count : 2 * self.count]
        ran = self.times + ahead_s(self.times, share=at[-2], tau_s=math.exp(at[-1]))
        turned = 2.0 * np.pi * (np.outer(ran, hz) - (self.band.centre_hz * self.times)[:, None])
        return np.asarray(np.exp(1j * turned - np.outer(self.times, decay)))

    def solve(self, at: Floats) -> tuple[Complexes, Complexes, Complexes, Complexes]:
        """Return tones, their orthonormal basis, amplitudes and what is left."""
        tones = self.tones(at)
        basis, square = np.linalg.qr(tones)
        amplitudes = np.asarray(
            np.linalg.solve(square, basis.conj().T @ self.band.values), dtype=np.complex128
        )
        return tones, np.asarray(basis), amplitudes, self.band.values - tones @ amplitudes

    def slopes(self, at: Floats, tones: Complexes, amplitudes: Complexes) -> Complexes:
        share, tau = at[-2], math.exp(at[-1])
        parts = tones * amplitudes
        fading = np.exp(-self.times / tau)
        ran = self.times + share * tau * (1.0 - fading)
        columns = [2j * np.pi * ran[:, None] * parts, -self.times[:, None] * parts]
        if self.glide_free:
            turning = 2j * np.pi * (parts @ at[: self.count])
            bent = share * tau * (1.0 - fading - self.times / tau * fading)
            columns += [(turning * tau * (1.0 - fading))[:, None], (turning * bent)[:, None]]
        return np.hstack(columns)

    def strays(self, at: Floats) -> Floats:
        """Return how far share and tau are from what is expected before listening, in sd."""
        tau_strays = (at[-1] + math.log(2.0 * at[self.count])) / TAU_SPREAD
        return np.array([at[-2] / SHARE_SPREAD, tau_strays])

    def cost(self, at: Floats, left: Complexes, variance: float) -> float:
        strays = self.strays(at) if self.glide_free else np.zeros(2)
        return float(np.vdot(left, left).real + variance * strays @ strays)

    def variance(self, left: Complexes) -> float:
        return max(float(np.vdot(left, left).real) / self.spare, 1e-30)

    def allowed(self, at: Floats) -> bool:
        decay = at[self.count : 2 * self.count]
        return bool(
            (decay > LEAST_DECAY).all()
            and (decay < MOST_DECAY).all()
            and abs(at[-2]) < CARRIED_SHARE
            and -6.0 < at[-1] < 1.5
        )

    def settle(self, at: Floats, steps: int) -> Fit:
        tones, basis, amplitudes, left = self.solve(at)
        damp = 1e-3
        rows, scale = np.eye(1), np.ones(1)
        for _ in range(steps):
            variance = self.variance(left)
            now = self.cost(at, left, variance)
            rows, pull, scale = self._equations(at, tones, basis, amplitudes, left, variance)
            normal = rows.T @ rows
            for _ in range(_TRIES):
                move = np.linalg.solve(normal + damp * np.eye(len(normal)), pull) / scale
                next_at = at.copy()
                next_at[: len(move)] += move
                if self.allowed(next_at):
                    tried = self.solve(next_at)
                    then = self.cost(next_at, tried[3], variance)
                    if then < now:
                        break
                damp *= 5.0
            else:
                break
            at, (tones, basis, amplitudes, left) = next_at, tried
            damp = max(damp / 5.0, 1e-9)
            if now - then < _ENOUGH * now:
                break
        return self._result(at, amplitudes, left, rows, scale)

    def _equations(
        self,
        at: Floats,
        tones: Complexes,
        basis: Complexes,
        amplitudes: Complexes,
        left: Complexes,
        variance: float,
    ) -> tuple[Floats, Floats, Floats]:
        slopes = self.slopes(at, tones, amplitudes)
        slopes = slopes - basis @ (basis.conj().T @ slopes)
        rows = np.vstack([slopes.real, slopes.imag])
        rest = np.concatenate([left.real, left.imag])
        if self.glide_free:
            held = np.zeros((2, rows.shape[1]))
            held[0, -2] = -1.0 / SHARE_SPREAD
            held[1, self.count] = -1.0 / (at[self.count] * TAU_SPREAD)
            held[1, -1] = -1.0 / TAU_SPREAD
            rows = np.vstack([rows, math.sqrt(variance) * held])
            rest = np.append(rest, math.sqrt(variance) * self.strays(at))
        scale = np.sqrt((rows**2).sum(axis=0)) + 1e-300
        rows = rows / scale
        return rows, rows.T @ rest, scale

    def _share_doubt(self, rows: Floats, spread: Floats, left: Complexes) -> float:
        """Return the doubt of the share where each moment is as noisy as what it leaves over.

        H. White, Econometrica 48 (1980) 817 (from memory); as the plain one for even noise.
        """
        noise = np.full(len(rows), self.variance(left))
        each = np.abs(left) ** 2 * len(left) / self.spare
        noise[: 2 * len(left)] = np.concatenate([each, each])
        return math.sqrt(float((rows @ spread[-2]) ** 2 @ noise))

    def _result(
        self, at: Floats, amplitudes: Complexes, left: Complexes, rows: Floats, scale: Floats
    ) -> Fit:
        # Samples taken faster than the band is wide do not count as so many.
        crowded = max(1.0, self.band.rate_hz / self.band.noise_hz)
        spread: Floats = np.linalg.pinv(rows.T @ rows).astype(np.float64)
        doubts = np.sqrt(np.maximum(np.diag(spread), 0.0) * self.variance(left))
        if self.glide_free:
            # The greater: of few samples neither is known well.
            doubts[-2] = max(float(doubts[-2]), self._share_doubt(rows, spread, left))
        doubts *= math.sqrt(crowded) / scale
        heard = np.abs(self.band.values - left)
        alive = heard >= 0.1 * heard.max()
        over = float(np.mean(np.abs(left[alive]) ** 2))
        whole = float(np.mean(np.abs(self.band.values[alive]) ** 2))
        count = self.count
        return Fit(
            hz=tuple(at[:count].tolist()),
            hz_doubt=tuple(doubts[:count].tolist()),
            decay_per_s=tuple(at[count : 2 * count].tolist()),
            decay_doubt=tuple(doubts[count : 2 * count].tolist()),
            share=float(at[-2]),
            share_doubt=float(doubts[-2]) if self.glide_free else 0.0,
            tau_s=math.exp(at[-1]),
            amplitudes=tuple(amplitudes.tolist()),
            left=float(np.mean(np.abs(left) ** 2)),
            explained_db=10.0 * math.log10(max(whole, 1e-30) / max(over, 1e-30)),
        )
